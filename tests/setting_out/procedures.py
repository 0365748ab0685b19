"""A small procedure that sets one opening out, run with a sheet."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from guide.checker.check import check
from guide.procedure.graph import Graph
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from guide.run.state import State
from tests.run.small_procedures import NOON, give
from tests.setting_out.twelve_openings import Worked
from tests.trade.shipped_sheets import shipped

MARKING = """procedure: marking
edition: 1
title: Mark one door
about: A door whose holes are marked from the closer's sheet.
facts:
  mount:
    choice: {regular: Regular arm, top-jamb: Top jamb, parallel: Parallel arm}
    ask: Which mount?
  knuckles:
    choice: {left: Left, right: Right}
    ask: From the pull side, where are the hinges?
  hinge:
    choice: {butt: Butt hinges, continuous: Continuous hinge, swing-clear: Swing-clear hinges}
    ask: What does the leaf hang on?
  opening:
    angle: {from: 60 deg, to: 180 deg, step: 1 deg}
    ask: How far does it open?
  soffit:
    choice: {flat: Flat, stepped: Stepped, blade: Blade stop, narrow: Narrow}
    ask: Which soffit?
  head_item:
    choice: {clear: Nothing, coordinator: Coordinator bar}
    ask: What is on the head?
  top_rail:
    length: {from: 1 in, to: 12 in, step: 1/16 in}
    ask: How high is the top rail?
  setting_out:
    worked: setting-out
    using:
      {mount: mount, knuckles: knuckles, hinge: hinge, opening: opening, soffit: soffit, head_item: head_item,
       top_rail: top_rail}
    parts: [refusal, why, body_place, shoe_place, body_along, valves_toward, row]
steps:
  - ask: {id: mount, fact: mount}
  - ask: {id: knuckles, fact: knuckles}
  - ask: {id: hinge, fact: hinge}
  - ask: {id: opening, fact: opening}
  - ask: {id: soffit, fact: soffit}
  - ask: {id: head, fact: head_item}
  - ask: {id: rail, fact: top_rail}
  - by_case:
      id: by-refusal
      cases:
        - id: marked
          when: {refusal: go-on}
          steps:
            - do:
                id: mark
                draws: elevation
                text: "Body {body_place}. Shoe {shoe_place}. Valves to the {valves_toward}."
                why: "{row}, {body_along}"
        - id: stopped
          when: {not: {refusal: go-on}}
          steps:
            - do: {id: stop, text: "{why}"}
  - end: {id: done, outcome: finished, text: Done.}
"""


@cache
def _graph() -> Graph:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "marking.yaml"
        path.write_text(MARKING)
        report = check(path)
    assert report.graph is not None, report.findings
    return report.graph


def marked(door: Worked) -> State:
    """A run of that opening, standing where its marks are told."""
    session = Session.begin(
        MemoryJournal(),
        _graph(),
        device="bench",
        units="inch" if door.unit == "in" else "metric",
        sheet=shipped(door.sheet).to_json(),
        clock=lambda: NOON,
    )
    return give(
        session,
        *(door.mount, door.knuckles, door.hinge, door.opening),
        door.seen.get("soffit", "flat"),
        door.seen.get("head_item", "clear"),
        door.seen.get("top_rail", "6 in"),
    )
