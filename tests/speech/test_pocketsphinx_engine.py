"""Sayings held against a sound: what it was, and by how much."""

from array import array
from pathlib import Path

import pytest

from guide.speech.pocketsphinx_engine import Fits, score_of, text_of
from guide.words.spoken import grammar_for
from tests.speech.sounds import flite, hiss

LENGTH = grammar_for("length", commands=["done"])
NUMBER = grammar_for("number", commands=["done"])
pytestmark = pytest.mark.needs("flite")


@pytest.fixture(scope="module")
def fits() -> Fits:
    return Fits({})


def sound(said: str, folder: Path, voice: str = "rms") -> bytes:
    return array("h", flite(said, folder, voice)).tobytes()


def test_a_saying_fits_as_well_among_others_as_alone(fits: Fits, tmp_path: Path) -> None:
    """A search that counts only the sounds it follows makes it worse by more than the next saying is behind."""
    pcm = sound("thirty six inches", tmp_path)
    said = "forty six inches"
    others = ["twenty six feet", "thirteen inches", "ninety seven millimetres", "five eighths"]
    alone, among = fits.best([said], pcm), fits.best([said, *others], pcm)
    assert text_of(alone) == text_of(among) == said
    assert score_of(among) == pytest.approx(score_of(alone), abs=0.0005)


def test_what_was_heard_before_changes_no_score(fits: Fits, tmp_path: Path) -> None:
    said = ["thirty six inches"]
    pcm = sound(said[0], tmp_path)
    before = score_of(fits.best(said, pcm))
    fits.best(said, array("h", hiss(2.0, 3000)).tobytes())
    assert score_of(fits.best(said, pcm)) == before


@pytest.mark.parametrize(
    ("said", "taken_for", "voice"),
    [
        ("thirteen and a half inches", "thirty and a half inches", "rms"),
        ("eighteen inches", "eighty inches", "kal16"),
        ("forty inches", "four inches", "slt"),
        ("sixteen and three eighths inches", "sixty nine three eighths inches", "kal16"),
    ],
)
def test_what_was_taken_for_another_is_put_right(
    said: str, taken_for: str, voice: str, fits: Fits, tmp_path: Path
) -> None:
    found, ahead = fits.told_apart(taken_for, LENGTH, sound(said, tmp_path, voice), b"")
    assert text_of(found) == said
    assert ahead is not None
    assert ahead > 0
    assert fits.told_apart(said, LENGTH, sound(said, tmp_path, voice), b"")[1] == ahead


def test_in_noise_another_takes_its_place_only_where_it_fits_the_noisy_sound_too(
    fits: Fits, tmp_path: Path
) -> None:
    eighty = sound("eighty four", tmp_path)
    other = sound("ninety four", tmp_path)
    found, ahead = fits.told_apart("ninety four", NUMBER, eighty, other)
    assert text_of(found) == "ninety four"
    assert ahead is not None
    assert ahead < 0
    found, ahead = fits.told_apart("ninety four", NUMBER, eighty, eighty)
    assert text_of(found) == "eighty four"
    assert ahead is not None
    assert ahead > 0


def test_what_has_no_rival_is_fitted_all_the_same(fits: Fits, tmp_path: Path) -> None:
    alone = grammar_for("nothing", commands=["done"])
    found, ahead = fits.told_apart("next", alone, sound("next", tmp_path), b"")
    assert (text_of(found), ahead) == ("next", None)
