"""Every answer of every shipped scenario changed, one at a time: no scenario may be met all the same.

Run by hand: python -m tests.campaigns.changed_answers; it writes changed_answers.txt beside itself. 1 where a change
was not noticed, or where a run gone on with from the changed answer comes to something else than one from the
beginning. Nothing is drawn by lot. One in eight of these changes is tried in tests/run/test_rehearse.py.
"""

import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from tests.run.changed_answers import changed, unnoticed
from tests.run.shipped_runs import SHIPPED, carried, gone_on_with

HERE = Path(__file__).parent
WORKERS = 2


@dataclass(frozen=True)
class Result:
    """What became of one scenario."""

    tried: int
    unnoticed: list[str]
    otherwise: bool
    """Gone on with from its middle answer, changed, it came to something else than from the beginning."""


def one(name: str) -> Result:
    """Change each answer of a scenario."""
    every = list(changed(name))
    number, other = every[len(every) // 2]
    otherwise = gone_on_with(name, number, other).differences != carried(other).differences
    return Result(len(every), unnoticed(name, every), otherwise)


def main() -> int:
    """Print and keep the figures."""
    with ProcessPoolExecutor(WORKERS) as pool:
        results = dict(zip(SHIPPED, pool.map(one, SHIPPED), strict=True))
    missed = [f"{name}: {place}" for name, found in results.items() for place in found.unnoticed]
    otherwise = [name for name, found in results.items() if found.otherwise]
    lines = [
        f"scenarios {len(results)}",
        f"answers changed {sum(found.tried for found in results.values())}",
        f"not noticed {len(missed)}",
        f"gone on with otherwise {len(otherwise)}",
        *missed,
        *otherwise,
    ]
    text = "\n".join(lines) + "\n"
    (HERE / "changed_answers.txt").write_text(text, "utf-8")
    sys.stdout.write(text)
    return int(bool(missed or otherwise))


if __name__ == "__main__":
    raise SystemExit(main())
