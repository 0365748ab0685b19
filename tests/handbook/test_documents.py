"""README and the handbook: short, in short sentences, with links and pictures that are there."""

import re
from pathlib import Path

import pytest

from guide.handbook.pages import FOLDER
from guide.words.commands import ANSWERS, COMMANDS, VOICE
from tests.handbook.pictures import PICTURES
from tests.handbook.shown_commands import PAGES, TOP

README = (TOP / "README.md").read_text("utf-8")
_LINK = re.compile(r"\[[^\]]*\]\(([^)#]+)[^)]*\)", re.DOTALL)


def sentences(markdown: str) -> list[list[str]]:
    """The words of each sentence outside blocks of code; a row of a table, a heading or an item ends one."""
    prose = re.sub(r"```.*?```", "", markdown, flags=re.DOTALL)
    prose = re.sub(r"(?m)^(?: {4,}[^\n]*|#.*|\|.*)$", "\n", prose)
    prose = re.sub(r"(?m)^\s*(?:-|\d+\.)\s", "\n\n", prose)
    prose = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", prose)
    parts = re.split(r"(?<=[.:;?!])[\s*”]+|\n\s*\n", prose)
    return [words for part in parts if (words := re.findall(r"[\w’'`./=-]*\w[\w’'`./=-]*", part))]


def test_readme_is_a_page_or_two() -> None:
    assert len(README.splitlines()) <= 120
    lengths = [len(words) for words in sentences(README)]
    assert sum(lengths) / len(lengths) < 16


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_no_sentence_has_more_than_25_words(page: Path) -> None:
    found = [" ".join(one) for one in sentences(page.read_text("utf-8")) if len(one) > 25]
    assert found == []


def test_readme_installs_and_opens_the_demo_in_one_line() -> None:
    assert (
        "    python3 -m venv .venv && .venv/bin/pip install '.[voice]' "
        "&& .venv/bin/hingeside run fit-surface-closer --door demo\n"
    ) in README


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_link_and_picture_is_there(page: Path) -> None:
    for target in _LINK.findall(page.read_text("utf-8")):
        assert (page.parent / target).is_file(), target


def test_readme_leads_to_every_page() -> None:
    for page in PAGES[1:]:
        assert f"user/{page.name}" in README, page.name


def test_the_pictures_are_those_of_the_script_and_need_no_network() -> None:
    drawn = {path.stem: path.read_text("utf-8") for path in (FOLDER / "pictures").glob("*.svg")}
    assert set(drawn) == {*PICTURES, "parts"}
    for name, text in drawn.items():
        assert not re.search(r"url\(['\"]?http|<script|href=['\"]http", text), name
    assert "7/64&#160;in" in drawn["drilling"]


def test_the_page_to_print_has_every_key_of_a_job() -> None:
    text = (FOLDER / "user" / "page-at-the-door.md").read_text("utf-8")
    table = {
        key
        for row in re.findall(r"(?m)^\| ([^|]+) \|", text)
        for key in re.split(r",? ", row.strip())
    }
    shown = {one.key_shown for one in (*COMMANDS, *ANSWERS, *VOICE)}
    few_need = {"O", "I", "J", "A", "R", "Esc"}  # the drawing's swing, other jobs, “show again”
    assert shown - few_need <= table
