"""A practice door's file: read into the model's units, and every slip told with its place."""

from pathlib import Path

import pytest

from guide.files.findings import BadFile
from guide.procedure.practice_file import read_practice

DOOR = """\
practice: tool-room
title: Tool room
about: It will not latch.
grade: 3
leaf:
  knuckles: left
  width: 36 in
  height: 84 in
  mass: 110 lb
  air: -4 Pa
closer:
  mount: regular
  sizes: 1 to 4
  stands_at: 2.5
  sweep: 1.75
  latch: 1.5
  delay: 0.5
limit:
  force: 5 lbf
  asked_by: the owner
faults:
  - {cause: hinge, amount: 10 N m, put_right: 0.3 N m}
"""


def test_a_door_is_read_into_the_models_units() -> None:
    door = read_practice(Path("tool-room.yaml"), DOOR)[1]
    assert door.door.width == pytest.approx(0.9144)
    assert door.door.mass == pytest.approx(49.9, abs=0.1)
    assert door.door.pressure == -4
    assert door.limit == pytest.approx(22.24, abs=0.01)
    assert (door.sizes, door.door.size, door.delay) == ((1, 4), 2.5, 0.5)
    assert door.faults[0].amount == 10
    assert not door.hopeless


@pytest.mark.parametrize(
    ("right", "wrong", "line", "says"),
    [
        ("grade: 3", "grade: 5", 4, "5 is not a grade; write 1 to 4."),
        ("width: 36 in", "width: 36", 7, "has no unit"),
        ("width: 36 in", "width: 36 ft", 7, "outside what the model was tried with"),
        ("stands_at: 2.5", "stands_at: 2.3", 14, "EN size 2.3 is not one that the label has"),
        ("stands_at: 2.5", "stands_at: 5", 14, "EN size 5 is not one that the label has"),
        ("sizes: 1 to 4", "sizes: 4 to 1", 13, "the weaker size first"),
        ("sweep: 1.75", "sweep: 5", 15, "not a number from 0 to 4"),
        ("sweep: 1.75", "sweep: nan", 15, "not a number from 0 to 4"),
        ("amount: 10 N m", "amount: 10 Pa", 22, "Pa"),
        (", put_right: 0.3 N m}", ", put_right: 0.3 N m, inside: yes}", 22, "only a leak"),
        ("cause: hinge, amount: 10 N m", "cause: hinge", 22, "every cause but “size”"),
        ("cause: hinge", "cause: leak", 22, "cannot be put right at the door"),
        ("cause: hinge", "cause: gremlin", 22, "not one of air, seal, hinge"),
    ],
)
def test_a_slip_is_told_at_its_line(right: str, wrong: str, line: int, says: str) -> None:
    assert right in DOOR
    with pytest.raises(BadFile) as caught:
        read_practice(Path("tool-room.yaml"), DOOR.replace(right, wrong))
    found = [finding for finding in caught.value.findings if says in finding.message]
    assert found, [finding.message for finding in caught.value.findings]
    assert found[0].line == line
