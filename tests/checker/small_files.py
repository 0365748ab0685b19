"""Small procedures at random, as files a trainer could have written, right and wrong ones alike.

`written(seed)` gives the texts by file name; the same seed gives the same texts. The root is `root.yaml`.
`written(seed, turns=True)` has something in it that is done in turn for each of two leaves.
"""

import random
from dataclasses import dataclass, field
from typing import Any

import yaml

Block = dict[str, Any]
Facts = dict[str, dict[str, Any]]

ROOT = "root.yaml"
PART = "part.yaml"

ASKED: Facts = {
    "leaf": {
        "choice": {"wood": "Timber", "steel": "Steel", "glass": "Glass"},
        "unsure": "true",
        "find_out": "Knock on it.",
        "ask": "What is the leaf?",
    },
    "swing": {
        "choice": {"in": "Into the room", "out": "Into the corridor"},
        "ask": "Which way does it swing?",
    },
    "fire": {"yesno": {}, "ask": "Is it a fire door?"},
    "draught": {
        "yesno": {},
        "unsure": "true",
        "find_out": "Hold a thread in the gap.",
        "ask": "Is there a draught?",
    },
    "knuckles": {
        "choice": {"left": "Left", "right": "Right"},
        "ask": "Where are the knuckles?",
    },
    "outside": {"choice": {"push": "Push side", "pull": "Pull side"}, "ask": "Which is outside?"},
    "hinges": {"count": {"from": "0", "to": "4"}, "ask": "How many hinges are there?"},
    "screws": {"count": {"from": "2", "to": "6"}, "ask": "How many screws are left?"},
    "leaves": {"count": {"from": "1", "to": "3"}, "ask": "How many leaves are there?"},
    "width": {
        "length": {"from": "8 in", "to": "130 in", "step": "1/4 in"},
        "ask": "How wide is the leaf?",
    },
    "gap": {
        "length": {"from": "0 in", "to": "2 in", "step": "1/16 in"},
        "unsure": "true",
        "find_out": "Slide a rule in.",
        "ask": "How wide is the gap?",
    },
    "sweep": {"time": {"from": "1 s", "to": "20 s"}, "ask": "How long is the sweep?"},
    "lean": {"angle": {"from": "0 deg", "to": "10 deg", "step": "1/2 deg"}, "ask": "How far?"},
}
TURN = "this_leaf"
TURNS: Facts = {
    TURN: {
        "choice": {"first": "First leaf", "second": "Second leaf"},
        "ask": "Which leaf is this?",
    },
}
"""A fact that nobody is asked for."""
WORKED: Facts = {
    "din": {"worked": "din", "using": {"knuckles": "knuckles"}},
    "hand": {"worked": "hand", "using": {"knuckles": "knuckles", "outside": "outside"}},
    "hand_by_din": {"worked": "hand", "using": {"knuckles": "din", "outside": "outside"}},
    "either_hand": {
        "worked": "handing",
        "part": "hand",
        "using": {"knuckles": "knuckles", "outside": "outside"},
    },
    "size": {"worked": "spring-size", "using": {"width": "width", "fire": "fire"}},
    "reach": {"worked": "chord", "using": {"width": "width", "angle": "= 90 deg"}},
    "clear": {"sum": ["width", "-1/8 in"]},
    "room": {"difference": ["width", "gap"]},
    "twice": {"times": ["gap", "2"]},
    "fasteners": {"sum": ["hinges", "screws"]},
    "spare": {"difference": ["screws", "hinges"]},
    "screws_a_leaf": {"difference": ["screws", "leaves"]},
    "all_hinges": {"times": ["hinges", "3"]},
    "reach_clear": {"worked": "chord", "using": {"width": "clear", "angle": "= 60 deg"}},
    "beyond": {"difference": ["reach", "width"]},
    "size_clear": {"worked": "spring-size", "using": {"width": "clear"}},
}
CONSTANTS = {
    "hinges": ["1", "2", "3", "4", "7"],
    "screws": ["1", "2", "3", "4", "6"],
    "leaves": ["1", "2", "3", "4"],
    "screws_a_leaf": ["2", "3", "5", "6"],
    "all_hinges": ["0", "2", "6", "12"],
    "width": ["12 in", "36 in", "914 mm", "48 in", "120 in", "6 in"],
    "gap": ["1/8 in", "3 mm", "1/2 in", "2 in", "3 in"],
    "sweep": ["5 s", "7 s", "1 s", "30 s"],
    "lean": ["1 deg", "2 1/2 deg", "10 deg", "12 deg"],
    "size": ["1", "3", "4", "7"],
    "reach": ["20 in", "60 in", "100 in"],
    "clear": ["12 in", "36 in", "120 in", "7 7/8 in"],
    "room": ["7 in", "36 in", "7 7/8 in", "131 in"],
    "twice": ["1/8 in", "3 mm", "1 in", "4 in"],
    "fasteners": ["2", "4", "9", "11"],
    "spare": ["0", "1", "2", "-1", "-3"],
    "reach_clear": ["12 in", "36 in", "130 in", "140 in"],
    "beyond": ["0 in", "12 in", "-2 in", "60 in"],
    "size_clear": ["1", "3", "4", "7"],
}
LABELS = {
    "leaf": ["wood", "steel", "glass", "unsure"],
    "swing": ["in", "out"],
    "fire": ["yes", "no"],
    "draught": ["yes", "no", "unsure"],
    "knuckles": ["left", "right"],
    "outside": ["push", "pull"],
    "din": ["left", "right", "none"],
    "hand": ["LH", "RH", "LHR", "RHR", "none"],
    "hand_by_din": ["LH", "RH", "LHR", "RHR", "none"],
    "either_hand": ["LH", "RH", "LHR", "RHR", "none"],
    TURN: ["first", "second"],
}
LENGTHS = ["width", "gap", "reach", "clear", "room", "twice", "reach_clear", "beyond"]
COUNTS = [
    *("hinges", "screws", "leaves", "size", "fasteners", "spare", "screws_a_leaf", "all_hinges"),
    "size_clear",
]
OFFSETS = {"length": [" - 1/16 in", " + 3 mm", " + 30 in", " - 90 in"], "count": [" + 1", " - 2"]}


