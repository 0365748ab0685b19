"""The shipped procedure broken in hundreds of ways: what the checker sees, and what the scenarios see.

Run by hand: python tests/campaigns/mutants.py; it writes mutants.txt beside itself. 1 where a target is
missed: the checker alone is to see 95 % of the slips of form (slips.py says what that is), and the
scenarios alone 80 % of all. What cannot be compiled counts as seen by both.
"""

import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

from slips import OF_FORM, ROOT, SHIPPED, Slip, shipped, slips

from guide.procedure.checker import check
from guide.procedure.compiler import compile_procedure
from guide.procedure.findings import ADVICE, ERROR
from guide.procedure.graph import Graph
from guide.procedure.load import load
from guide.procedure.scenario_file import ScenarioShape, load_scenario
from guide.procedure.sheet_file import load_sheet
from guide.run.rehearse import rehearse
from guide.run.replay import replay

SEED = 7
MOST = 16
"""Slips of each kind."""
SCENARIOS = SHIPPED.parent / "scenarios"
HERE = Path(__file__).parent


@dataclass
class Outcome:
    """What came of one slip."""

    kind: str
    said: str
    checker: str
    """The first finding's code; empty where the checker has nothing to say."""
    scenarios: str
    """The first scenario that went otherwise, or `not compiled`; empty where all went as before."""


@cache
def scenarios() -> list[tuple[str, ScenarioShape, dict[str, Any] | None]]:
    """Every shipped scenario of the procedure, with its sheet."""
    found = []
    for path in sorted(SCENARIOS.glob("*.yaml")):
        scenario = load_scenario(path)
        if scenario.procedure != Path(ROOT).stem:
            continue
        sheet = None
        if scenario.sheet != "none":
            sheet = load_sheet(SHIPPED / "sheets" / f"{scenario.sheet}.yaml").to_json()
        found.append((path.stem, scenario, sheet))
    return found


def held(slip: Slip) -> Outcome:
    """Make a slip and look at it both ways."""
    with tempfile.TemporaryDirectory() as folder:
        root = made_in(Path(folder), slip)
        return Outcome(slip.kind, slip.said, seen_by_checker(root), seen_by_runs(root))


def made_in(folder: Path, slip: Slip) -> Path:
    """Write the files with the slip in them; the root's path."""
    for name, text in slip.made(shipped()).items():
        (folder / name).write_text(text)
    return folder / ROOT


def seen_by_checker(root: Path) -> str:
    """The first finding's code; empty where there is none but advice."""
    told = [f.code for f in check(root, replay=replay).findings if f.level != ADVICE]
    return told[0] if told else ""


def seen_by_runs(root: Path) -> str:
    """The first scenario that goes otherwise, without the checker; `not compiled` where none can."""
    graph, findings = compile_procedure(load(root))
    if graph is None or any(finding.level == ERROR for finding in findings):
        return "not compiled"
    return seen_by_scenarios(graph)


def seen_by_scenarios(graph: Graph) -> str:
    """The first scenario that goes otherwise than written."""
    for name, scenario, sheet in scenarios():
        if not rehearse(scenario, graph, sheet).met:
            return name
    return ""


def one(number: int) -> Outcome:
    """The slip of that number."""
    return held(drawn()[number])


@cache
def drawn() -> list[Slip]:
    """All slips of the campaign."""
    return slips(SEED, MOST)


def main() -> int:
    """Print and keep the figures."""
    start = time.perf_counter()
    with ProcessPoolExecutor(2) as pool:
        outcomes = list(pool.map(one, range(len(drawn())), chunksize=4))
    lines, good = report(outcomes)
    text = "\n".join(lines) + "\n"
    (HERE / "mutants.txt").write_text(text)
    print(text, end="")
    print(f"{time.perf_counter() - start:.0f} s")
    return int(not good)


def report(outcomes: list[Outcome]) -> tuple[list[str], bool]:
    """The figures in lines, and whether the targets are met."""
    form = [o for o in outcomes if o.kind in OF_FORM]
    sense = [o for o in outcomes if o.kind not in OF_FORM]
    lines = [f"{len(outcomes)} slips, seed {SEED}; {len(scenarios())} scenarios", ""]
    lines.append(f"{'':<32}{'made':>6}{'checker':>16}{'scenarios':>16}{'neither':>9}")
    for word, of in (("slips of form", form), ("slips of sense", sense), ("all", outcomes)):
        lines.append(_row(word, of, shares=True))
    for title, of in (("of form:", form), ("of sense:", sense)):
        lines += ["", title]
        for kind in sorted({o.kind for o in of}):
            lines.append(_row("  " + kind, [o for o in of if o.kind == kind]))
    neither = [o for o in outcomes if not o.checker and not o.scenarios]
    lines += ["", "seen by neither:"]
    for kind in sorted({o.kind for o in neither}):
        lines.append(f"  {kind}: {WHY_UNSEEN.get(kind, 'not looked into yet')}")
        lines += [f"    {o.said}" for o in neither if o.kind == kind]
    lines += ["", "slips of form seen by the scenarios and not by the checker:"]
    lines += [f"  {o.kind}: {o.said}" for o in form if not o.checker and o.scenarios]
    checker = sum(bool(o.checker) for o in form) / len(form)
    rehearsed = sum(bool(o.scenarios) for o in outcomes) / len(outcomes)
    return lines, checker >= 0.95 and rehearsed >= 0.8


def _row(word: str, of: list[Outcome], *, shares: bool = False) -> str:
    seen, also = sum(bool(o.checker) for o in of), sum(bool(o.scenarios) for o in of)
    missed = sum(not o.checker and not o.scenarios for o in of)

    def share(count: int) -> str:
        return f"{count} ({100 * count / len(of):.1f} %)" if shares else str(count)

    return f"{word:<32}{len(of):>6}{share(seen):>16}{share(also):>16}{missed:>9}"


WHY_UNSEEN = {
    "fact left out of a hold": "no cut rests on it (din), or an earlier hold read it back (leaf, frame): no cut "
    "is made on what was not agreed to, and the person is only shown less",
    "input dropped": "the computation can do without it, and no scenario's door comes out otherwise",
    "option dropped": "no condition names it and no scenario answers it",
    "option dropped, still named": "no scenario answers it",
    "reads dropped": "the hold still reads it back and no branch behind the hold asks it; what is lost is the "
    "stop where the answer changes after the cut, and no scenario changes that answer there",
    "threshold shifted": "no scenario has a reading between the old limit and the new one",
    "label left out": "no scenario has such a door",
    "unsure left out": "no scenario has such a door",
    "unsure withdrawn": "no condition names it and no scenario answers it",
}
"""Why a kind of slip can go past both."""


if __name__ == "__main__":
    sys.exit(main())
