"""The shipped procedure broken in hundreds of ways: what the checker sees, and what the scenarios see.

Run by hand: python tests/campaigns/mutants.py; it writes mutants.txt beside itself. 1 where a target is
missed: of the slips that change what the procedure does, the checker alone is to see 95 % and the
scenarios alone 80 %. What cannot be compiled counts as seen by both.
"""

import sys
import tempfile
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

from slips import ROOT, SHIPPED, Slip, shipped, slips  # noqa: E402

from guide.procedure.checker import check  # noqa: E402
from guide.procedure.compiler import compile_procedure  # noqa: E402
from guide.procedure.findings import ADVICE, ERROR  # noqa: E402
from guide.procedure.graph import Graph  # noqa: E402
from guide.procedure.load import load  # noqa: E402
from guide.procedure.scenario_file import ScenarioShape, load_scenario  # noqa: E402
from guide.procedure.sheet_file import load_sheet  # noqa: E402
from guide.run.rehearse import rehearse  # noqa: E402
from guide.run.replay import replay  # noqa: E402

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
    """Every shipped scenario with its sheet."""
    found = []
    for path in sorted(SCENARIOS.glob("*.yaml")):
        scenario = load_scenario(path)
        sheet = None
        if scenario.sheet != "none":
            sheet = load_sheet(SHIPPED / "sheets" / f"{scenario.sheet}.yaml").to_json()
        found.append((path.stem, scenario, sheet))
    return found


def held(slip: Slip) -> Outcome:
    """Make a slip and look at it both ways."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in slip.made(shipped()).items():
            (Path(folder) / name).write_text(text)
        root = Path(folder) / ROOT
        report = check(root, replay=replay)
        told = [finding.code for finding in report.findings if finding.level != ADVICE]
        graph, findings = compile_procedure(load(root))
        if graph is None or any(finding.level == ERROR for finding in findings):
            seen = "not compiled"
        else:
            seen = seen_by_scenarios(graph)
    return Outcome(slip.kind, slip.said, told[0] if told else "", seen)


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
    total = len(outcomes)
    checker = sum(1 for o in outcomes if o.checker)
    rehearsed = sum(1 for o in outcomes if o.scenarios)
    neither = [o for o in outcomes if not o.checker and not o.scenarios]
    lines = [
        f"{total} slips, seed {SEED}",
        f"seen by the checker alone:   {checker} ({100 * checker / total:.1f} %)",
        f"seen by the scenarios alone: {rehearsed} ({100 * rehearsed / total:.1f} %)",
        f"seen by neither: {len(neither)}",
        "",
        f"{'kind of slip':<28}{'made':>6}{'checker':>9}{'scenarios':>11}{'neither':>9}",
    ]
    kinds = Counter(o.kind for o in outcomes)
    for kind, count in sorted(kinds.items()):
        of = [o for o in outcomes if o.kind == kind]
        seen, also = sum(bool(o.checker) for o in of), sum(bool(o.scenarios) for o in of)
        missed = sum(not o.checker and not o.scenarios for o in of)
        lines.append(f"{kind:<28}{count:>6}{seen:>9}{also:>11}{missed:>9}")
    lines += ["", "seen by neither:"]
    lines += [f"  {o.kind}: {o.said}" for o in neither]
    lines += ["", "seen by the scenarios and not by the checker:"]
    lines += [f"  {o.kind}: {o.said}" for o in outcomes if not o.checker and o.scenarios]
    return lines, checker / total >= 0.95 and rehearsed / total >= 0.8


if __name__ == "__main__":
    sys.exit(main())
