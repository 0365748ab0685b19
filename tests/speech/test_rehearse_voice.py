"""A scenario that speaks: words for a synthesiser or recordings, in the place of keyed answers."""

import json
import sys
from pathlib import Path

import pytest

from guide.checker.graph_cache import graph_of
from guide.cli.main import main
from guide.files.findings import BadFile
from guide.procedure.scenario_file import load_scenario
from guide.run.rehearse import rehearse
from guide.speech.rehearse_voice import Sayings

pytestmark = pytest.mark.needs("flite")

GUARD = """\
procedure: mailroom-door
title: A guard at the mailroom door
facts:
  width: {length: {from: 20 in, to: 60 in, step: 1/16 in}, ask: How wide is the leaf?, say: How wide?}
  solid: {yesno: {}, ask: Is the leaf solid?}
steps:
  - do: {id: wedge, text: Wedge the leaf.}
  - ask: {id: how-wide, fact: width}
  - ask: {id: is-solid, fact: solid}
  - hold: {id: before-drilling, reads_back: [width, solid]}
  - do: {id: drill, cuts: true, reads: [width], text: Drill one lead hole.}
  - end: {id: fitted, outcome: finished}
"""


def written(folder: Path, *answers: str, facts: str = "{width: 36 in, solid: yes}") -> Path:
    """A scenario of it, in a folder with the procedure."""
    (folder / "mailroom-door.yaml").write_text(GUARD)
    lines = [
        "scenario: mailroom-by-voice",
        f"procedure: {folder / 'mailroom-door.yaml'}",
        "answers:",
        *(f"  - {answer}" for answer in answers),
        f"must_show: {{end: finished, facts: {facts}}}",
    ]
    path = folder / "mailroom-by-voice.yaml"
    path.write_text("\n".join(lines) + "\n")
    return path


BY_VOICE = (
    "{at: wedge, said: next}",
    "{at: how-wide, said: [fifteen inches, three feet, 'yes']}",
    "{at: is-solid, said: ['yes', 'yes']}",
    "{at: before-drilling, said: ['yes', every value is right]}",
    "{at: drill, said: ['yes', begin the cut, next]}",
    "{at: fitted, said: next}",
)


@pytest.mark.usefixtures("loaded")
def test_a_scenario_that_speaks_goes_through_the_ear(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    facts = "{width: 3 ft, solid: yes}"
    assert main(["rehearse", str(written(tmp_path, *BY_VOICE, facts=facts)), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["expected"] == "met"
    assert found["heard"]["spoken"] == 12
    assert found["heard"]["by_keys"] == 0


@pytest.mark.usefixtures("loaded")
def test_a_value_whose_yes_was_not_said_does_not_count(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written(
        tmp_path, "{at: how-wide, said: thirty six inches}", "{at: is-solid, value: yes}"
    )
    assert main(["rehearse", str(path)]) == 1
    assert "is at “how-wide”; the next answer is for “is-solid”" in capsys.readouterr().out


@pytest.mark.usefixtures("loaded")
def test_recordings_lie_beside_the_scenario(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sayings = Sayings(tmp_path)
    for name, words in {"wide": "thirty six inches", "right": "yes"}.items():
        sayings.wav(words).rename(tmp_path / f"{name}.wav")
    path = written(
        tmp_path,
        "{at: how-wide, wav: [wide.wav, right.wav]}",
        "{at: is-solid, value: yes}",
        "{at: before-drilling, hold: yes}",
        "{at: drill, done: yes}",
    )
    assert main(["rehearse", str(path)]) == 0
    assert "2 spoken, 2 heard, 0 missed, 0 wrong" in capsys.readouterr().out


@pytest.mark.usefixtures("loaded")
def test_with_voice_every_answer_is_spoken(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written(
        tmp_path,
        "{at: how-wide, value: 36 in}",
        "{at: is-solid, value: yes}",
        "{at: before-drilling, hold: yes}",
        "{at: how-wide, revise: 34 in}",
        "{at: before-drilling, hold: yes}",
        "{at: drill, done: yes}",
        facts="{width: 34 in, solid: yes}",
    )
    assert main(["rehearse", str(path), "--voice", "--json"]) == 0
    heard = json.loads(capsys.readouterr().out)["heard"]
    assert heard["heard"] >= 12
    assert heard["wrong"] == 0


@pytest.mark.usefixtures("loaded")
def test_a_recording_that_is_missing_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written(tmp_path, "{at: how-wide, wav: lost.wav}")
    assert main(["rehearse", str(path)]) == 1
    assert "lost.wav cannot be read" in capsys.readouterr().out


def test_without_the_library_that_hears_it_says_what_is_missing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pocketsphinx", None)
    assert main(["rehearse", str(written(tmp_path, *BY_VOICE))]) == 3
    assert "(pocketsphinx) is not installed" in capsys.readouterr().err


def test_without_an_ear_it_is_not_met(tmp_path: Path) -> None:
    scenario = load_scenario(written(tmp_path, *BY_VOICE))
    found = rehearse(scenario, graph_of(tmp_path / "mailroom-door.yaml"))
    assert found.differences[0] == "At “wedge”: This answer is spoken; rehearse it by voice."


def test_an_answer_is_keyed_or_spoken_but_not_both(tmp_path: Path) -> None:
    path = written(tmp_path, "{at: how-wide, value: 36 in, said: thirty six inches}")
    with pytest.raises(BadFile, match="found value and said"):
        load_scenario(path)
