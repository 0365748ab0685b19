"""Recordings of every common kind become the same sound; what is no recording is told in one sentence."""

import math
import struct
import sys
from array import array
from itertools import pairwise
from pathlib import Path

import pytest

from guide.speech.audio import FRAME_BYTES, BadAudio, NoDecoder, open_wav, samples
from tests.speech.sounds import chunk, tone, wav


def heard(path: Path) -> "array[int]":
    return samples(b"".join(open_wav(path).frames()))


def pitch(sound: "array[int]") -> float:
    """Hertz, by counting where the sound goes up through zero."""
    middle = sound[1600:-1600]
    ups = sum(before < 0 <= after for before, after in pairwise(middle))
    return ups * 16000 / len(middle)


@pytest.mark.parametrize("bits", [8, 16, 24, 32])
@pytest.mark.parametrize("channels", [1, 2])
def test_every_width_and_number_of_channels(bits: int, channels: int, tmp_path: Path) -> None:
    path = wav(tone(440, 1.0), tmp_path / "a.wav", bits=bits, channels=channels)
    sound = heard(path)
    assert pitch(sound) == pytest.approx(440, rel=0.01)
    assert max(sound) == pytest.approx(8000, abs=260)  # a step of 8 bits is 256


@pytest.mark.parametrize("rate", [8000, 11025, 22050, 32000, 44100, 48000, 96000])
def test_every_rate_keeps_pitch_length_and_loudness(rate: int, tmp_path: Path) -> None:
    sound = heard(wav(tone(1000, 1.0, rate), tmp_path / "a.wav", rate=rate))
    assert len(sound) == pytest.approx(16000, abs=480)
    assert pitch(sound) == pytest.approx(1000, rel=0.01)
    loud = math.sqrt(sum(value * value for value in sound[1600:-1600]) / (len(sound) - 3200))
    # Linear interpolation takes 0.3 dB off a tone at an eighth of the rate.
    assert loud == pytest.approx(8000 / math.sqrt(2), rel=0.05)


def test_what_16_khz_cannot_hold_is_taken_out_and_not_folded_back(tmp_path: Path) -> None:
    sound = heard(wav(tone(15000, 0.5, 48000), tmp_path / "a.wav", rate=48000))
    assert max(sound[800:-1600]) < 253  # 30 dB below what went in


def test_the_last_frame_is_filled_up(tmp_path: Path) -> None:
    whole = [len(frame) for frame in open_wav(wav([5] * 700, tmp_path / "a.wav")).frames()]
    assert whole == [FRAME_BYTES, FRAME_BYTES]


def test_a_recorder_s_extensible_header_and_its_other_chunks(tmp_path: Path) -> None:
    plain = wav(tone(440, 0.5), tmp_path / "a.wav", bits=24).read_bytes()
    layout, data = plain[20:36], plain[44:]
    longer = b"\xfe\xff" + layout[2:] + b"\x16\0\x18\0\0\0\0\0" + b"\1\0" + bytes(14)
    body = b"WAVE" + chunk(b"LIST", b"made by hand") + chunk(b"fmt ", longer) + chunk(b"data", data)
    path = tmp_path / "b.wav"
    path.write_bytes(chunk(b"RIFF", body))
    assert heard(path) == heard(tmp_path / "a.wav")


def as_floats(values: list[float], path: Path) -> Path:
    """A WAV file of 32-bit floats, as editors of sound write it."""
    layout = struct.pack("<HHIIHH", 3, 1, 16000, 64000, 4, 32)
    data = struct.pack(f"<{len(values)}f", *values)
    path.write_bytes(chunk(b"RIFF", b"WAVE" + chunk(b"fmt ", layout) + chunk(b"data", data)))
    return path


def test_floats_are_the_same_sound_and_too_loud_ones_are_cut_off(tmp_path: Path) -> None:
    floats = [value / 32768 for value in tone(440, 0.5)]
    sound = heard(as_floats(floats, tmp_path / "a.wav"))
    assert sound[:8000].tolist() == pytest.approx(tone(440, 0.5), abs=1)
    assert max(heard(as_floats([3.0] * 960, tmp_path / "b.wav"))) == 32767


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_sample_that_is_not_a_number_is_told_in_a_sentence(value: float, tmp_path: Path) -> None:
    path = as_floats([0.1] * 9000 + [value] + [0.1] * 10, tmp_path / "a.wav")
    with pytest.raises(BadAudio, match=r"holds values that are not numbers; save it again"):
        open_wav(path)


