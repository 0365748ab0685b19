"""`draws:` on a block: which blocks take it, what it needs, and that nothing rests on it."""

from pathlib import Path

import pytest

from tests.procedure.sample_procedure import compiled, graph_of_text, node

HEAD = """\
procedure: closet-door
title: A closer on a closet door
facts:
  mount: {choice: {regular: Regular arm, parallel: Parallel arm}, ask: Which mount?}
  knuckles: {choice: {left: Left, right: Right}, ask: Where are the hinges?}
  width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
  close: {time: {from: 1 s, to: 20 s, step: 0.1 s}, ask: How long does it take to close?}
  size: {worked: spring-size, using: {width: width, mount: mount}}
steps:
"""
END = "  - end: {id: done, outcome: finished}\n"
TOLD = {
    "do": "text: Hold the body up.",
    "ask": "fact: width",
    "work": "fact: size",
    "time": "fact: close",
    "check": "fact: close, limit: '>= 5 s', otherwise: {go: done}",
    "hold": "reads_back: [width]",
}


@pytest.mark.parametrize("view", ["plan", "elevation"])
@pytest.mark.parametrize("kind", list(TOLD))
def test_every_told_block_may_draw_and_nothing_rests_on_it(
    tmp_path: Path, kind: str, view: str
) -> None:
    step = f"  - {kind}: {{id: one, {TOLD[kind]}, draws: {view}}}\n"
    drawn = node(graph_of_text(tmp_path, HEAD + step + END), "one")
    plain = node(graph_of_text(tmp_path, HEAD + step.replace(f", draws: {view}", "") + END), "one")
    assert drawn.body["draws"] == view
    assert drawn.shows == plain.shows


@pytest.mark.parametrize(
    "block",
    [
        "do: {id: one, text: Hold the body up., draws: side}",
        "end: {id: one, outcome: finished, draws: plan}",
    ],
)
def test_another_view_or_another_block_is_refused(tmp_path: Path, block: str) -> None:
    graph, found = compiled(tmp_path, f"{HEAD}  - {block}\n{END}")
    assert graph is None
    assert found[0].level == "error"


def test_what_is_drawn_needs_the_mount_and_the_knuckles(tmp_path: Path) -> None:
    text = HEAD.replace("  knuckles:", "  pins:")
    step = "  - do: {id: one, text: Hold the body up., draws: plan}\n"
    _, found = compiled(tmp_path, text + step + END)
    assert [(one.code, one.line) for one in found] == [("fact-unknown", 10)]
    assert "“knuckles”" in found[0].message