def inputs_of(name: str) -> list[str]:
    """The facts that a computed fact is computed from."""
    if name not in WORKED:
        return []
    formula = [term for key in ("sum", "difference", "times") for term in WORKED[name].get(key, ())]
    fillers = [*WORKED[name].get("using", {}).values(), *formula]
    return [one for one in fillers if one in ASKED or one in WORKED]


def sources(name: str) -> list[str]:
    """The asked facts behind a fact; the fact itself where it is asked."""
    return [leaf for one in inputs_of(name) for leaf in sources(one)] or [name]


def _with_inputs(name: str) -> list[str]:
    return [*(one for filler in inputs_of(name) for one in _with_inputs(filler)), name]


@dataclass
class Writer:
    """One procedure in the making."""

    rng: random.Random
    facts: list[str]
    """The facts it may use, worked ones too."""
    blocks: int
    """How many blocks are still to be written."""
    known: set[str] = field(default_factory=set)
    """What was asked so far on the way that is being written."""
    count: int = 0
    ids: list[str] = field(default_factory=list)
    """Blocks a `go` may lead to."""
    sure: float = 0.9
    """How likely a block keeps to what is known, holds before cuts, and branches over every case."""

    def chance(self, share: float) -> bool:
        """True that often."""
        return self.rng.random() < share

    def id(self, word: str) -> str:
        """A fresh id."""
        self.count += 1
        return f"{word}-{self.count}"

    def readable(self) -> list[str]:
        """Facts whose sources were all asked."""
        return [f for f in self.facts if all(s in self.known for s in sources(f))]

    def pick(self) -> str:
        """A fact to read: mostly one that is known, worked ones a little preferred."""
        found = self.readable()
        if not found or self.chance((1 - self.sure) / 3):
            return self.rng.choice(self.facts)
        worked = [name for name in found if name in WORKED]
        return self.rng.choice(worked if worked and self.chance(0.4) else found)

    def asked(self) -> str:
        """A fact to ask: mostly one that was not asked yet."""
        every = [f for f in self.facts if f in ASKED]
        fresh = [f for f in every if f not in self.known]
        return self.rng.choice(fresh if fresh and self.chance(0.8) else every)

    # --- conditions ---

    def test(self, name: str) -> Any:
        """One test of a fact."""
        if name in LABELS:
            labels = LABELS[name]
            if self.chance(0.1):
                return list(labels)
            return self.rng.sample(labels, self.rng.randint(1, max(1, len(labels) - 1)))
        constants = CONSTANTS[name]
        if self.chance(0.3) and (others := self.alike(name)):
            return self.comparison(name, self.rng.choice(others))
        if self.chance(0.15):
            low, high = sorted(self.rng.sample(range(len(ORDERED[name])), 2))
            return f"{ORDERED[name][low]} to {ORDERED[name][high]}"
        return f"{self.rng.choice(['>', '>=', '<', '<=', '='])} {self.rng.choice(constants)}"

    def alike(self, name: str) -> list[str]:
        """The facts of its kind, which it may be compared with: those that are known, or any."""
        kind = next((kind for kind in (LENGTHS, COUNTS) if name in kind), [])
        found = [one for one in self.facts if one in kind and one != name]
        known = [one for one in found if one in self.readable()]
        return known or (found if self.chance(0.2) else [])

    def comparison(self, name: str, other: str) -> str:
        """One fact against another, now and then with something added."""
        offset = self.rng.choice(OFFSETS["length" if name in LENGTHS else "count"])
        operator = self.rng.choice(["<", "<=", ">", ">=", "="])
        return f"{operator} {other}{offset if self.chance(0.4) else ''}"

    def against(self, name: str, other: str) -> list[dict[str, Any]]:
        """Two or three cases by one comparison, which cover every case once or nearly."""
        offset = self.rng.choice(["", *OFFSETS["length" if name in LENGTHS else "count"]])
        parts = [
            {name: f"{operator} {other}{offset}"}
            for operator in self.rng.choice(
                [["<", ">="], ["<=", ">"], ["<", "=", ">"], ["<=", ">="]]
            )
        ]
        rest = [{one: "unsure"} for one in sources(name) + sources(other) if one == "gap"]
        last = [{one: "none"} for one in (name, other) if one in WORKED and self.chance(0.8)]
        extra = [one for n, one in enumerate([*rest, *last]) if one not in [*rest, *last][:n]]
        return [{"any": [parts[0], *extra]} if extra else parts[0], *parts[1:]]

    def condition(self, depth: int = 0) -> dict[str, Any]:
        """Any condition."""
        turn = self.rng.random()
        if depth < 2 and turn < 0.12:
            key = self.rng.choice(["all", "any"])
            return {key: [self.condition(depth + 1) for _ in range(self.rng.randint(1, 2))]}
        if depth < 2 and turn < 0.2:
            return {"not": self.condition(depth + 1)}
        if turn < 0.25:
            return (
                {"known": self.rng.choice(self.facts)}
                if self.chance(0.5)
                else self.condition(depth)
            )
        first = self.pick()
        if turn < 0.4:
            second = self.pick()
            return {name: self.test(name) for name in {first: 0, second: 0}}
        return {first: self.test(first)}

    def partition(self) -> list[dict[str, Any]]:
        """Conditions that cover every case once; now and then one is spoilt."""
        name = self.pick()
        if name in LABELS:
            labels = list(LABELS[name])
            self.rng.shuffle(labels)
            at = self.rng.randint(1, len(labels) - 1)
            parts = [labels[:at], labels[at:]]
            if not self.chance(self.sure):
                part = self.rng.choice(parts)
                if len(part) > 1 and self.chance(0.5):
                    part.pop()
                else:
                    part += [x for x in LABELS[name] if x not in part][:1]
            return [{name: part} for part in parts]
        if self.chance(0.3) and (others := self.alike(name)):
            return self.against(name, self.rng.choice(others))
        low, high = sorted(self.rng.sample(range(len(ORDERED[name])), 2))
        first, last = ORDERED[name][low], ORDERED[name][high]
        parts_of: list[dict[str, Any]] = [
            {name: f"< {first}"},
            {name: f"{first} to {last}"},
            {name: f"> {last}"},
        ]
        if name == "gap":
            parts_of[0] = {"any": [parts_of[0], {"gap": "unsure"}]}
        if name in WORKED and self.chance(0.7):
            parts_of[2] = {"any": [parts_of[2], {name: "none"}]}
        if not self.chance(self.sure):
            parts_of[1] = {name: self.test(name)}
        if self.chance(0.4):
            return [{"any": parts_of[:2]}, parts_of[2]]
        return parts_of

    def branching(self) -> list[dict[str, Any]]:
        """The conditions of a `by_case`."""
        turn = self.rng.random()
        if turn < 0.6:
            return self.partition()
        condition = self.condition()
        if turn < 0.9:
            found = [condition, {"not": condition}]
            if not self.chance(self.sure):
                found[1] = self.condition()
            return found
        return [self.condition() for _ in range(self.rng.randint(2, 3))]

    # --- blocks ---

    def text(self) -> str:
        """Words that now and then show a fact."""
        return f"Mind {{{self.pick()}}}." if self.chance(0.3) else "Look again."

    def steps(self, most: int, depth: int) -> list[Block]:
        """Some blocks in order."""
        found: list[Block] = []
        for _ in range(self.rng.randint(1, most)):
            if self.blocks <= 0 and found:
                break
            self.blocks -= 1
            found += self.block(depth)
        return found

    def block(self, depth: int) -> list[Block]:
        """One block, with the hold a cut needs before it."""
        kinds = ["ask"] * 4 + ["do"] * 2 + ["cut"] * 2 + ["work", "check", "check", "hold"]
        if depth < 2:
            kinds += ["by_case"] * 4 + ["repeat"]
        if depth:
            kinds.append("end")
        kind = self.rng.choice(kinds)
        made: list[Block] = getattr(self, f"make_{kind}")(depth)
        shape = next(iter(made[-1].values()))
        if kind != "work" and self.chance(0.12):
            shape["when"] = self.condition()
        self.ids.append(shape["id"])
        return made

    def make_ask(self, depth: int) -> list[Block]:
        """A question; a time is taken by stopwatch."""
        name = self.asked()
        self.known.add(name)
        made: Block = {"id": self.id("ask"), "fact": name}
        if self.chance(0.15):
            made["why"] = self.text()
        return [{"time" if name == "sweep" else "ask": made}]

    def make_do(self, depth: int) -> list[Block]:
        """A step."""
        return [{"do": {"id": self.id("do"), "text": self.text()}}]

    def make_cut(self, depth: int) -> list[Block]:
        """A cut, mostly behind its hold."""
        reads = sorted({self.pick() for _ in range(self.rng.randint(1, 2))})
        before: list[Block] = []
        if self.chance(self.sure):
            back = reads if self.chance(self.sure) else reads[:1]
            before = [{"hold": {"id": self.id("hold"), "reads_back": back}}]
            if not self.chance(self.sure):
                before += self.make_ask(depth)
        cut = {"id": self.id("drill"), "text": "Drill.", "cuts": "yes", "reads": reads}
        return [*before, {"do": cut}]

    def make_hold(self, depth: int) -> list[Block]:
        """A hold by itself."""
        return [{"hold": {"id": self.id("hold"), "reads_back": [self.pick()]}}]

    def make_work(self, depth: int) -> list[Block]:
        """A computed value shown; a step where the procedure computes nothing."""
        found = [name for name in self.readable() if name in WORKED]
        if not self.chance(self.sure) or not found:
            found = [name for name in self.facts if name in WORKED]
        if not found:
            return self.make_do(depth)
        return [{"work": {"id": self.id("work"), "fact": self.rng.choice(found)}}]

    def make_end(self, depth: int) -> list[Block]:
        """An end inside a branch."""
        outcome = self.rng.choice(["not-started", "made-safe", "finished"])
        return [{"end": {"id": self.id("end"), "outcome": outcome, "text": self.text()}}]

    def make_check(self, depth: int) -> list[Block]:
        """A reading held against a constant, or against another fact."""
        name = self.pick() if self.chance(0.3) else self.asked()
        limit: Any = self.test(name)
        if self.chance(0.5) and (others := self.alike(name)):
            limit = self.comparison(name, self.rng.choice(others))
        made: Block = {
            "id": self.id("check"),
            "fact": name,
            "limit": limit,
            "otherwise": self.otherwise(depth),
        }
        self.known.add(name)
        return [{"check": made}]

    def otherwise(self, depth: int) -> Block:
        """What follows a failure."""
        if self.ids and self.chance(0.3):
            return {"go": self.rng.choice(self.ids)}
        known = set(self.known)
        made: Block = {"steps": self.steps(2, depth + 1)}
        if self.ids and self.chance(0.3):
            made["go"] = self.rng.choice(self.ids)
        self.known = known
        return made

    def make_by_case(self, depth: int) -> list[Block]:
        """Branches."""
        branches = []
        known, after = set(self.known), []
        for number, condition in enumerate(self.branching()):
            self.known = set(known)
            branch = {"id": f"way-{number + 1}", "when": condition}
            branches.append({**branch, "steps": self.steps(2, depth + 1)})
            after.append(self.known)
        self.known = set.intersection(*after) if self.chance(0.8) else set.union(*after)
        return [{"by_case": {"id": self.id("by-case"), "cases": branches}}]

    def make_repeat(self, depth: int) -> list[Block]:
        """Something done again."""
        inside = self.steps(2, depth + 1)
        if self.chance(0.7):
            inside += self.make_ask(depth)
        made = {
            "id": self.id("repeat"),
            "steps": inside,
            "until": self.condition(),
            "at_most": str(self.rng.randint(1, 3)),
            "otherwise": self.otherwise(depth),
        }
        return [{"repeat": made}]

    def make_each(self, depth: int) -> list[Block]:
        """Something done for each leaf in turn; what the first turn asked is mostly not kept for the second."""
        before = set(self.known)
        self.known.add(TURN)
        inside = [*self.make_ask(depth + 1), *self.steps(3, depth + 1)]
        asked = sorted(self.known - before - {TURN})
        made: Block = {
            "id": self.id("each"),
            "fact": TURN,
            "goes_on": self.condition(),
            "steps": inside,
        }
        if asked and self.chance(0.4):
            made["keeps"] = [self.rng.choice(asked)]
        if self.chance(0.5):
            self.known.discard(TURN)
        return [{"each": made}]


