"""A shipped procedure broken in hundreds of ways: what the checker sees, and what the scenarios see.

Run by hand: python -m tests.campaigns.mutants; it writes mutants.txt beside itself. 1 where a target is missed: the
checker alone is to see 95 % of the slips of form and of what is turned round (slips.py says what that is), and the
scenarios alone 80 % of all. What cannot be compiled counts as seen by both.

    python -m tests.campaigns.mutants [--kinds KIND,KIND] [--root find-the-fault.yaml] [--checker]

What a person slipped in by hand, one row a slip with the finding that sees it, is in
tests/checker/test_slips_of_hand.py.

`--kinds` makes only these slips, `--root` makes them in another procedure, `--checker` leaves the scenarios out;
then nothing is written.
"""

import argparse
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from typing import Any

from guide.checker.check import check, sift
from guide.checker.rules import FILE_RULES, GRAPH_RULES
from guide.files.findings import ADVICE, ERROR, Finding
from guide.files.library import find
from guide.procedure.compiler import TEXT_KEYS, compile_procedure
from guide.procedure.graph import Graph
from guide.procedure.load import load
from guide.procedure.scenario_file import ScenarioShape, load_scenario
from guide.run.rehearse import rehearse
from guide.run.replay import replay
from tests.campaigns.slips import (
    HELD_TO,
    OF_FORM,
    ROOT,
    SHIPPED,
    Files,
    Slip,
    shipped,
    slips,
    void,
)
from tests.trade.shipped_sheets import load_sheet

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


@dataclass(frozen=True)
class Campaign:
    """What is broken, and by what it is looked at."""

    root: str = ROOT
    kinds: frozenset[str] = frozenset()
    """The kinds of slips; empty for all."""
    rehearsed: bool = True
    """Whether the scenarios are gone through too."""


@cache
def scenarios(root: str = ROOT) -> list[tuple[str, ScenarioShape, dict[str, Any] | None]]:
    """Every shipped scenario of a procedure, with its sheet."""
    found = []
    for path in sorted(SCENARIOS.glob("*.yaml")):
        scenario = load_scenario(path)
        if scenario.procedure != Path(root).stem:
            continue
        sheet = None
        if scenario.sheet != "none":
            sheet = load_sheet(find("sheet", scenario.sheet)).to_json()
        found.append((path.stem, scenario, sheet))
    return found


@cache
def whole(root: str) -> Files:
    """The procedure without a slip, read once, so that nothing changes under the campaign."""
    return shipped(root)


def held(slip: Slip, campaign: Campaign) -> Outcome:
    """Make a slip and look at it both ways."""
    with tempfile.TemporaryDirectory() as folder:
        root = made_in(Path(folder), slip, campaign.root)
        rehearsed = seen_by_runs(root) if campaign.rehearsed else ""
        return Outcome(slip.kind, slip.said, seen_by_checker(root), rehearsed)


@cache
def beside() -> dict[str, str]:
    """The texts of all shipped procedures, which stand in one folder; read once as well."""
    return {path.name: path.read_text() for path in sorted(SHIPPED.glob("*.yaml"))}


def made_in(folder: Path, slip: Slip, root: str = ROOT) -> Path:
    """Write the files with the slip in them beside all the others, as they are shipped; the root's path."""
    for name, text in (beside() | slip.made(whole(root))).items():
        (folder / name).write_text(text)
    return folder / root


def seen_by_checker(root: Path) -> str:
    """The first finding's code; empty where there is none but advice.

    The rules, which are quick, are asked before the proof, and the proof is not asked where words alone are others:
    it found nothing in the same graph. A part that the procedure no longer includes is checked by itself, as it is
    where a whole folder is checked.
    """
    told, graph = _seen_by_rules(root)
    if told or graph is None or without_words(graph) == whole_without_words(root.name):
        return told
    report = check(root, replay=replay)
    found = list(report.findings)
    gathered = {path.name for path in report.loaded.sources}
    for name in whole(root.name):
        if name not in gathered and report.sound:
            found += check(root.parent / name, replay=replay).findings
    codes = [one.code for one in found if one.level != ADVICE]
    return codes[0] if codes else ""


def _seen_by_rules(root: Path) -> tuple[str, Graph | None]:
    """The first code that reading, compiling and the rules find and no file accepts, empty if there is none; and the
    graph, if there is one."""
    loaded = load(root)
    graph, found = compile_procedure(loaded)
    if graph is None or any(finding.level == ERROR for finding in found):
        return found[0].code, graph
    found += [one for file_rule in FILE_RULES for one in file_rule(loaded)]
    found += [one for graph_rule in GRAPH_RULES for one in graph_rule(graph)]
    kept, _ = sift(loaded, found, whole=False)
    codes = [one.code for one in sorted(kept, key=Finding.place) if one.level != ADVICE]
    return codes[0] if codes else "", graph


WORDS = {*TEXT_KEYS, "caution", "hazards", "picture", "card", "parts"}
"""What of a block no proof reads. The facts that its texts show are beside them."""
ASKING_WORDS = ("ask", "say", "find_out")


def without_words(graph: Graph) -> tuple[list[Any], list[Any]]:
    """The blocks and the facts of a graph without their words and places."""
    nodes = []
    for node in graph.nodes:
        id_, kind, body, edges, loops, shows, *_ = node.to_json()
        kept = {key: value for key, value in body.items() if key not in WORDS or kind == "work"}
        nodes.append([id_, kind, kept, edges, loops, sorted(shows)])
    facts = []
    for fact in graph.facts.values():
        data = {key: value for key, value in fact.to_json().items() if key not in ASKING_WORDS}
        facts.append({**data, "options": list(fact.options)})
    return nodes, facts


