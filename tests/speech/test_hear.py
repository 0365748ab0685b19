"""`hingeside hear` and `hingeside voice`, as a person calls them."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from guide.cli.main import main
from tests.cli.program import CHECKOUT, hingeside
from tests.speech.sounds import flite, hiss, wav


@pytest.mark.needs("flite")
@pytest.mark.usefixtures("loaded")
def test_one_line_of_json_a_file(tmp_path: Path) -> None:
    width = wav(flite("thirty five and seven eighths inches", tmp_path), tmp_path / "width.wav")
    nothing = wav(hiss(1.0, 6), tmp_path / "nothing.wav")
    done = hingeside("hear", str(width), str(nothing), "--for", "length", "--json")
    assert done.status == 0
    first, second = map(json.loads, done.out.splitlines())
    keys = ["file", "heard", "kind", "value", "unit", "confidence", "engine", "seconds"]
    assert list(first) == keys
    assert list(second) == keys
    assert first["file"] == str(width)
    assert first["heard"] == "thirty five and seven eighths inches"
    assert (first["kind"], first["value"], first["unit"]) == ("length", 35.875, "in")
    assert first["engine"] == "built-in"
    assert (second["kind"], second["value"], second["heard"]) == ("none", None, "")


@pytest.mark.needs("flite")
@pytest.mark.usefixtures("loaded")
def test_a_recording_may_begin_and_end_with_speech(tmp_path: Path) -> None:
    """What a synthesiser writes has no room around it, by which the noise could be known."""
    long = "thirty five and seven eighths inches"
    for number, (voice, text) in enumerate((("rms", "eleven"), ("slt", long), ("kal16", "eleven"))):
        path = tmp_path / f"{number}.wav"
        subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(path)], check=True)
    files = sorted(map(str, tmp_path.iterdir()))
    done = hingeside("hear", *files, "--for", "length", "--json")
    found = [json.loads(line)["value"] for line in done.out.splitlines()]
    assert found == [11, 35.875, 11]


@pytest.mark.needs("flite")
@pytest.mark.usefixtures("loaded")
def test_a_command_at_the_head_of_a_sentence_is_no_command(tmp_path: Path) -> None:
    said = wav(flite("go forward ten meters", tmp_path), tmp_path / "said.wav")
    told = hingeside("hear", str(said), "--for", "command").out
    assert "That was not caught" in told


@pytest.mark.needs("flite")
@pytest.mark.usefixtures("loaded")
def test_a_bare_number_has_the_units_of_the_house(tmp_path: Path) -> None:
    width = wav(flite("nine hundred eleven", tmp_path), tmp_path / "width.wav", bits=24)
    done = hingeside("hear", str(width), "--for", "length", "--units", "metric", "--json")
    found = json.loads(done.out)
    assert (found["value"], found["unit"]) == (911, "mm")


@pytest.mark.needs("flite")
@pytest.mark.usefixtures("loaded")
def test_the_choices_of_a_procedure(tmp_path: Path) -> None:
    said = wav(flite("parallel arm", tmp_path), tmp_path / "mount.wav")
    call = ("--for", "choice:mount", "--procedure", "fit-surface-closer", "--json")
    found = json.loads(hingeside("hear", str(said), *call).out)
    assert (found["kind"], found["value"]) == ("choice", "parallel")


@pytest.mark.needs("flite")
@pytest.mark.usefixtures("loaded")
def test_a_command_by_any_of_its_words(tmp_path: Path) -> None:
    said = wav(flite("next step", tmp_path), tmp_path / "next.wav")
    found = json.loads(hingeside("hear", str(said), "--for", "command", "--json").out)
    assert (found["kind"], found["heard"], found["value"]) == ("command", "next step", "next")
    told = hingeside("hear", str(said), "--for", "command").out
    assert "“next step”, command next" in told


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["not-there.wav", "--for", "length"], "not-there.wav cannot be read"),
        (["README.md", "--for", "length"], "README.md is not a WAV file"),
        (["README.md", "--for", "weight"], "choose command, number, length"),
        (["README.md", "--for", "choice:mount"], "add --procedure FILE"),
        (
            ["README.md", "--for", "choice:moumt", "--procedure", "fit-surface-closer"],
            "has no fact “moumt”; did you mean “mount”?",
        ),
        (
            ["README.md", "--for", "choice:width", "--procedure", "fit-surface-closer"],
            "“width” is not a choice but a length; write --for length.",
        ),
        (
            ["README.md", "--for", "length", "--engine", "ears"],
            "“ears” is not an engine; choose auto, built-in",
        ),
    ],
)
def test_what_cannot_be_heard_is_told_in_a_sentence(arguments: list[str], told: str) -> None:
    done = hingeside("hear", *arguments)
    assert done.status == 2
    assert told in done.err
    assert done.out == ""


def test_without_the_library_that_decodes_it_says_what_is_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    quiet = wav(hiss(0.5, 6), tmp_path / "quiet.wav")
    monkeypatch.setitem(sys.modules, "miniaudio", None)
    assert main(["hear", str(quiet), "--for", "length"]) == 3
    told = capsys.readouterr()
    assert told.err.count("\n") == 1
    assert "(miniaudio) is not installed; “hingeside voice” says how to get it." in told.err
    assert told.out == ""


def test_voice_tells_what_works_and_how_to_get_the_rest() -> None:
    done = hingeside("voice", "--json")
    assert done.status == 0
    found = json.loads(done.out)
    works = {one["name"]: one["works"] for one in found["means"]}
    assert works["hearing words"]
    assert works["voice"]
    assert set(found["get"]) == {"Debian", "Fedora", "macOS", "Windows"}
    assert all(one["told"].endswith((".", "?")) for one in found["means"])


@pytest.mark.needs("flite")
@pytest.mark.usefixtures("loaded")
def test_a_recording_that_was_cut_off_says_so_beside_what_was_heard(tmp_path: Path) -> None:
    whole = wav(flite("eleven inches", tmp_path), tmp_path / "width.wav")
    cut = tmp_path / "cut.wav"
    cut.write_bytes(whole.read_bytes()[:-20000])
    done = hingeside("hear", str(whole), str(cut), "--for", "length", "--json")
    assert done.status == 0
    assert len(done.out.splitlines()) == 2
    assert done.err == f"hingeside: {cut} is cut off; only what is there was listened to.\n"


def test_what_is_missing_comes_with_the_command_of_the_readme() -> None:
    readme = (CHECKOUT / "README.md").read_text("utf-8")
    got = json.loads(hingeside("voice", "--json").out)["get"]
    assert list(got) == ["Debian", "Fedora", "macOS", "Windows"]
    for system in ("Debian", "Fedora", "macOS"):
        assert got[system].rpartition("&& ")[2] in readme
    assert ".venv\\Scripts" in readme
    assert got["Windows"].startswith(".venv\\Scripts\\pip ")
