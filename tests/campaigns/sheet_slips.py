"""Slips of the pen in a closer's sheet: how many of those that matter the tool catches.

Run by hand: python -m tests.campaigns.sheet_slips > tests/campaigns/sheet_slips.txt
Every number of the two shipped sheets gets every slip of four kinds: a digit dropped, two neighbouring
digits swapped, a fraction's 16 and 8 exchanged, and the other sign
where a number has a side. No chance is involved, so there is no seed. A slip counts
as caught where the file is refused or `check_sheet` says something that it does not say of the sheet
as shipped.
"""

import re
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from guide.files.findings import BadFile
from guide.measures import MeasureError, Quantity, parse
from guide.measures.parsing import parse_signed
from guide.trade.sheet.codec import Path as FilePath
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.check import check_sheet
from guide.trade.sheet_check.finding import SheetFinding
from tests.trade.shipped_sheets import load_sheet

SHEETS = Path(__file__).parents[2] / "procedures" / "sheets"
NUMBER = re.compile(r"(?<![\w/.-])-?\d[\d/]*(?: \d+/\d+)?")
TARGET = 0.8

MATTERS = {
    # Holes of one pattern are held to 1/32 in, places on the door to 1/16 in (common practice). The arm's
    # own lengths are held to 1/16 in as well: on a parallel arm that much is 5 percent of the power.
    "pattern": Quantity(parse("1/32 in").magnitude, "in"),
    "place": Quantity(parse("1/16 in").magnitude, "in"),
    # Outline and rod only say what is near: nobody drills by them.
    "outline": Quantity(parse("1/4 in").magnitude, "in"),
    "angle": Quantity(parse("5 deg").magnitude, "deg"),
    "chart": Quantity(parse("10 mm").magnitude, "mm"),
}
OUTLINE = (".valve_end", ".other_end", ".projects", ".height")


def slips(written: str) -> Iterator[tuple[str, str]]:
    """Every slip of one written number, and its kind."""
    for place, char in enumerate(written):
        if char.isdigit():
            left = (written[:place] + written[place + 1 :]).strip()
            yield "drop", re.sub(r"\s+", " ", left)
    digits = [place for place, char in enumerate(written) if char.isdigit()]
    for first, second in pairwise(digits):
        if written[first] != written[second]:
            swapped = list(written)
            swapped[first], swapped[second] = swapped[second], swapped[first]
            yield "swap", "".join(swapped)
    for old, new in (("/16", "/8"), ("/8", "/16")):
        if written.endswith(old):
            yield "eighth", written[: -len(old)] + new


def signs(before: str, written: str) -> Iterator[tuple[str, str]]:
    """The other sign of a number that has a side: a hole's places, and what an accessory shifts."""
    if re.search(r"(along|down): $", before) and re.search(r"[1-9]", written):
        other = written[1:] if written.startswith("-") else f"-{written}"
        yield "sign", other


