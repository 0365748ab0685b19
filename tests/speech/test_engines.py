"""Which engine hears, and what is said where one cannot."""

from array import array
from pathlib import Path

import pytest

from guide.speech.engine import NoEngine
from guide.speech.engines import MODEL, load_engine
from guide.speech.pocketsphinx_engine import PocketSphinx
from guide.words import COMMANDS
from guide.words.spoken import grammar_for
from tests.speech.sounds import flite


def test_without_a_model_folder_the_built_in_engine_hears(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(MODEL, raising=False)
    assert load_engine("auto").name == "built-in"


def test_the_added_engine_needs_its_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(MODEL, raising=False)
    with pytest.raises(NoEngine, match="needs the folder of its model"):
        load_engine("added")


def test_a_folder_that_is_no_model_is_told_and_ends_nothing(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Where the library itself is missing, that is what is told."""
    monkeypatch.setenv(MODEL, str(tmp_path))
    with pytest.raises(NoEngine, match=r"holds no Vosk model|vosk is not installed"):
        load_engine("added")


def test_nothing_is_heard_without_sound_or_without_a_grammar() -> None:
    """A fresh engine: one that has heard has a grammar."""
    engine = PocketSphinx()
    assert engine.decode(bytes(16000)) is None
    engine.set_grammar(grammar_for("nothing", commands=["done", "help"]))
    assert engine.decode(b"") is None


def test_many_grammars_one_after_another_are_all_heard(engine: PocketSphinx) -> None:
    """More than are kept, so that the oldest are compiled again."""
    names = [command.name for command in COMMANDS]
    for _ in range(2):
        for count in range(1, len(names)):
            engine.set_grammar(grammar_for("nothing", commands=names[:count]))
            engine.decode(bytes(3200))


@pytest.mark.needs("flite")
def test_a_measure_and_a_command_are_held_against_their_rivals(
    engine: PocketSphinx, tmp_path: Path
) -> None:
    engine.set_grammar(grammar_for("length", commands=["done"]))
    heard = engine.decode(array("h", flite("thirty six inches", tmp_path, "rms")).tobytes())
    assert heard is not None
    assert heard.text == "thirty six inches"
    assert heard.ahead is not None
    assert heard.ahead > 0.02
    engine.set_grammar(grammar_for("nothing", commands=["done"]))
    command = engine.decode(array("h", flite("next", tmp_path, "rms")).tobytes())
    assert command is not None
    assert (command.text, command.ahead) == ("next", None)
    engine.set_grammar(grammar_for("length", commands=["done", "back", "help"]))
    command = engine.decode(array("h", flite("next", tmp_path, "rms")).tobytes())
    assert command is not None
    assert command.ahead is not None
    assert command.ahead > 0.05


@pytest.mark.needs("flite")
@pytest.mark.parametrize(
    ("said", "voice"),
    [("eight hundred forty millimeters", "rms"), ("a hundred and ten millimeters", "kal16")],
)
def test_eight_hundred_and_a_hundred_are_told_apart_by_their_fit(
    said: str, voice: str, engine: PocketSphinx, tmp_path: Path
) -> None:
    engine.set_grammar(grammar_for("length"))
    heard = engine.decode(array("h", flite(said, tmp_path, voice)).tobytes())
    assert heard is not None
    assert heard.text.replace("metre", "meter") == said
