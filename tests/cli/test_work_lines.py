"""`hingeside work` for a person: lists are told line by line, once."""

import pytest

from guide.cli.main import main


def lines_of(capsys: pytest.CaptureFixture[str], *words: str) -> list[str]:
    assert main(["work", *words]) == 0
    return capsys.readouterr().out.splitlines()


def test_holes_are_told_one_a_line_and_not_all_in_one(capsys: pytest.CaptureFixture[str]) -> None:
    lines = lines_of(
        capsys,
        *("holes", "sheet=generic-a", "mount=regular", "range=100 deg"),
        *("knuckles=left", "hinge=butt", "room=fits"),
    )
    assert lines[0].startswith("  Body valve end upper, leaf: 4 3/4 in along")
    assert not [line for line in lines if line.startswith("holes ")]


def test_an_answer_of_named_parts_is_told_before_its_working(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert lines_of(capsys, "handing", "knuckles=left")[0] == "hand not known, DIN left"
