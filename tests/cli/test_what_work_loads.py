"""One computation loads what it needs: what is dear at the start and not needed stays away."""

import subprocess
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]
DEAR = ("yaml", "pydantic", "textual", "asyncio", "argcomplete", "rich")
LOOK = f"""
import sys
from guide.cli.main import main
main(sys.argv[1:])
print(*[one for one in {DEAR!r} if one in sys.modules])
"""


def loaded(*words: str) -> list[str]:
    call = [sys.executable, "-c", LOOK, "work", *words]
    done = subprocess.run(call, cwd=CHECKOUT, capture_output=True, text=True, check=True)
    return done.stdout.splitlines()[-1].split()


@pytest.mark.parametrize(
    "words",
    [
        ("chord", "width=36 in", "angle=12 deg"),
        ("fasteners", "door=wood", "frame=wood", "core=solid", "thickness=1 3/4 in"),
        ("tune", "width=36 in", "mount=regular", "size=3", "reading=4.1,1.2,yes,no,4.8 lbf"),
    ],
    ids=lambda words: words[0],
)
def test_an_answer_in_words_loads_nothing_dear(words: tuple[str, ...]) -> None:
    assert loaded(*words) == []


def test_an_answer_from_a_sheet_loads_what_reads_the_cache() -> None:
    words = ("moments", "sheet=generic-a", "mount=parallel", "size=3")
    loaded(*words)  # puts the sheet into the cache
    assert loaded(*words) == []
