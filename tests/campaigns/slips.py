"""Slips a trainer could make in the shipped procedure, made one at a time in a copy of its files.

Each kind of slip lists every place where it can be made; `slips(seed, most)` draws so many of each kind.
Kinds are of two sorts, told apart by what is done and not by what is found (`OF_FORM`): a slip of form
leaves names that lead nowhere, cases without a way on, values that are not known or cuts on what was
not agreed to; a slip of sense leaves a whole procedure that says something else, such as a hold-open arm set
on the doors that have none. It can be seen by a person or a scenario that knows what was meant, or by the checker
where the file says the same thing twice: a limit and the words beside it, a repeat and its steps, an outcome and
its words.
"""

import random
import re
from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import yaml

SHIPPED = Path(__file__).parents[2] / "procedures"
ROOT = "fit-surface-closer.yaml"

Files = dict[str, Any]
"""The parsed files by name; every scalar a text."""
Where = tuple[str, tuple[Any, ...]]
"""File and path of a value."""
Edit = Callable[[Files], None]

COMPARED = re.compile(r"^(>=|<=|>|<|=) *(.*)$")
OPPOSITE = {">": "<=", ">=": "<", "<": ">=", "<=": ">", "=": ">"}


@dataclass(frozen=True)
class Slip:
    """One slip."""

    kind: str
    said: str
    """Where, and what was done."""
    edit: Edit

    def made(self, files: Files) -> dict[str, str]:
        """The texts of all files with the slip in them."""
        copy = deepcopy(files)
        self.edit(copy)
        return texts(copy)


def shipped(root: str = ROOT) -> Files:
    """A shipped procedure and all it gathers, parsed."""
    files: Files = {}
    todo = [root]
    while todo:
        name = todo.pop()
        if name not in files:
            text = (SHIPPED / name).read_text()
            files[name] = yaml.load(text, yaml.CBaseLoader)  # makes texts only
            todo += files[name].get("facts_in", [])
            todo += [body["file"] for _, kind, body in blocks(files) if kind == "include"]
    return {name: files[name] for name in sorted(files)}


class Plain(yaml.CSafeDumper):
    """Writes no anchors, which a procedure file may not hold."""

    def ignore_aliases(self, data: Any) -> bool:
        """Never."""
        return True


def texts(files: Files) -> dict[str, str]:
    """The files written out again."""
    return {
        name: yaml.dump(data, Dumper=Plain, sort_keys=False, allow_unicode=True, width=200)
        for name, data in files.items()
    }


def at(files: Files, where: Where) -> Any:
    """The value at a place."""
    value = files[where[0]]
    for key in where[1]:
        value = value[key]
    return value


def put(files: Files, where: Where, value: Any) -> None:
    """Put a value at a place."""
    at(files, (where[0], where[1][:-1]))[where[1][-1]] = value


def take(files: Files, where: Where) -> Any:
    """Take a value out of its mapping or list."""
    return at(files, (where[0], where[1][:-1])).pop(where[1][-1])


def said(files: Files, where: Where) -> str:
    """A place in words: the file, and the nearest id or fact above it."""
    name = ""
    for length in range(len(where[1]) + 1):
        value = at(files, (where[0], where[1][:length]))
        if isinstance(value, dict) and isinstance(value.get("id"), str):
            name = value["id"]
        if length == 2 and where[1][0] == "facts":
            name = f"fact {where[1][1]}"
    return f"{where[0]}, {name}"


# --- places ---


def blocks(files: Files) -> Iterator[tuple[Where, str, dict[str, Any]]]:
    """Every block: its place in its list, its kind and its body."""

    def within(file: str, steps: Any, path: tuple[Any, ...]) -> Iterator[Any]:
        for number, block in enumerate(steps):
            kind, body = next(iter(block.items()))
            here = (*path, number)
            yield (file, here), kind, body
            for branch_number, branch in enumerate(body.get("cases", ())):
                inner = (*here, kind, "cases", branch_number, "steps")
                yield from within(file, branch["steps"], inner)
            yield from within(file, body.get("steps", ()), (*here, kind, "steps"))
            after = body.get("otherwise", {}).get("steps", ())
            yield from within(file, after, (*here, kind, "otherwise", "steps"))

    for file, data in files.items():
        yield from within(file, data.get("steps", ()), ("steps",))


