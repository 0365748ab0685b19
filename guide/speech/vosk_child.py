"""The process that holds Vosk: its native faults end the whole process they happen in.

Called as `python -m guide.speech.vosk_child MODEL`. In: a line of JSON, {"phrases": [..]} or {"bytes": count}
followed by so much 16 kHz sound. Out: a line of JSON, {"ready": true}, {"left_out": [..]}, {"result": [..]} or
{"trouble": sentence}.
"""

import json
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

RATE = 16000


def main(arguments: list[str]) -> int:
    """Answer until the input ends; status 1 if the model does not load."""
    folder = Path(arguments[0])
    try:
        import vosk
    except ImportError:
        return _trouble("The library vosk is not installed; install it with “pip install vosk”.")
    vosk.SetLogLevel(-1)
    if not folder.is_dir():
        return _trouble(f"{folder} is not a folder; set the folder of a Vosk model.")
    try:
        model = vosk.Model(str(folder))
    except Exception as error:
        # The library raises the bare class for every fault of a model.
        if type(error) is not Exception:
            raise
        return _trouble(f"{folder} holds no Vosk model that loads; unpack the model again.")
    _answer({"ready": True})
    recogniser = None
    for line in iter(sys.stdin.buffer.readline, b""):
        asked = json.loads(line)
        if "phrases" in asked:
            known, unknown = _sorted_out(model, asked["phrases"])
            # An empty list is a fault in the library that nothing catches.
            recogniser = (
                vosk.KaldiRecognizer(model, RATE, json.dumps(known, ensure_ascii=False))
                if known
                else None
            )
            if recogniser is not None:
                recogniser.SetWords(True)
            _answer({"left_out": unknown})
            continue
        sound = sys.stdin.buffer.read(asked["bytes"])
        found: list[Any] = []
        if recogniser is not None:
            recogniser.AcceptWaveform(sound)
            found = json.loads(recogniser.FinalResult()).get("result", [])
        _answer({"result": found})
    return 0


def _sorted_out(model: Any, phrases: Iterable[str]) -> tuple[list[str], list[str]]:
    """The phrases the model has every word of, and the others: it would drop them without a word."""
    known: list[str] = []
    unknown: list[str] = []
    for phrase in phrases:
        found = all(model.vosk_model_find_word(word) >= 0 for word in phrase.split())
        (known if found else unknown).append(phrase)
    return known, unknown


def _answer(data: dict[str, object]) -> None:
    print(json.dumps(data, ensure_ascii=False), flush=True)


def _trouble(sentence: str) -> int:
    _answer({"trouble": sentence})
    return 1


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
