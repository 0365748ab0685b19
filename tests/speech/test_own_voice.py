"""A voice of one's own: what is learned, by hand where a hand can do it."""

from array import array
from pathlib import Path

import pytest

from guide.speech.audio import BadAudio
from guide.speech.engine import NoEngine
from guide.speech.own.adapt import WORTH, pulled, solved, turned
from guide.speech.own.alignment import Frame, Stretch, streams
from guide.speech.own.lesson import DIGITS, in_rounds, lesson, recorded
from guide.speech.own.model import WIDTH, Model, model_folder, model_mark, read_model, written
from guide.speech.own.sums import Sums
from guide.speech.own.voice_file import BadVoice, forget, keep, means_of, own_means
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
            total = sum(1.0001 ** (-1024 * step) for step in model.weights_of(state, stream))
            assert total == pytest.approx(1, abs=0.1)


def test_a_model_of_another_kind_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "feat.params").write_text("-feat s3_1x39\n")
    with pytest.raises(NoEngine, match="another kind"):
        read_model(tmp_path)


def test_slope_and_bend_of_a_steady_rise() -> None:
    """One more at every frame: a slope of 4 over four frames, no bend, and a mean of 0."""
    rise = [tuple([float(at)] * WIDTH) for at in range(1, 12)]
    frames = streams(rise)
    cepstrum, slope, bend = frames[5]
    assert (cepstrum[0], slope[0], bend[0]) == (0, 4, 0)
    assert sum(frame[0][3] for frame in frames) == pytest.approx(0)


def test_equations_solved_by_hand() -> None:
    """x + y = 5 and 2x - y = 1, with a row first that cannot be divided by its first number."""
    assert solved([[0, 1, 1], [1, 1, 0], [2, -1, 0]], [7, 5, 1]) == pytest.approx([2, 3, 4])


def moved_by(model: Model, more: float, phones: tuple[str, ...]) -> Sums:
    """A speaker whose every frame lies `more` above a mean of the model."""
    sums = Sums(model, model.means)
    for name in phones:
        phone = model.phones.index(name)
        for stream in range(3):
            for density in range(model.densities):
                mean = model.means[model.row(phone, stream, density)]
                sums.frames[phone, stream, density] = 20.0
                sums.totals[phone, stream, density] = [20.0 * (one + more) for one in mean]
    return sums


def test_who_speaks_as_the_model_does_moves_nothing(model: Model) -> None:
    found = turned(model, moved_by(model, 0.0, ("AH", "S", "N")))
    assert found == pytest.approx(model.means, abs=1e-3)


def test_what_was_not_said_moves_with_what_was_and_silence_does_not(model: Model) -> None:
    found = turned(model, moved_by(model, 1.0, ("AH", "S", "N", "T", "IY")))
    never_said = model.row(model.phones.index("OY"), 0, 7)
    silence = model.row(model.silence, 0, 7)
    rise = [a - b for a, b in zip(found[never_said], model.means[never_said], strict=True)]
    assert sum(rise) / WIDTH == pytest.approx(1, abs=0.15)
    assert found[silence] == model.means[silence]


def test_a_mean_is_pulled_by_as_much_as_was_heard(model: Model) -> None:
    sums = Sums(model, model.means)
    place = (model.phones.index("EY"), 0, 3)
    where = model.row(*place)
    sums.frames[place] = WORTH  # as much as the model's own mean is worth: half way
    sums.totals[place] = [WORTH * (one + 4) for one in model.means[where]]
    found = pulled(model, model.means, sums)
    assert found[where] == pytest.approx(array("f", [one + 2 for one in model.means[where]]))
    assert found[: where.start] == model.means[: where.start]


def test_a_frame_at_a_mean_belongs_to_it_and_is_counted_once(model: Model) -> None:
    phone = model.phones.index("S")
    frame: Frame = tuple(tuple(model.means[model.row(phone, stream, 0)]) for stream in range(3))  # type: ignore[assignment]
    sums = Sums(model, model.means)
    sums.add([Stretch("S", 3 * phone + 1, (frame,) * 10)])
    by_stream = [
        sum(count for place, count in sums.frames.items() if place[1] == stream)
        for stream in range(3)
    ]
    assert by_stream == pytest.approx([10, 10, 10], rel=0.02)


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
    with pytest.raises(BadAudio, match=r"good-morning\.wav is named by no saying"):
        recorded(tmp_path)
    with pytest.raises(BadAudio, match="is no folder"):
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
