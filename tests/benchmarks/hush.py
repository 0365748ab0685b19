"""How soon the mouth is silent when it is told to be.

Run it by itself: `python -m tests.benchmarks.hush`. A long sentence is being played, into nothing, when `hush` is
called; it is silent once the process that plays is gone, which is when the call returns. Prints the median and the
longest of 20 in milliseconds, the longest as a part of what is allowed, and ends with 1 where that is above 1.
"""

import statistics
import time

from guide.speech.mouth import Mouth

LONG = "Hold. Read these back before anything is cut: width thirty six inches, mount parallel arm."
TIMES = 20
ALLOWED = 0.150
INTO_IT = 0.7
"""Seconds after which the sentence is well under way."""


def main() -> int:
    """Measure."""
    mouth = Mouth(nowhere=True)
    taken = []
    for _ in range(TIMES):
        mouth.say(LONG)
        time.sleep(INTO_IT)
        process = mouth._process
        assert process is not None
        assert process.poll() is None
        began = time.perf_counter()
        mouth.hush()
        taken.append(time.perf_counter() - began)
        assert process.poll() is not None
    mouth.close()
    median, longest = statistics.median(taken), max(taken)
    print(f"hush: median {1000 * median:.1f} ms, longest {1000 * longest:.1f} ms of {TIMES}")
    print(f"longest / allowed: {longest / ALLOWED:.2f}")
    return 0 if longest <= ALLOWED else 1


if __name__ == "__main__":
    raise SystemExit(main())
