"""The process of speech recognition: a command in, its reports out, both pickled, one for one.

In: a grammar, a frame of sound as bytes, or None at the end of the sound. Out: the reports on it, or a sentence
when hearing ends. The first output says whether the engine was loaded. Only the process that
started this one can write to it, so that what comes in is as trusted as the program itself. Called as
`python -m guide.speech.ear_child ENGINE [FOLDER [MEANS]]`.
"""

import pickle
import sys
from typing import BinaryIO

from guide.speech.ear import Ear
from guide.speech.engine import NoEngine
from guide.speech.engines import load_engine
from guide.words.spoken import Grammar

Answer = list[object] | str
"""Reports, or why there will be no more."""


def main(arguments: list[str]) -> int:
    """Hear until the input ends; status 1 if nothing can be heard here."""
    given, answers = sys.stdin.buffer, sys.stdout.buffer
    sys.stdout = sys.stderr  # whatever a library prints is not an answer
    try:
        ear = Ear(load_engine(*arguments))
        _give(answers, [])
        while True:
            _give(answers, _reports(ear, pickle.load(given)))
    except NoEngine as error:
        _give(answers, str(error))
        return 1
    except EOFError:
        return 0


def _reports(ear: Ear, wanted: Grammar | bytes | None) -> Answer:
    if isinstance(wanted, Grammar):
        ear.listen_for(wanted)
        return []
    return list(ear.finish() if wanted is None else ear.feed(wanted))


def _give(answers: BinaryIO, answer: Answer) -> None:
    pickle.dump(answer, answers)
    answers.flush()


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
