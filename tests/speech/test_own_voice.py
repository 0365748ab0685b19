"""A voice of one's own: what is learned, by hand where a hand can do it."""

import random
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from scipy.linalg import lstsq

from guide.speech.audio import BadAudio
from guide.speech.engine import NoEngine
from guide.speech.own.adapt import (
    HELD,
    WORTH,
    Occupation,
    map_estimate,
    mllr,
    mllr_transform,
    occupied,
)
from guide.speech.own.alignment import Stretch, streams
from guide.speech.own.lesson import DIGITS, in_rounds, lesson, recorded
from guide.speech.own.model import WIDTH, Model, read_model, written
from guide.speech.own.voice_file import (
    BadVoice,
    forget,
    keep,
    means_of,
    model_folder,
    model_mark,
    own_means,
)
from guide.words import COMMANDS


@pytest.fixture(scope="module")
def model() -> Model:
    return read_model(model_folder())


def test_the_means_written_again_are_the_file_that_was_read(model: Model) -> None:
    assert written(model, model.means) == (model_folder() / "means").read_bytes()


def test_the_weights_of_a_state_come_to_one(model: Model) -> None:
    """To within a tenth, since each is rounded to a step of a tenth of its logarithm."""
    for state in (0, 96, 3173):
        for stream in range(3):
            assert np.exp(model.log_weights(state, stream)).sum() == pytest.approx(1, abs=0.1)


def test_a_model_of_another_kind_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "feat.params").write_text("-feat s3_1x39\n")
    with pytest.raises(NoEngine, match="another kind"):
        read_model(tmp_path)


def test_slope_and_bend_of_a_steady_rise() -> None:
    """One more at every frame: a slope of 4 over four frames, no bend, and a mean of 0."""
    rise = np.repeat(np.arange(1.0, 12.0)[:, None], WIDTH, axis=1)
    frames = streams(rise)
    cepstrum, slope, bend = frames[5]
    assert (cepstrum[0], slope[0], bend[0]) == (0, 4, 0)
    assert sum(frame[0][3] for frame in frames) == pytest.approx(0)


def moved_by(model: Model, more: float, phones: tuple[str, ...]) -> Occupation:
    """A speaker whose every frame lies `more` above a mean of the model."""
    frames, totals = np.zeros(model.means.shape[:3]), np.zeros(model.means.shape)
    heard = [model.phones.index(name) for name in phones]
    frames[heard] = 20.0
    totals[heard] = 20.0 * (model.means[heard] + more)
    return Occupation(frames, totals)


def test_who_speaks_as_the_model_does_moves_nothing(model: Model) -> None:
    found = mllr(model, moved_by(model, 0.0, ("AH", "S", "N")))
    assert np.allclose(found, model.means, atol=1e-3)


def test_what_was_not_said_moves_with_what_was_and_silence_does_not(model: Model) -> None:
    found = mllr(model, moved_by(model, 1.0, ("AH", "S", "N", "T", "IY")))
    never_said = model.phones.index("OY"), 0, 7
    assert np.mean(found[never_said] - model.means[never_said]) == pytest.approx(1, abs=0.15)
    assert np.array_equal(found[model.silence], model.means[model.silence])


def test_the_transform_is_the_least_squares_solution_found_another_way() -> None:
    """Minimise sum g / v (o - W x)^2 plus the hold on the identity: one long system of rows for each row of W."""
    rng = np.random.default_rng(5)
    means = rng.normal(size=(40, WIDTH))
    extended = np.hstack([means, np.ones((40, 1))])
    variances = rng.uniform(0.2, 3, size=(40, WIDTH))
    frames = rng.uniform(0, 30, size=40)
    averages = 1.1 * means + 0.4 + rng.normal(size=(40, WIDTH)) / 5
    found = mllr_transform(extended, variances, frames, frames[:, None] * averages)
    for i in range(WIDTH):
        weights = np.sqrt(frames / variances[:, i])
        held = np.sqrt(HELD * (weights[:, None] ** 2 * extended**2).sum(axis=0) + 1e-6)
        rows = np.vstack([weights[:, None] * extended, np.diag(held)])
        right = np.concatenate([weights * averages[:, i], held * np.eye(WIDTH + 1)[i]])
        assert found[i] == pytest.approx(lstsq(rows, right)[0], abs=1e-9)


def test_a_mean_is_pulled_by_as_much_as_was_heard(model: Model) -> None:
    place = (model.phones.index("EY"), 0, 3)
    frames, totals = np.zeros(model.means.shape[:3]), np.zeros(model.means.shape)
    frames[place] = WORTH  # as much as the model's own mean is worth: half way
    totals[place] = WORTH * (model.means[place] + 4)
    found = map_estimate(model.means, Occupation(frames, totals))
    assert np.allclose(found[place], model.means[place] + 2)
    found[place] = model.means[place]
    assert np.array_equal(found, model.means)


def test_a_frame_at_a_mean_belongs_to_it_and_is_counted_once(model: Model) -> None:
    phone = model.phones.index("S")
    frame = model.means[phone, :, 0].astype(np.float64)
    said = [[Stretch("S", 3 * phone + 1, np.stack([frame] * 10))]]
    by_stream = occupied(model, model.means, said).frames.sum(axis=(0, 2))
    assert by_stream == pytest.approx([10, 10, 10], rel=0.02)


