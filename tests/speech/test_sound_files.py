"""Recordings of every common kind become the same sound; what is no recording is told in one sentence."""

import math
from array import array
from itertools import pairwise
from pathlib import Path

import pytest

from guide.speech.frames import FRAME_BYTES, samples
from guide.speech.wav import BadAudio, open_wav
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
    assert loud == pytest.approx(8000 / math.sqrt(2), rel=0.03)


def test_what_16_khz_cannot_hold_is_taken_out_and_not_folded_back(tmp_path: Path) -> None:
    sound = heard(wav(tone(15000, 0.5, 48000), tmp_path / "a.wav", rate=48000))
    assert max(sound[800:-1600]) < 80  # 40 dB below what went in


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