ORDERED = {
    "hinges": ["1", "2", "3", "4", "7"],
    "screws": ["1", "2", "3", "4", "6"],
    "leaves": ["1", "2", "3", "4"],
    "screws_a_leaf": ["2", "3", "5", "6"],
    "all_hinges": ["0", "2", "6", "12"],
    "width": ["6 in", "12 in", "914 mm", "36 in", "48 in", "120 in"],
    "gap": ["3 mm", "1/8 in", "1/2 in", "2 in", "3 in"],
    "sweep": ["1 s", "5 s", "7 s", "30 s"],
    "lean": ["1 deg", "2 1/2 deg", "10 deg", "12 deg"],
    "size": ["1", "3", "4", "7"],
    "reach": ["20 in", "60 in", "100 in"],
    "clear": ["7 7/8 in", "12 in", "36 in", "120 in"],
    "room": ["7 in", "7 7/8 in", "36 in", "131 in"],
    "twice": ["3 mm", "1/8 in", "1 in", "4 in"],
    "fasteners": ["2", "4", "9", "11"],
    "spare": ["-3", "-1", "0", "2"],
    "reach_clear": ["12 in", "36 in", "130 in", "140 in"],
    "beyond": ["-2 in", "0 in", "12 in", "60 in"],
    "size_clear": ["1", "3", "4", "7"],
}
"""Each fact's constants from the least up."""