@cache
def whole_without_words(root: str) -> tuple[list[Any], list[Any]]:
    """The graph without a slip, of which the proof finds nothing."""
    with tempfile.TemporaryDirectory() as folder:
        graph, _ = compile_procedure(load(made_in(Path(folder), Slip("", "", void), root)))
    if graph is None:
        raise ValueError(f"{root} cannot be compiled as it is shipped")
    return without_words(graph)


def seen_by_runs(root: Path) -> str:
    """The first scenario that goes otherwise, without the checker; `not compiled` where none can."""
    graph, findings = compile_procedure(load(root))
    if graph is None or any(finding.level == ERROR for finding in findings):
        return "not compiled"
    return seen_by_scenarios(graph, root.name)


def seen_by_scenarios(graph: Graph, root: str = ROOT) -> str:
    """The first scenario that goes otherwise than written."""
    for name, scenario, sheet in scenarios(root):
        if not rehearse(scenario, graph, sheet).met:
            return name
    return ""


def one(campaign: Campaign, number: int) -> Outcome:
    """The slip of that number."""
    return held(drawn(campaign)[number], campaign)


@cache
def drawn(campaign: Campaign) -> list[Slip]:
    """All slips of the campaign."""
    some = slips(SEED, MOST, campaign.root)
    return [slip for slip in some if not campaign.kinds or slip.kind in campaign.kinds]


def asked(arguments: list[str]) -> Campaign:
    """The campaign that the command line asks for."""
    parser = argparse.ArgumentParser(description="Break a shipped procedure, and see who notices.")
    parser.add_argument("--kinds", default="", help="only these kinds of slips, joined by commas")
    parser.add_argument("--root", default=ROOT, help="the procedure file to break")
    parser.add_argument("--checker", action="store_true", help="leave the scenarios out")
    options = parser.parse_args(arguments)
    kinds = frozenset(kind for kind in options.kinds.split(",") if kind)
    return Campaign(options.root, kinds, not options.checker)


def main(arguments: list[str]) -> int:
    """Print the figures, and keep those of the whole campaign."""
    campaign = asked(arguments)
    start = time.perf_counter()
    whole(campaign.root), beside(), scenarios(campaign.root)  # read before the work is shared out
    numbers = range(len(drawn(campaign)))
    with ProcessPoolExecutor(2) as pool:
        outcomes = list(pool.map(partial(one, campaign), numbers, chunksize=4))
    lines, good = report(outcomes, campaign)
    text = "\n".join(lines) + "\n"
    if campaign == Campaign():
        (HERE / "mutants.txt").write_text(text)
    print(text, end="")
    print(f"{time.perf_counter() - start:.0f} s")
    return int(not good)


def report(outcomes: list[Outcome], campaign: Campaign) -> tuple[list[str], bool]:
    """The figures in lines, and whether the targets are met."""
    form = [o for o in outcomes if o.kind in OF_FORM]
    sense = [o for o in outcomes if o.kind not in OF_FORM]
    held_to = [o for o in outcomes if o.kind in HELD_TO]
    named = [o for o in outcomes if o.kind in HELD_TO or o.kind == "check dropped"]
    lines = [
        f"{campaign.root}: {len(outcomes)} slips, seed {SEED}; {len(scenarios(campaign.root))} scenarios",
        "",
        f"{'':<32}{'made':>6}{'checker':>16}{'scenarios':>16}{'neither':>9}",
    ]
    groups = {
        "slips of form": form,
        "slips of sense": sense,
        "all": outcomes,
        "form, and turned round": held_to,
        "the same, and checks dropped": named,
    }
    lines += [_row(word, of, shares=True) for word, of in groups.items() if of]
    lines += ["", "by the names of the commonest slips:"]
    for word, kinds in BY_NAME.items():
        of = [o for o in outcomes if o.kind in kinds]
        lines += [_row("  " + word, of)] if of else []
    for title, of in (("of form:", form), ("of sense:", sense)):
        lines += ["", title]
        for kind in sorted({o.kind for o in of}):
            lines.append(_row("  " + kind, [o for o in of if o.kind == kind]))
    lines += ["", "what the checker said:"]
    said = Counter(o.checker for o in outcomes if o.checker)
    lines += [f"  {code:<32}{count:>4}" for code, count in sorted(said.items())]
    neither = [o for o in outcomes if not o.checker and not o.scenarios]
    lines += ["", "seen by neither:"]
    for kind in sorted({o.kind for o in neither}):
        lines.append(f"  {kind}: {WHY_UNSEEN.get(kind, 'not looked into yet')}")
        lines += [f"    {o.said}" for o in neither if o.kind == kind]
    lines += ["", "form or turned round, seen by the scenarios and not by the checker:"]
    lines += [f"  {o.kind}: {o.said}" for o in held_to if not o.checker and o.scenarios]
    checker = _share(o.checker for o in held_to)
    rehearsed = _share(o.scenarios for o in outcomes)
    return lines, checker >= 0.95 and (rehearsed >= 0.8 or not campaign.rehearsed)


def _share(seen: Iterable[str]) -> float:
    """The share of those that somebody saw; all, where nothing was made."""
    marks = [bool(one) for one in seen]
    return sum(marks) / len(marks) if marks else 1.0


BY_NAME = {
    "branch dropped": {"branch dropped"},
    "threshold flipped, anywhere": {"threshold flipped", "threshold flipped in a branch"},
    "hold deleted": {"hold deleted"},
    "fact misspelt": {"fact misspelt"},
    "asked after its use": {"asked after its use"},
    "until turned round": {"until turned round"},
    "check dropped": {"check dropped"},
}


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
    sys.exit(main(sys.argv[1:]))