def conditions(files: Files) -> Iterator[Where]:
    """Every condition."""
    for (file, path), kind, body in blocks(files):
        inner = (*path, kind)
        for key in ("when", "until"):
            if key in body:
                yield file, (*inner, key)
        for number, _ in enumerate(body.get("cases", ())):
            yield file, (*inner, "cases", number, "when")


def tests(files: Files, where: Where) -> Iterator[Where]:
    """Every test of one fact in a condition; the last key of its place is the fact."""
    condition = at(files, where)
    for key, value in condition.items():
        here = (where[0], (*where[1], key))
        if key in ("any", "all"):
            for number, _ in enumerate(value):
                yield from tests(files, (here[0], (*here[1], number)))
        elif key == "not":
            yield from tests(files, here)
        elif key != "known":
            yield here


def every_test(files: Files) -> Iterator[tuple[Where, str]]:
    """Every test of a fact, limits of checks too: its place, and the fact."""
    for where in conditions(files):
        for place in tests(files, where):
            yield place, place[1][-1]
    for (file, path), kind, body in blocks(files):
        if kind == "check":
            yield (file, (*path, kind, "limit")), body["fact"]


def facts(files: Files) -> dict[str, Where]:
    """Where each fact is declared."""
    return {
        name: (file, ("facts", name)) for file, d in files.items() for name in d.get("facts", ())
    }


def labels(files: Files, name: str) -> list[str]:
    """The labels of a fact; empty for other kinds."""
    where = facts(files).get(name)
    if where is None:
        return []
    fact = at(files, where)
    if "yesno" in fact:
        return ["yes", "no"]
    return [*fact.get("choice", ()), *(["unsure"] if fact.get("unsure") == "true" else [])]


def misspelt(word: str) -> str:
    """Two letters swapped; one doubled where that changes nothing."""
    swapped = word[:1] + word[2:3] + word[1:2] + word[3:]
    return swapped if swapped != word else word + word[-1]


# --- the slips ---


def _drop(kind: str, files: Files, where: Where, what: str) -> Slip:
    return Slip(kind, f"{said(files, where)}: {what}", lambda f: void(take(f, where)))


def _put(kind: str, files: Files, where: Where, value: Any) -> Slip:
    old = at(files, where)
    return Slip(
        kind,
        f"{said(files, where)}: {where[1][-1]} {old!r} becomes {value!r}",
        lambda f: put(f, where, value),
    )


def void(_: Any) -> None:
    """Nothing."""


def _rename(files: Files, where: Where, new: str) -> Edit:
    def edit(f: Files) -> None:
        holder = at(f, (where[0], where[1][:-1]))
        entries = list(holder.items())
        holder.clear()
        holder.update((new if key == where[1][-1] else key, value) for key, value in entries)

    return edit


def blocks_dropped(files: Files) -> Iterator[Slip]:
    """A question, an end, a hold, an include or a work block left out."""
    for where, kind, body in blocks(files):
        if kind in ("ask", "time"):
            yield _drop("question dropped", files, where, f"{kind} {body['id']} dropped")
        elif kind == "check":
            yield _drop("check dropped", files, where, f"check {body['id']} dropped")
        elif kind == "hold":
            yield _drop("hold deleted", files, where, f"hold {body['id']} dropped")
        elif kind == "end":
            yield _drop("end dropped", files, where, f"end {body['id']} dropped")
        elif kind == "include":
            yield _drop("include dropped", files, where, f"include {body['id']} dropped")