def _facts(rng: random.Random) -> list[str]:
    """Two to four facts to ask, and what can be computed from them."""
    chosen = rng.sample(sorted(ASKED), rng.randint(2, 4))
    turn = rng.random()
    if turn < 0.3:
        pairs = [["knuckles", "outside"], ["width", "fire"]]
        chosen = [*rng.choice(pairs), *chosen[:2]]
    elif turn < 0.65:  # few values each, so that every two of them are tried
        chosen = ["hinges", "screws", *(["leaves"] if rng.random() < 0.4 else chosen[:1])]
    elif turn < 0.8:
        chosen = ["width", "gap"]
    chosen = list(dict.fromkeys(chosen))
    possible = [name for name in WORKED if set(sources(name)) <= set(chosen)]
    for name in rng.sample(possible, min(len(possible), 2)):
        chosen += [one for one in _with_inputs(name) if one not in chosen]
    return chosen


def written(seed: int, *, turns: bool = False) -> dict[str, str]:
    """The files of one procedure, with something done in turn if that is wanted."""
    rng = random.Random(seed)
    facts = _facts(rng) + ([TURN] if turns else [])
    writer = Writer(rng, facts, rng.randint(3, 9))
    writer.sure = rng.choice([0.6, 0.9, 0.97, 1.0])
    writer.ids = ["all-done"]
    steps = [block for _ in range(rng.randint(1, 3)) for block in writer.make_ask(0)]
    writer.ids += [next(iter(block.values()))["id"] for block in steps]
    steps += writer.steps(4, 0)
    if turns:
        steps += writer.make_each(0)
    files: dict[str, str] = {}
    if rng.random() < 0.25:
        files[PART] = _part(writer)
        included = [{"include": {"id": "first-look", "file": PART}}]
        if rng.random() < 0.5:
            again: Block = {"id": "second-look", "file": PART}
            if rng.random() < 0.5:
                again["when"] = writer.condition()
            included.append({"include": again})
        steps = [*steps, *included, *writer.steps(2, 0)]
    else:
        steps += writer.steps(3, 0)
    steps.append({"end": {"id": "all-done", "outcome": "finished", "text": "Finished."}})
    if rng.random() < 0.02:
        steps += writer.steps(2, 0)
        steps.append({"end": {"id": "done-again", "outcome": "finished", "text": "Finished."}})
    declared = {name: {**ASKED, **TURNS, **WORKED}[name] for name in facts}
    files[ROOT] = _dump(
        {"procedure": "root", "title": "A small job", "facts": declared, "steps": steps}
    )
    return files


def _part(writer: Writer) -> str:
    """A second file, whose ids are its own."""
    outer, writer.ids = writer.ids, []
    writer.blocks = max(writer.blocks, 2)
    steps = writer.steps(2, 1)
    writer.ids = outer
    return _dump({"procedure": "part", "title": "A look", "counts_on": [], "steps": steps})


def _dump(data: dict[str, Any]) -> str:
    text: str = yaml.dump(data, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=100)
    return text


class _Plain(yaml.CSafeDumper):
    """Writes no anchors, which a procedure file may not hold."""

    def ignore_aliases(self, data: Any) -> bool:
        """Never."""
        return True
