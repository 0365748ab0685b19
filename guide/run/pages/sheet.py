"""The closer's sheet of a run as a page to read, in the words and the units of the maker's paper."""

from collections.abc import Iterable, Iterator

from guide.measures import Quantity
from guide.run.pages.page import Page, Section, page
from guide.run.state import State
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.kinds import written_turns
from guide.trade.sheet.parts import (
    NO_PRESET,
    Accessory,
    Hole,
    OpeningRange,
    PackedScrew,
    Screw,
    SheetBody,
    SheetMount,
    SheetShoe,
    SpringSetting,
)
from guide.trade.sheet.sheet import Sheet

NOT_LOADED = "No sheet is loaded in this job: the paper from the box has the numbers."
NOT_WHILE_BLIND = "The sheet is shown again when this is measured: read the tape first."


def sheet_page(state: State) -> Page:
    """The sheet of the run, the mount of this door first; only a sentence where none is loaded."""
    if state.sheet is None:
        return page("The closer's sheet", Section("", (NOT_LOADED,)))
    sheet = Sheet.from_json(state.sheet)
    mount, angle = state.known("mount"), state.known("opening")
    used = angle if isinstance(angle, Quantity) else None
    mounts = sorted(sheet.mounts, key=lambda one: one.mount != mount)
    return page(
        f"The sheet {sheet.sheet}",
        Section("", (sheet.about,)),
        *(_mount(one, used if one.mount == mount else None) for one in mounts),
        Section("Screws to adjust", tuple(map(_screw, sheet.screws))),
        Section("Spring", tuple(_spring(sheet))),
        _body(sheet.body),
        _shoe(sheet.shoe),
        Section("Beside the closer", tuple(map(_accessory, sheet.accessories))),
    )


def _mount(one: SheetMount, used: Quantity | None) -> Section:
    arm = one.arm
    lines = [
        f"Along the door from the {one.along_from}, up and down from the {one.datum}.",
        f"The valves point to the {one.valves_toward} edge.",
        one.arm_rests,
        *([] if one.preset == NO_PRESET else [one.preset]),
    ]
    if arm is not None:
        low, high = arm.forearm
        rod = f"{low}" if low == high else f"{low} to {high}"
        lines.append(f"Main arm {arm.main}, forearm {rod}.")
    served = next((row for row in one.ranges if used is not None and used <= row.up_to), None)
    out = "out from the leaf" if one.mount == "parallel" else "from the datum"
    lines += [_range(row, out) + (" This door." if row is served else "") for row in one.ranges]
    title = MOUNT_WORDS[one.mount]
    return Section(title[:1].upper() + title[1:], tuple(lines))


def _range(row: OpeningRange, out: str) -> str:
    rod = f"; forearm {row.forearm}" if row.forearm is not None else ""
    return (
        f"Opening to {row.up_to}: body {row.body_along} along, {row.body_datum} from the datum; shoe"
        f" {row.shoe_along} along, {row.shoe_datum} {out}{rod}."
    )


def _screw(one: Screw) -> str:
    weaker = "weaker" if one.name == "spring" else "firmer" if one.name == "backcheck" else "slower"
    turn = (
        "the label says which way"
        if one.slower == "read the label"
        else f"{one.slower} is {weaker}"
    )
    turns = "" if one.turns is None else f"; {written_turns(one.turns)} turns from end to end"
    stop = {True: "; has a stop", False: "; has no stop: it can come out", None: ""}[one.has_stop]
    return f"{one.name.capitalize()}: {one.where}; {turn}{turns}{stop}."


def _spring(sheet: Sheet) -> Iterator[str]:
    low, high = sheet.sizes
    yield f"EN size {low} to {high}, set by a screw." if low < high else f"EN size {low}, fixed."
    if sheet.factory_size is not None:
        yield f"It leaves the factory at size {sheet.factory_size}."
    if sheet.turns_per_size is not None:
        yield f"{written_turns(sheet.turns_per_size)} full turns make one size."
    for setting in sheet.spring_settings:
        yield _spring_setting(setting)
    for row in sheet.chart:
        mount = "" if row.mount is None else f" on a {MOUNT_WORDS[row.mount]}"
        yield f"Leaf to {row.max_width}{mount}: size {row.size}."


def _spring_setting(row: SpringSetting) -> str:
    turns = f"{written_turns(abs(row.turns))} turns {'weaker' if row.turns < 0 else 'stronger'}"
    mount = "" if row.mount is None else f", {MOUNT_WORDS[row.mount]}"
    what = (
        f"Size {row.size}"
        if row.size is not None
        else f"Leaf to {row.max_width}"
        if row.max_width is not None
        else "A door that must open easily"
    )
    return f"{what}{mount}: {turns if row.turns else 'no turns'} from the factory's setting."


def _body(body: SheetBody | None) -> Section | None:
    if body is None:
        return None
    lines = [
        f"{body.height} high, stands out {body.projects}; its pinion {body.pinion_out} from the face.",
        f"From the pinion {body.valve_end} to the valve end, {body.other_end} to the other.",
        *_holes(body.holes, ("toward the valve end", "toward the other end")),
        *_packed(body.packed),
    ]
    return Section("Body", tuple(lines))


def _shoe(shoe: SheetShoe | None) -> Section | None:
    if shoe is None:
        return None
    return Section("Shoe", (*_holes(shoe.holes, _OF_SHOE), *_packed(shoe.packed)))


_OF_SHOE = ("toward the latch edge", "toward the hinges")


def _holes(holes: Iterable[Hole], ways: tuple[str, str]) -> Iterator[str]:
    """A line for each hole, from the reference point of its part."""
    for hole in holes:
        kind = "" if hole.kind == "screw" else f" ({hole.kind})"
        along = _way(hole.along, *ways)
        down = _way(hole.down, "down", "up")
        yield f"Hole {hole.name}{kind}: {' and '.join(filter(None, (along, down)))}."


def _way(length: Quantity, positive: str, negative: str) -> str:
    """A length with its direction; empty for none."""
    if not length.base:
        return ""
    value = Quantity(abs(length.magnitude), length.unit)
    return f"{value} {positive if length.base > 0 else negative}"


def _packed(packed: Iterable[PackedScrew]) -> Iterator[str]:
    for one in packed:
        long = "" if one.length is None else f", {one.length} long"
        hole = "" if one.hole is None else f", in a hole of {one.hole}"
        many = "" if one.count is None else f"{one.count} "
        into = "" if one.into is None else f", for the {one.into}"
        yield f"Packed: {many}{one.kind} {one.size}{long}{hole}{into}."


def _accessory(one: Accessory) -> str:
    mount = "" if one.mount is None else f" ({MOUNT_WORDS[one.mount]})"
    return f"{one.name[:1].upper()}{one.name[1:]}{mount}: {one.when}"