def branches_dropped(files: Files) -> Iterator[Slip]:
    """A branch left out."""
    for (file, path), kind, body in blocks(files):
        for number, branch in enumerate(body.get("cases", ())):
            place = (file, (*path, kind, "cases", number))
            yield _drop("branch dropped", files, place, f"branch {branch['id']} dropped")


def thresholds(files: Files) -> Iterator[Slip]:
    """A comparison turned round, shifted, or in a wrong unit; a limit nothing can meet."""
    for where, _ in every_test(files):
        text = at(files, where)
        found = COMPARED.match(text) if isinstance(text, str) else None
        if found is None or "{" in text:
            continue
        operator, constant = found[1], found[2]
        flipped = f"{OPPOSITE[operator]} {constant}"
        yield _put(f"threshold flipped{_side(where)}", files, where, flipped)
        number, _, unit = constant.rpartition(" ")
        if not number:
            number, unit = constant, ""
        whole = re.match(r"\d+", number)
        if whole:
            for by in (1, 2):
                shifted = f"{operator} {int(whole[0]) + by}{number[whole.end() :]} {unit}".strip()
                yield _put("threshold shifted", files, where, shifted)
        wrong = {"in": "lbf", "s": "in", "lbf": "s", "deg": "in", "kg": "s"}.get(unit)
        if wrong:
            yield _put("wrong unit", files, where, f"{operator} {number} {wrong}")
            yield _put("wrong unit", files, where, f"{operator} {number}")
        if where[1][-1] == "limit" and unit:
            yield _put("limit unattainable", files, where, f"> 900 {unit}")


def _side(where: Where) -> str:
    """Whether a test decides between branches, or stands alone in a `when`, a limit or an `until`."""
    path = where[1]
    place = len(path) - 1 - path[::-1].index("when") if "when" in path else 0
    return " in a branch" if place and path[place - 2] == "cases" else ""


def labels_wrong(files: Files) -> Iterator[Slip]:
    """A label misspelt, taken for another, or left out of a list."""
    for where, name in every_test(files):
        known = labels(files, name)
        value = at(files, where)
        items = value if isinstance(value, list) else [value]
        for number, label in enumerate(items):
            if label not in known:
                continue
            place = (where[0], (*where[1], number)) if isinstance(value, list) else where
            yield _put("label misspelt", files, place, misspelt(label))
            others = [x for x in known if x not in items]
            if others:
                yield _put(f"label swapped{_side(where)}", files, place, others[0])
            if isinstance(value, list):
                word = "unsure" if label == "unsure" else "label"
                kind = f"{word} left out{_side(where)}"
                yield _drop(kind, files, place, f"{label} left out of {name}")