def leaves(data: object, path: str = "") -> Iterator[tuple[str, object]]:
    """Every value of nested data with its path."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield from leaves(value, f"{path}.{key}")
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from leaves(value, f"{path}.{number}")
    else:
        yield path, data


def size_of(change: tuple[object, object], path: str) -> bool:
    """Whether a changed value matters."""
    old, new = change
    key = path.rsplit(".", 1)[-1]
    if not (isinstance(old, str) and isinstance(new, str)):
        return True
    if key in ("arm_rests", "preset", "where", "about", "name"):
        return False
    # Of a rod, shortest and longest each.
    olds, news = old.split(" to "), new.split(" to ")
    if len(olds) != len(news):
        return True
    return any(_apart(one, other, path) for one, other in zip(olds, news, strict=True))


def _apart(old: str, new: str, path: str) -> bool:
    try:
        before, after = (_read(text) for text in (old, new))
    except MeasureError:
        return True
    difference = abs(before.base - after.base)
    if before.kind == "angle":
        return difference > MATTERS["angle"].base
    outline = path.endswith((*OUTLINE, ".arm.forearm"))
    kind = "pattern" if ".holes." in path else "outline" if outline else "place"
    if path.endswith(".max_width"):
        kind = "chart"
    return difference > MATTERS[kind].base


def _read(text: str) -> Quantity:
    kinds = [kind for kind in ("length", "angle") if _is(text, kind)]
    return parse_signed(text, kinds[0] if kinds else "length")


def _is(text: str, kind: str) -> bool:
    try:
        parse_signed(text, kind)
    except MeasureError:
        return False
    return True


def matters(clean: Sheet, slipped: Sheet) -> bool:
    """Whether the slip changes what is drilled, fitted, set or chosen, by more than is allowed."""
    before, after = dict(leaves(clean.to_json())), dict(leaves(slipped.to_json()))
    return any(
        size_of((value, after.get(path)), path)
        for path, value in before.items()
        if path not in after or after[path] != value
    )


def main() -> int:
    """Print the table and the slips that nothing catches; 1 where the target is missed."""
    told: Counter[str] = Counter()
    missed: list[str] = []
    for name in ("generic-a", "generic-b"):
        text = (SHEETS / f"{name}.yaml").read_text("utf-8")
        clean = load_sheet(SHEETS / f"{name}.yaml")
        already = {(one.code, one.message) for one in check_sheet(clean)}
        for line_number, line in enumerate(text.splitlines()):
            if line.startswith(("#", "sheet:", "about:")):
                continue
            for found in NUMBER.finditer(line):
                before = line[: found.start()]
                for kind, written in (*slips(found[0]), *signs(before, found[0])):
                    lines = text.splitlines()
                    lines[line_number] = line[: found.start()] + written + line[found.end() :]
                    verdict, findings = _verdict("\n".join(lines) + "\n", clean, already)
                    if verdict == "found":
                        place = _place(text.splitlines()[: line_number + 1], line[: found.start()])
                        told["named"] += any(_names(one.path, *place) for one in findings)
                    told[f"{kind} {verdict}"] += 1
                    told[verdict] += 1
                    if verdict == "missed":
                        words = line[: found.start()].split("{")[-1].split(",")[-1].strip()
                        missed.append(
                            f"{name}:{line_number + 1}: {words} {found[0]} written {written} ({kind})"
                        )
    caught = told["refused"] + told["found"]
    share = caught / (caught + told["missed"])
    print(f"slips that matter: {caught + told['missed']}, caught {caught} ({share:.1%})")
    print(f"  refused when read {told['refused']}, found by the check {told['found']}")
    readable = told["found"] / (told["found"] + told["missed"])
    print(f"  of those that read as a sheet: {readable:.1%}")
    print(
        f"  of those it found, a finding names the very number: {told['named'] / told['found']:.1%}"
    )
    print(
        f"slips that do not matter: {told['harmless']}, found all the same {told['harmless found']}"
    )
    for kind in ("drop", "swap", "eighth", "sign"):
        counts = {
            word: told[f"{kind} {word}"] for word in ("refused", "found", "missed", "harmless")
        }
        print(f"  {kind:<7} " + ", ".join(f"{word} {count}" for word, count in counts.items()))
    print("not caught:")
    for one in missed:
        print(f"  {one}")
    return 0 if share >= TARGET else 1


def _place(above: list[str], before: str) -> tuple[int, int, str]:
    """Mount and range of a number, counted from 0 and -1 outside one, and its key."""
    last = max((n for n, line in enumerate(above) if line.startswith("  - mount:")), default=-1)
    mount = sum(line.startswith("  - mount:") for line in above) - 1
    row = sum(line.startswith("      - {up_to:") for line in above[last:]) - 1
    if any(re.match(r"(screws|chart|body|shoe):", line) for line in above[last:]):
        mount, row = -1, -1
    return mount, row, re.findall(r"([a-z_]+):", before)[-1]


def _names(path: FilePath, mount: int, row: int, key: str) -> bool:
    """Whether a finding points at that number: the key, under the same mount and range."""
    if path[-1] != key and not (path[-1] == "turns" and key in ("turns_per_size", "sizes")):
        return False
    if path[0] != "mounts":
        return mount < 0
    return path[1] == mount and ("ranges" not in path or path[3] == row)


def _verdict(
    text: str, clean: Sheet, already: set[tuple[str, str]]
) -> tuple[str, list[SheetFinding]]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"{clean.sheet}.yaml"
        path.write_text(text, "utf-8")
        try:
            slipped = load_sheet(path)
        except BadFile:
            return "refused", []
    found = [one for one in check_sheet(slipped) if (one.code, one.message) not in already]
    if not matters(clean, slipped):
        return ("harmless found" if found else "harmless"), found
    return ("found" if found else "missed"), found


if __name__ == "__main__":
    sys.exit(main())
