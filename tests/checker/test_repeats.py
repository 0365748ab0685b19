"""Repeats whose steps and whose `until` do not meet, and failures that lead to nothing."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.run.replay import replay

SWEEP = """\
procedure: stair-door
title: The stair's door
facts:
  sweep:
    time: {{from: 1 s, to: 30 s, step: 1/10 s}}
    ask: How long from 90 degrees to the 12-degree mark?
    find_out: From 5 s to 7 s is right.
steps:
  - repeat:
      id: tune
      steps:
        - time: {{id: now, fact: sweep}}
        - do: {{id: slower, when: {{sweep: "{slower}"}}, text: Turn the sweep valve slower.}}
        - do: {{id: faster, when: {{sweep: "{faster}"}}, text: Turn the sweep valve faster.}}
      until: {until}
      at_most: 6
      otherwise: {{steps: [{{end: {{id: leak, outcome: not-started, text: Look for a leak.}}}}]}}
  - end: {{id: done, outcome: finished}}
"""


def found(folder: Path, text: str) -> list[tuple[str, str]]:
    path = folder / "stair-door.yaml"
    path.write_text(text)
    return [(f.code, f.example) for f in check(path, replay=replay).findings]


@pytest.mark.parametrize(
    ("slower", "faster", "until", "codes"),
    [
        ("< 5 s", "> 7 s", "{sweep: 5 s to 7 s}", set()),
        (
            *(">= 5 s", "> 7 s", "{sweep: 5 s to 7 s}"),
            {"cure-unneeded", "done-when-over", "round-for-nothing"},
        ),
        ("< 5 s", "> 7 s", "{not: {sweep: 5 s to 7 s}}", {"done-when-over", "round-for-nothing"}),
        ("<= 5 s", "> 7 s", "{sweep: 5 s to 7 s}", {"done-when-over"}),
    ],
)
def test_a_valve_is_turned_where_the_sweep_is_wrong_and_nowhere_else(
    tmp_path: Path, slower: str, faster: str, until: str, codes: set[str]
) -> None:
    text = SWEEP.format(slower=slower, faster=faster, until=until)
    assert {code for code, _ in found(tmp_path, text)} == codes


def test_the_example_is_a_reading_that_is_right_and_acted_on(tmp_path: Path) -> None:
    text = SWEEP.format(slower="<= 5 s", faster="> 7 s", until="{sweep: 5 s to 7 s}")
    assert found(tmp_path, text) == [
        ("done-when-over", "sweep from 5 s: over, and done all the same"),
    ]


TWO_READINGS = """\
procedure: stair-door
title: The stair's door
facts:
  sweep: {time: {from: 1 s, to: 30 s, step: 1/10 s}, ask: How long to the mark?, find_out: At least 5 s.}
  home: {yesno: {}, ask: Does it latch by itself every time?}
steps:
  - repeat:
      id: last-swings
      steps:
        - time: {id: last-timing, fact: sweep}
        - do: {id: slower, when: {sweep: "< 5 s"}, text: Turn the sweep valve slower.}
        - ask: {id: every-time, fact: home}
        - do: {id: latch, when: {home: no}, text: Turn the latch valve faster.}
      until: {sweep: ">= 5 s", home: yes}
      at_most: 3
      otherwise: {steps: [{end: {id: unfit, outcome: not-started, text: Fetch the foreman.}}]}
  - end: {id: done, outcome: finished}
"""


def test_a_step_between_two_readings_may_be_all_that_a_round_does(tmp_path: Path) -> None:
    assert found(tmp_path, TWO_READINGS) == []


def test_a_step_before_the_reading_is_for_the_next_round(tmp_path: Path) -> None:
    text = """\
procedure: stair-door
title: The stair's door
facts:
  latch: {choice: {shuts: Shuts softly, slams: Slams, short: Stops short}, ask: What does the latch do?}
steps:
  - ask: {id: at-first, fact: latch}
  - repeat:
      id: spring
      when: {not: {latch: shuts}}
      steps:
        - do: {id: more, when: {latch: short}, text: Make the spring stronger.}
        - do: {id: softer, when: {latch: slams}, text: Turn the latch valve slower.}
        - ask: {id: now, fact: latch}
      until: {latch: shuts}
      at_most: 2
      otherwise: {steps: [{end: {id: no-latch, outcome: not-started, text: Fetch the foreman.}}]}
  - end: {id: done, outcome: finished}
"""
    assert found(tmp_path, text) == []
    turned = text.replace("until: {latch: shuts}", "until: {not: {latch: shuts}}")
    assert [code for code, _ in found(tmp_path, turned)] == [
        "round-for-nothing",
        "only-first-round",
        "only-first-round",
    ]


FAILURE = """\
procedure: stair-door
title: The stair's door
facts:
  closer:
    choice: {{surface: Surface body, track: Track arm}}
    unsure: true
    ask: Which closer is it?
    find_out: Open the box.
steps:
  - check:
      id: right-closer
      fact: closer
      limit: surface
      otherwise:
        steps:
          - by_case:
              id: which
              cases:
                - id: track
                  when: {{closer: track}}
                  steps: [{{end: {{id: other, outcome: not-started, text: Fetch the right one.}}}}]
                - {{id: unknown, when: {{not: {{closer: track}}}}, steps: {steps}}}
  - end: {{id: done, outcome: finished}}
"""


@pytest.mark.parametrize(
    ("steps", "codes"),
    [
        ("[]", ["failure-passed"]),
        ("[{do: {id: report, text: Tell the foreman.}}]", []),
        ("[{end: {id: find-out, outcome: not-started, text: Find out first.}}]", []),
    ],
)
def test_each_way_to_fail_leads_to_something(tmp_path: Path, steps: str, codes: list[str]) -> None:
    assert [code for code, _ in found(tmp_path, FAILURE.format(steps=steps))] == codes