def names_wrong(files: Files) -> Iterator[Slip]:
    """A fact, a block, a file or an input misspelt; an id used twice; a jump elsewhere."""
    for where in conditions(files):
        for place in tests(files, where):
            edit = _rename(files, place, misspelt(place[1][-1]))
            yield Slip("fact misspelt", f"{said(files, place)}: {place[1][-1]} misspelt", edit)
    ids: dict[str, list[str]] = {}
    for (file, path), kind, body in blocks(files):
        here = (*path, kind)
        if "fact" in body:
            yield _put("fact misspelt", files, (file, (*here, "fact")), misspelt(body["fact"]))
        if kind == "include":
            yield _put("file misspelt", files, (file, (*here, "file")), misspelt(body["file"]))
        for other in ids.get(file, ())[-1:]:
            yield _put("id twice", files, (file, (*here, "id")), other)
        ids.setdefault(file, []).append(body["id"])
    for (file, path), kind, body in blocks(files):
        go = body.get("otherwise", {}).get("go")
        place = (file, (*path, kind, "otherwise", "go"))
        if go is not None:
            yield _put("block misspelt", files, place, misspelt(go))
            for other in ids[file][:: max(1, len(ids[file]) // 4)]:
                if other != go:
                    yield _put("jump elsewhere", files, place, other)


def uses(value: Any, name: str) -> bool:
    """Whether blocks decide by a fact, show it, or read it back; a word of their texts is no use of it."""
    if isinstance(value, dict):
        return name in value or any(uses(part, name) for part in value.values())
    if isinstance(value, list):
        return any(uses(part, name) for part in value)
    return value == name or f"{{{name}}}" in value


def order_wrong(files: Files) -> Iterator[Slip]:
    """A question after its use, and two parts in the wrong order."""
    for (file, path), kind, body in blocks(files):
        siblings = at(files, (file, path[:-1]))
        number = path[-1]
        after = yaml.dump(siblings[number + 1 :], Dumper=Plain)
        used = kind not in ("ask", "time") or uses(siblings[number + 1 :], body["fact"])
        if kind not in ("ask", "time", "include", "hold") or not after.strip("[]\n") or not used:
            continue
        place = (file, path)

        def edit(f: Files, place: Where = place, kind: str = kind) -> None:
            steps = at(f, (place[0], place[1][:-1]))
            block = steps.pop(place[1][-1])
            steps.insert(place[1][-1] + 1 if kind == "include" else len(steps), block)

        word = {"include": "parts in the wrong order", "hold": "hold after its cut"}.get(
            kind, "asked after its use"
        )
        yield Slip(word, f"{said(files, place)}: {body['id']} moved back", edit)


def guards_wrong(files: Files) -> Iterator[Slip]:
    """A `when` dropped or turned round; what a failure leads to left out."""
    for (file, path), kind, body in blocks(files):
        here = (*path, kind)
        if "when" in body:
            yield _drop("when dropped", files, (file, (*here, "when")), "when dropped")
            place = (file, (*here, "when"))
            yield _put("when turned round", files, place, {"not": body["when"]})
        after = body.get("otherwise", {})
        if after:
            yield _drop(
                "otherwise deleted", files, (file, (*here, "otherwise")), "otherwise dropped"
            )
        if "go" in after and "steps" in after:
            where = (file, (*here, "otherwise", "go"))
            yield _drop("otherwise deleted", files, where, f"go {after['go']} dropped")


def holds_wrong(files: Files) -> Iterator[Slip]:
    """A fact not read back, a cut that says nothing of what it rests on, a cut not said to be one."""
    for (file, path), kind, body in blocks(files):
        here = (*path, kind)
        back = body.get("reads_back", ())
        for number, name in enumerate(back):
            if len(back) > 1:
                place = (file, (*here, "reads_back", number))
                yield _drop("fact left out of a hold", files, place, f"{name} not read back")
        for number, name in enumerate(body.get("reads", ())):
            place = (file, (*here, "reads", number))
            yield _drop("reads dropped", files, place, f"{name} not in reads")
        if "reads" in body:
            yield _drop("reads dropped", files, (file, (*here, "reads")), "reads dropped")
        if "cuts" in body:
            yield _drop("cuts dropped", files, (file, (*here, "cuts")), "cuts dropped")


def facts_wrong(files: Files) -> Iterator[Slip]:
    """A fact without its `unsure`, with a range too narrow, without an option, without an input."""
    named: set[tuple[str, str]] = set()
    for where, name in every_test(files):
        value = at(files, where)
        named |= {(name, label) for label in (value if isinstance(value, list) else [value])}
    for name, where in facts(files).items():
        fact = at(files, where)
        file, path = where
        if "unsure" in fact:
            yield _drop("unsure withdrawn", files, (file, (*path, "unsure")), "unsure dropped")
        for option in fact.get("choice", ()):
            if len(fact["choice"]) > 2:
                place = (file, (*path, "choice", option))
                kind = (
                    "option dropped, still named" if (name, option) in named else "option dropped"
                )
                yield _drop(kind, files, place, f"option {option} dropped")
        for key in ("length", "time", "force", "angle", "count", "mass", "pressure"):
            if key in fact:
                yield _put("range narrowed", files, (file, (*path, key, "to")), fact[key]["from"])
        for wanted in fact.get("using", ()):
            place = (file, (*path, "using", wanted))
            yield _drop("input dropped", files, place, f"input {wanted} dropped")


def outcomes_wrong(files: Files) -> Iterator[Slip]:
    """An end with another outcome; a repeat that is done by another reading."""
    for (file, path), kind, body in blocks(files):
        if kind == "end":
            other = "not-started" if body["outcome"] != "not-started" else "finished"
            yield _put("outcome changed", files, (file, (*path, kind, "outcome")), other)
        if kind == "repeat":
            place = (file, (*path, kind, "until"))
            yield _put("until turned round", files, place, {"not": body["until"]})


def words_wrong(files: Files) -> Iterator[Slip]:
    """Another fact, word or number in what is said; a warning left out."""
    names = set(facts(files))
    for (file, path), kind, body in blocks(files):
        here = (*path, kind)
        for key in ("text", "say"):
            place = (file, (*here, key))
            yield from _texts_wrong(files, place, body.get(key, ""), names)
        fact = body.get("fact", "")
        for other in _siblings(fact, names) if kind in ("ask", "time", "check") else ():
            yield _put("sibling asked for", files, (file, (*here, "fact")), other)
        for key in ("reads", "reads_back"):
            for number, _ in enumerate(body.get(key, ())[1:], 1):
                place = (file, (*here, key, number))
                yield _put("fact listed twice", files, place, body[key][0])
        if "hazards" in body and kind == "do" and "cuts" not in body:
            yield Slip(
                "warnings dropped", f"{said(files, (file, here))}: no warnings", _bare(file, here)
            )
        if "cuts" in body:
            edit = _without(file, here, "cuts", "reads")
            yield Slip("cut not said", f"{said(files, (file, here))}: cuts and reads dropped", edit)
        if "same_swing" in body:
            yield _drop(
                "same swing lost", files, (file, (*here, "same_swing")), "same_swing dropped"
            )


def _without(file: str, path: tuple[Any, ...], *keys: str) -> Edit:
    def edit(f: Files) -> None:
        for key in keys:
            at(f, (file, path)).pop(key, None)

    return edit


def _bare(file: str, path: tuple[Any, ...]) -> Edit:
    return _without(file, path, "caution", "hazards")


def _siblings(name: str, names: set[str]) -> list[str]:
    """The facts named alike but for the first word."""
    rest = name.partition("_")[2]
    return sorted(n for n in names if rest and n != name and n.partition("_")[2] == rest)


OTHER_WORDS = {
    "left": "right",
    "right": "left",
    "faster": "slower",
    "slower": "faster",
    "push": "pull",
    "pull": "push",
    "above": "below",
    "inside": "outside",
    "outside": "inside",
    "lower": "higher",
}


def _texts_wrong(files: Files, place: Where, text: str, names: set[str]) -> Iterator[Slip]:
    shown = re.findall(r"\{([a-z_]+)\}", text)
    for name in dict.fromkeys(shown):
        for other in _siblings(name, names):
            wrong = text.replace(f"{{{name}}}", f"{{{other}}}")
            yield _put("sibling shown", files, place, wrong)
        for other in dict.fromkeys(shown):
            if other != name:
                wrong = text.replace(f"{{{name}}}", f"{{{other}}}", 1)
                yield _put("fact shown for another", files, place, wrong)
    for word, other in OTHER_WORDS.items():
        wrong = re.sub(rf"\b{word}\b", other, text, count=1)
        if wrong != text:
            yield _put(f"opposite word in {place[1][-1]}", files, place, wrong)
    found = re.search(r"\b\d+\b", text)
    if found:
        wrong = f"{text[: found.start()]}{int(found[0]) + 3}{text[found.end() :]}"
        yield _put(f"other number in {place[1][-1]}", files, place, wrong)


def declarations_wrong(files: Files) -> Iterator[Slip]:
    """A fixed value, a range, a unit or an input of another; answers whose words change places."""
    for where in facts(files).values():
        fact = at(files, where)
        file, path = where
        using = fact.get("using", {})
        for wanted, filler in using.items():
            place = (file, (*path, "using", wanted))
            digits = re.search(r"= (\d\d) (\w+)$", filler)
            if digits:
                yield _put("fixed value changed", files, place, f"= {digits[1][::-1]} {digits[2]}")
            for other in using.values():
                if (
                    other != filler
                    and not other.startswith("=")
                    and other in using
                    and wanted == filler
                ):
                    yield _put("input of another", files, place, other)
        for key in ("length", "time", "force", "angle", "mass", "pressure"):
            if key in fact and "usual" in fact[key]:
                place = (file, (*path, key, "to"))
                number, _, unit = fact[key]["to"].rpartition(" ")
                if number.isdigit():
                    yield _put("range ten times", files, place, f"{number}0 {unit}")
                    larger = {"s": "min", "in": "ft"}.get(unit)
                    if larger:
                        yield _put("range in another unit", files, place, f"{number} {larger}")
        options = list(fact.get("choice", ()))
        for one, other in pairwise(options):
            yield Slip(
                "answers' words swapped",
                f"{said(files, where)}: {one} and {other}",
                _swap((file, (*path, "choice")), one, other),
            )
        computation = fact.get("sheet", {}).get("computation", "")
        name = path[-1]
        for other in _siblings(name, set(facts(files))):
            if computation:
                place = (file, (*path, "sheet", "computation"))
                yield _put(
                    "sheet's number of another", files, place, f"sheet-{other.replace('_', '-')}"
                )


def _swap(where: Where, one: str, other: str) -> Edit:
    def edit(f: Files) -> None:
        choice = at(f, where)
        choice[one], choice[other] = choice[other], choice[one]

    return edit


FAMILIES = (
    blocks_dropped,
    branches_dropped,
    thresholds,
    labels_wrong,
    names_wrong,
    order_wrong,
    guards_wrong,
    holds_wrong,
    facts_wrong,
    outcomes_wrong,
    words_wrong,
    declarations_wrong,
)


OF_FORM = {
    "asked after its use",
    "block misspelt",
    "branch dropped",
    "cut not said",
    "cuts dropped",
    "fact listed twice",
    "fact left out of a hold",
    "fact misspelt",
    "file misspelt",
    "hold after its cut",
    "hold deleted",
    "id twice",
    "label left out in a branch",
    "label misspelt",
    "label swapped in a branch",
    "limit unattainable",
    "option dropped, still named",
    "otherwise deleted",
    "question dropped",
    "range narrowed",
    "reads dropped",
    "threshold flipped in a branch",
    "unsure left out in a branch",
    "unsure withdrawn",
    "wrong unit",
}
"""The kinds that break a property the checker promises."""

TURNED_ROUND = {"threshold flipped", "until turned round"}
"""Slips of sense that stand against what the file says beside them: the words of a limit, the steps of a repeat."""

HELD_TO = OF_FORM | TURNED_ROUND
"""The kinds that the checker is held to."""
OF_WORDS = {
    "answers' words swapped",
    "cut not said",
    "fact shown for another",
    "opposite word in say",
    "opposite word in text",
    "other number in text",
    "sibling shown",
    "warnings dropped",
}
"""The kinds that change words alone: no route of a scenario is another for them."""


def slips(seed: int, most: int, root: str = ROOT) -> list[Slip]:
    """So many slips of each kind at the most, drawn by the seed, in a procedure and what it gathers."""
    files = shipped(root)
    by_kind: dict[str, list[Slip]] = {}
    for family in FAMILIES:
        for slip in family(files):
            by_kind.setdefault(slip.kind, []).append(slip)
    rng = random.Random(seed)
    return [
        slip
        for kind in sorted(by_kind)
        for slip in rng.sample(by_kind[kind], min(most, len(by_kind[kind])))
    ]
