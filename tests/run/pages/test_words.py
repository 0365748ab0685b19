"""The trade's words that stand in a step, from the handbook's glossary."""

from guide.handbook.pages import page_text
from guide.run.pages.words import GLOSSARY, glossary, texts_of, words_in, words_page
from guide.run.prompt import Prompt


def names(*texts: str) -> list[str]:
    return [one.names[0] for one in words_in(texts)]


def test_every_entry_of_the_glossary_is_read() -> None:
    entries = [line for line in page_text("user", GLOSSARY).splitlines() if line.startswith("- ")]
    assert len(glossary()) == len(entries)
    assert all(one.meaning.endswith(".") for one in glossary())


def test_a_word_is_found_whole_and_in_the_plural() -> None:
    assert names("Is the shoe under the soffit, or on the frame?") == ["Shoe", "Soffit"]
    assert "Soffit" in names("Both soffits are narrow.")
    assert names("Revealing, datumless and sweeping texts.") == []


def test_an_everyday_phrase_is_not_a_word_of_the_trade() -> None:
    assert names("Move it by hand, and do not sweep the dust dry.") == []
    assert names("Which hand is it?") == ["Hand"]


def test_the_words_of_a_step_come_from_all_that_a_person_reads_there() -> None:
    shown = Prompt("do", "mark", "Mark the body.", why="One datum for every mark.")
    shown.cautions = [("warning", "Keep off the arm.")]
    assert [one.names[0] for one in words_in(texts_of(shown))][:2] == ["Arm", "Datum"] or (
        "Datum" in [one.names[0] for one in words_in(texts_of(shown))]
    )
    page = words_page(shown)
    assert page.title == "Words of the trade in this step"
    assert any(line.startswith("Datum: the line") for line in page.sections[0].lines)


def test_a_step_without_one_shows_the_whole_glossary() -> None:
    page = words_page(Prompt("do", "clear-away", "Take the dust sheet away."))
    assert len(page.sections[0].lines) == len(glossary())
