"""The opening drawn line by line: the word that prints it, the words that swing it, the sentence for it."""

from pathlib import Path

import pytest

from guide.checker.check import check
from guide.files.library import find
from guide.measures import parse
from guide.plain.loop import run_plain
from guide.procedure.facts import Value
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from tests.trade.shipped_sheets import load_sheet

CLASSROOM = Path(__file__).parents[1] / "run" / "procedures" / "classroom-closer.yaml"
TO_THE_BODY = ("", "")
"""The wedge, and all that the schedule says."""


def printed(
    *lines: str, detail: str = "full", ascii_only: bool = False, mount: str = "regular"
) -> list[str]:
    """What is printed for the last of the lines typed; Enter accepts what the schedule says."""
    graph = check(CLASSROOM).graph
    assert graph is not None
    supplied: dict[str, Value] = {
        "knuckles": "right",
        "mount": mount,
        "opening": parse("100 deg"),
        "width": parse("36 in"),
    }
    sheet = load_sheet(find("sheet", "generic-a")).to_json()
    session = Session.begin(MemoryJournal(), graph, device="bench", sheet=sheet, supplied=supplied)
    waiting = iter(lines)
    out: list[str] = []

    def read() -> str | None:
        line = next(waiting, None)
        if line is not None:
            out.clear()
        return line

    run_plain(Desk(session, detail), read, out.append, ascii_only=ascii_only)
    return out[: out.index("Paused. The job is kept; “hingeside” goes on with it.")]


@pytest.mark.parametrize("mount", ["regular", "top-jamb", "parallel"])
def test_draw_prints_the_opening_in_seventy_columns_and_twenty_rows(mount: str) -> None:
    lines = printed(*TO_THE_BODY, "draw", mount=mount)
    side = "PULL" if mount == "regular" else "PUSH"
    assert any(f"{side} SIDE: you stand here" in line for line in lines)
    assert len(lines) <= 20
    assert max(map(len, lines)) <= 70


def test_a_step_of_holes_draws_the_head_of_the_door() -> None:
    assert "body 7 1/2 in" in "\n".join(printed(*TO_THE_BODY, "", "draw"))


def test_the_leaf_is_swung_by_words() -> None:
    closed, swung = printed(*TO_THE_BODY, "draw"), printed(*TO_THE_BODY, "swing open")
    assert swung != closed
    assert printed(*TO_THE_BODY, "swing open", "swing open", "swing shut") == swung


def test_full_detail_has_the_sentence_and_cards_do_not() -> None:
    sentence = "you stand on the pull side with the hinges on your right"
    assert sentence in " ".join(line.strip() for line in printed(*TO_THE_BODY))
    assert sentence not in " ".join(printed(*TO_THE_BODY, detail="cards"))


def test_the_drawing_in_ascii() -> None:
    assert "\n".join(printed(*TO_THE_BODY, "draw", ascii_only=True)).isascii()


def test_before_the_mount_is_known_the_words_say_what_is_wanted() -> None:
    (refusal,) = printed("draw")
    assert refusal.startswith("! This opening cannot be drawn yet: the side the hinges are on and")