# Values that the same method had in plain Python, number by number, before it was written in arrays.
PHONES = ("AH", "S", "N", "T", "IY", "F", "AY", "V", "EH", "IH")
TOUCHED = 3347
"""Densities that any frame belongs to."""
BEFORE = {
    ("AH", 0, 82): (1.804820, 13.915038, -4.926863, 14.651168, -3.965965),
    ("S", 1, 9): (1.091744, 2.994514, 7.058253, 2.108579, 5.879358),
    ("IY", 2, 16): (1.531274, -4.466830, 4.933441, -3.882602, 4.982060),
    ("OY", 0, 7): (0.0, 11.513329, 0.925595, 11.513329, 0.925595),
    ("SIL", 1, 5): (0.0, -0.582745, -0.171925, -0.582745, -0.171925),
}
"""By phone, stream and density: frames; the first and last number of the mean by MLLR; and by MAP after it."""


def a_person(model: Model) -> list[Stretch]:
    """Frames of ten phones, each somewhere about a density, and higher the higher the number."""
    rng = random.Random(7)
    found = []
    for name in PHONES:
        phone = model.phones.index(name)
        for state in range(3):
            frames = np.zeros((6, 3, WIDTH))
            for frame in frames:
                for stream in range(3):
                    at = phone, stream, rng.randrange(model.densities)
                    for k in range(WIDTH):
                        spread = float(model.variances[at][k]) ** 0.5
                        off = 0.4 + 0.05 * k + rng.gauss(0, 0.7) * spread
                        frame[stream, k] = float(model.means[at][k]) + off
            found.append(Stretch(name, 3 * phone + state, frames))
    return found


def test_a_person_is_learned_as_in_plain_python(model: Model) -> None:
    heard = occupied(model, model.means, [a_person(model)])
    assert np.count_nonzero(heard.frames) == pytest.approx(TOUCHED, abs=2)
    turned = mllr(model, heard)
    pulled = map_estimate(turned, heard)
    for (name, stream, density), values in BEFORE.items():
        at = model.phones.index(name), stream, density
        found = heard.frames[at], turned[at][0], turned[at][12], pulled[at][0], pulled[at][12]
        assert found == pytest.approx(values, rel=1e-5, abs=2e-6)


def test_what_a_run_needs_of_a_voice_loads_no_numpy() -> None:
    look = (
        "import sys, guide.speech.own.voice_file, guide.speech.own.lesson\n"
        "print('numpy' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", look],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == "False"


# The lesson


def test_each_command_twice_and_each_digit_twice() -> None:
    first, second = ([one.words for one in part] for part in lesson())
    for command in COMMANDS:
        assert command.word in first
        assert command.word in second
    for digit in DIGITS:
        assert digit in first
        measures = " ".join(second).replace("eighths", "").replace("sixteenths", "")
        assert digit in measures.split()


def test_every_saying_has_a_meaning_where_it_is_said() -> None:
    assert [one.words for part in lesson() for one in part if one.meaning is None] == []


def test_recordings_are_known_by_their_names(tmp_path: Path) -> None:
    for name in (
        "go-back.wav",
        "go back 2.WAV",
        "i_dont_know.wav",
        "zero-point-nine.wav",
        "notes.txt",
    ):
        (tmp_path / name).touch()
    found = recorded(tmp_path)
    assert [one.words for one, _ in found] == [
        "go back",
        "go back",
        "i don't know",
        "zero point nine",
    ]
    first, second = in_rounds(found)
    assert [one.words for one, _ in first] == ["go back", "i don't know"]
    assert [one.words for one, _ in second] == ["go back", "zero point nine"]


def test_a_recording_with_another_name_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "good-morning.wav").touch()
    with pytest.raises(BadAudio, match=r"good-morning\.wav is not named after a saying"):
        recorded(tmp_path)
    with pytest.raises(BadAudio, match="is not a folder"):
        recorded(tmp_path / "nowhere")


# What is kept


@pytest.fixture
def kept(model: Model) -> Path:
    return keep("ann", written(model, model.means), model.mark, {"tried": 32})


def test_a_voice_that_holds_is_found_and_can_be_forgotten(kept: Path) -> None:
    assert own_means("ann") == (str(kept / "means"), "")
    assert forget("ann")
    assert not forget("ann")


def test_no_voice_is_no_trouble() -> None:
    assert own_means("") == ("", "")


def test_a_voice_that_is_gone() -> None:
    assert own_means("bob")[0] == ""
    assert "is not kept here; teach it again" in own_means("bob")[1]


def test_a_voice_with_one_byte_changed(kept: Path) -> None:
    data = bytearray((kept / "means").read_bytes())
    data[5000] ^= 1
    (kept / "means").write_bytes(bytes(data))
    with pytest.raises(BadVoice, match="is damaged; teach it again"):
        means_of("ann")


@pytest.mark.parametrize("text", ["", "[]", '{"form": 1', "null", '{"form": 99}'])
def test_a_voice_whose_word_of_itself_is_spoilt(kept: Path, text: str) -> None:
    (kept / "voice.json").write_text(text)
    path, amiss = own_means("ann")
    assert path == ""
    assert amiss.count(".") == 1
    assert "hingeside voice --teach ann" in amiss


def test_a_voice_of_another_model(kept: Path) -> None:
    text = (kept / "voice.json").read_text()
    (kept / "voice.json").write_text(text.replace(model_mark(model_folder()), "0" * 64))
    assert "was taught to another recogniser" in own_means("ann")[1]


@pytest.mark.parametrize("name", ["", "../ann", "a/b", "ann.", "x" * 41, "a\nb"])
def test_a_name_cannot_lead_out_of_the_folder(name: str) -> None:
    with pytest.raises(BadVoice, match="cannot name a voice"):
        forget(name)