def test_six_channels_at_once_are_mixed(tmp_path: Path) -> None:
    path = wav(tone(440, 0.5), tmp_path / "a.wav", channels=6)
    assert max(heard(path)) == pytest.approx(8000, abs=2)


def test_a_rate_of_1_hz_and_one_beyond_any_recorder_are_refused(tmp_path: Path) -> None:
    for rate in (1, 3999, 384001):
        path = wav(tone(440, 0.01), tmp_path / "a.wav", rate=rate)
        with pytest.raises(BadAudio, match=f"claims {rate} samples a second"):
            open_wav(path)


def test_a_header_that_claims_a_description_of_gigabytes_is_read_no_further(tmp_path: Path) -> None:
    path = wav(tone(440, 0.1), tmp_path / "a.wav")
    data = bytearray(path.read_bytes())
    data[16:20] = (0xFFFFFFF0).to_bytes(4, "little")
    path.write_bytes(data)
    with pytest.raises(BadAudio, match="cut off before its sound begins"):
        open_wav(path)


def test_a_file_that_goes_away_while_it_is_heard_is_told(tmp_path: Path) -> None:
    path = wav(tone(440, 0.1), tmp_path / "width.wav")
    recording = open_wav(path)
    path.unlink()
    with pytest.raises(BadAudio, match=r"width\.wav cannot be read to its end"):
        list(recording.frames())


def test_without_its_library_one_sentence_says_what_is_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    recording = open_wav(wav(tone(440, 0.1), tmp_path / "a.wav"))
    monkeypatch.setitem(sys.modules, "miniaudio", None)
    with pytest.raises(NoDecoder, match=r"\(miniaudio\) is not installed; “hingeside voice” says"):
        list(recording.frames())


@pytest.mark.parametrize(
    ("promised", "cut_off"), [(3200, False), (3202, True), (0xFFFFFFFF, False), (0x7FFFFFFF, False)]
)
def test_a_header_that_promises_more_than_is_there_tells_of_a_cut(
    promised: int, cut_off: bool, tmp_path: Path
) -> None:
    """A recorder that streams writes the largest length there is, which is no promise."""
    path = wav(tone(440, 0.1), tmp_path / "width.wav")
    data = bytearray(path.read_bytes())
    data[40:44] = promised.to_bytes(4, "little")
    path.write_bytes(data)
    assert open_wav(path).cut_off == cut_off
    assert open_wav(path).seconds == 0.1


def test_a_recording_that_was_cut_off_is_heard_as_far_as_it_goes(tmp_path: Path) -> None:
    path = wav(tone(440, 1.0), tmp_path / "a.wav")
    path.write_bytes(path.read_bytes()[: 44 + 16000])
    assert open_wav(path).seconds == pytest.approx(0.5)
    assert pitch(heard(path)) == pytest.approx(440, rel=0.02)


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "is not a WAV file"),
        (b"The width is 36 in.", "is not a WAV file"),
        (b"RIFF\x04\0\0\0WAVE", "is cut off before its sound begins"),
        (b"RIFF\x0c\0\0\0WAVE" + chunk(b"data", b"\0\0"), "is cut off before its sound begins"),
    ],
)
def test_what_is_no_recording(content: bytes, told: str, tmp_path: Path) -> None:
    path = tmp_path / "a.wav"
    path.write_bytes(content)
    with pytest.raises(BadAudio, match=told):
        open_wav(path)


def test_no_sound_too_much_sound_and_a_rate_that_cannot_be(tmp_path: Path) -> None:
    with pytest.raises(BadAudio, match="holds no sound"):
        open_wav(wav([], tmp_path / "a.wav"))
    with pytest.raises(BadAudio, match="0 samples a second"):
        open_wav(wav([1], tmp_path / "b.wav", rate=0))
    long = wav([1], tmp_path / "c.wav", rate=8000, bits=8)
    with long.open("r+b") as file:
        file.seek(40)
        file.write((2 * 3600 * 8000).to_bytes(4, "little"))
        file.truncate(44 + 2 * 3600 * 8000)
    with pytest.raises(BadAudio, match="lasts 120 minutes; at most 10"):
        open_wav(long)
    with pytest.raises(BadAudio, match="check the name"):
        open_wav(tmp_path / "not-there.wav")
