"""The setting-out: every hole of one closer on one opening, worked out once.

Questions, prompts, the read-back, the drawing, the drill steps, the template, `work holes` and the record all say
what is here. Lengths in inches, exact; nothing is rounded.
"""

from collections import Counter
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from guide.measures import write
from guide.trade.answer import NoAnswer
from guide.trade.door.hinges import HINGE_WORDS, STANDARD_TEMPLATE, pivot_offset
from guide.trade.holes.accessories import (
    NO_ACCESSORY,
    NO_PLATE,
    Chosen,
    Plate,
    choose,
    needs,
    plate_of,
)
from guide.trade.holes.clashes import Clash, opening_clashes, sheet_clashes
from guide.trade.holes.distances import Surroundings, too_near
from guide.trade.holes.fixing import KIND_WORDS, KINDS, Fixing, Screws, fixing_for
from guide.trade.holes.inputs import knuckles_of_hand
from guide.trade.holes.layout import (
    LEAF,
    Layout,
    ReferencePoint,
    hinges_in_front,
    lines_of,
    measured_from,
    numbers_of,
    to_mark,
)
from guide.trade.holes.opening import Opening, Typed
from guide.trade.holes.placed_hole import PlacedHole
from guide.trade.holes.visible_lines import Line, along_line, visible_lines
from guide.trade.mounts import BODY_INTO, SHOE_INTO
from guide.trade.sheet.parts import Accessory, Hole, OpeningRange, SheetBody, SheetShoe
from guide.trade.sheet.sheet import Sheet

SOURCES = ("sheet", "paper", "typed", "not-known")
"""What says where the holes go. With a sheet and a paper both at hand the paper is laid, and the sheet checks it."""

REFUSALS = (
    "go-on",
    "clash",
    "mount-not-known",
    "not-on-sheet",
    "needs-special",
    "needs-template",
    "needs-plate-known",
    "needs-overlap",
    "needs-source",
)
"""Why nothing may be marked yet, the first that holds; "go-on" if nothing stands in the way.

clash: two statements contradict each other. mount-not-known: mount, hinge side or opening angle is missing.
not-on-sheet: the sheet has no such mount or opening. needs-special: the hinge needs the maker's special template.
needs-template: an accessory without dimensions, so only the template packed with it. needs-plate-known: the sheet has a
drop plate, and nobody measured the rail or said whether it goes on. needs-overlap: the sheet's line is hidden, so the
overlap of leaf and stop must be measured. needs-source: neither sheet, paper nor all numbers.
"""

GROUPS = ("leaf", "head", "frame", "soffit", "body", "shoe")
"""What holes can be listed by: what they go into, or what they hold. The head is the frame's: its face or soffit."""

_PART_OF_GROUP = {"leaf": "leaf", "frame": "frame face", "soffit": "soffit"}

EXTRA_SHOE = "only if the face under the shoe steps"
EXTRA_BODY = "only if the sheet wants more screws"


@dataclass(frozen=True, slots=True)
class SettingOut:
    """Where everything goes on one opening."""

    source: str
    """One of `SOURCES`."""
    opening: Opening
    sheet: Sheet | None = None
    row: OpeningRange | None = None
    """The sheet's row that covers the opening."""
    plate: Plate = NO_PLATE
    """What the sheet's drop plate is to the opening."""
    accessories: Chosen = NO_ACCESSORY
    by_sheet: Layout | None = None
    """The reference lines as the sheet or the typed numbers measure them; None if there are no numbers."""
    layout: Layout | None = None
    """The same places from the lines that the fitter sees."""
    along: Line | None = None
    """The line that along is measured from, and how it is carried over."""
    holes: tuple[PlacedHole, ...] = ()
    """Every hole to be drilled, from the lines of `layout`; empty if none is given or typed, or something stops it."""
    fixings: tuple[tuple[str, Fixing], ...] = ()
    """Leaf, frame face and soffit, each with what holds there; only those that holes go into."""
    valves_toward: str | None = None
    preset: str | None = None
    to_ask: tuple[str, ...] = ()
    """Names of what must still be asked; never what the sheet says."""
    clashes: tuple[Clash, ...] = ()
    refusal: str = "go-on"
    """One of `REFUSALS`."""
    why: str = ""
    """The refusal as a sentence that says what to do; empty if there is none."""
    cautions: tuple[str, ...] = ()
    beware: tuple[str, ...] = ()
    """Those of the cautions that must be settled before a drill is set on: holes too near to something, screws that are
    missing or too long."""

    @property
    def body(self) -> ReferencePoint | None:
        """The body's reference point, as it is marked."""
        return None if self.layout is None else self.layout.body

    @property
    def shoe(self) -> ReferencePoint | None:
        """The shoe's reference point, as it is marked."""
        return None if self.layout is None else self.layout.shoe

    @property
    def hinges(self) -> str | None:
        """The side the hinges are on for someone facing the body's place; None if not known."""
        if self.opening.mount is None or knuckles(self.opening) is None:
            return None
        return hinges_in_front(self.opening.mount, knuckles(self.opening) or "")

    def fixing(self, part: str) -> Fixing:
        """What holds in leaf, frame face or soffit."""
        return dict(self.fixings).get(part, Fixing(KINDS[-1]))

    def group(self, name: str) -> tuple[PlacedHole, ...]:
        """The holes of a group of `GROUPS`."""
        if name == "head":
            return tuple(one for one in self.holes if one.part != LEAF)
        if name in _PART_OF_GROUP:
            return tuple(one for one in self.holes if one.part == _PART_OF_GROUP[name])
        return tuple(one for one in self.holes if one.line.of == name)

    def drilled(self) -> tuple[PlacedHole, ...]:
        """The holes. NoAnswer if nothing may be marked, or the sheet gives none."""
        self.check()
        if not self.holes:
            if self.sheet is None:
                raise NoAnswer(
                    "No holes were typed, only the crosses of body and shoe: mark through body and shoe,"
                    " held up to their crosses."
                )
            raise NoAnswer(
                f"The sheet {self.sheet.sheet} gives no holes: copy them from the maker's sheet, or mark from the"
                " paper in the box."
            )
        return self.holes

    def check(self) -> Layout:
        """The reference lines. NoAnswer with the reason why nothing may be marked."""
        if self.refusal != "go-on" or self.layout is None:
            raise NoAnswer(self.why or "The paper shows where the holes go: no numbers are known.")
        return self.layout


def knuckles(opening: Opening) -> str | None:
    """The side of the knuckles, from themselves or from the hand."""
    if opening.knuckles is None and opening.hand is not None:
        return knuckles_of_hand(opening.hand)
    return opening.knuckles


def set_out(
    opening: Opening,
    sheet: Sheet | None = None,
    typed: Typed | None = None,
    paper: str | None = None,
    units: str = "inch",
    lines: tuple[str | None, str | None] = (None, None),
) -> SettingOut:
    """The setting-out of one opening.

    `paper` is what is at hand beside or instead of the sheet, one of `opening.TEMPLATES`. `lines` asks for other lines
    to measure from than those that are in view, along and up or down. Never raises: what stands in the way is data.
    """
    typed = typed or Typed()
    so = SettingOut(_source(sheet, typed, paper), opening, sheet)
    so = replace(so, clashes=tuple(opening_clashes(opening, typed)))
    so = _with_numbers(so, typed, units)
    so = _with_accessories(so, typed)
    so = _with_lines(so, lines)
    so = _with_holes(so, typed, units)
    return _judged(so, typed, paper, units)


def _source(sheet: Sheet | None, typed: Typed, paper: str | None) -> str:
    if paper == "paper":
        return "paper"
    if sheet is not None:
        return "sheet"
    if paper == "numbers" or (paper is None and not typed.missing):
        return "typed"
    return "not-known"


def _with_numbers(so: SettingOut, typed: Typed, units: str) -> SettingOut:
    """With the sheet's row, or the typed numbers."""
    mount, angle = so.opening.mount, so.opening.angle
    if mount is None:
        return so
    if so.sheet is None:
        layout = _typed_lines(mount, typed) if so.source == "typed" else None
        return replace(so, by_sheet=layout, valves_toward=typed.valves_toward)
    try:
        on = so.sheet.mount(mount)
        row = None if angle is None else so.sheet.range_for(mount, angle)
    except NoAnswer as reason:
        return replace(so, refusal="not-on-sheet", why=str(reason))
    clashes = () if row is None else tuple(sheet_clashes(so.sheet, mount, row, typed, units))
    layout = None if row is None else lines_of(mount, on.along_from, on.datum, numbers_of(row))
    return replace(
        so,
        row=row,
        by_sheet=layout,
        valves_toward=on.valves_toward,
        preset=on.preset,
        clashes=(*so.clashes, *clashes),
    )


def _typed_lines(mount: str, typed: Typed) -> Layout | None:
    numbers = [one.base for one in typed.numbers.values() if one is not None]
    if typed.along_from is None or typed.datum is None or len(numbers) < 4:
        return None
    return lines_of(
        mount, typed.along_from, typed.datum, (numbers[0], numbers[1], numbers[2], numbers[3])
    )


def _with_accessories(so: SettingOut, typed: Typed) -> SettingOut:
    mount = so.opening.mount
    if mount is None:
        return so
    holes: tuple[tuple[str, Fraction], ...] = ()
    if so.by_sheet is not None:
        holes = tuple(
            (line.of, line.across + _down(line) * hole.down.base)
            for line in (so.by_sheet.body, so.by_sheet.shoe)
            for hole in _own(so, typed, line.of)[0]
            if hole.kind != "extra"
        )
    so = replace(so, plate=plate_of(so.opening, so.by_sheet, so.sheet, mount))
    wanted = tuple(needs(so.opening, so.by_sheet, holes, so.plate))
    chosen = choose(wanted, so.sheet, mount)
    if so.by_sheet is None or chosen.missing:
        return replace(so, accessories=chosen)
    body, shoe = (
        _carried(line, chosen.of(line.of)) for line in (so.by_sheet.body, so.by_sheet.shoe)
    )
    return replace(so, accessories=chosen, by_sheet=replace(so.by_sheet, body=body, shoe=shoe))


def _own(so: SettingOut, typed: Typed, of: str) -> tuple[tuple[Hole, ...], int]:
    """The holes of body or shoe by the sheet, or as they were typed, and which way along counts: 1 to the latch."""
    if so.sheet is None:
        holes = typed.pattern.holes(of, so.opening.mount or "") if so.source == "typed" else ()
        return holes, 1
    part = so.sheet.body if of == "body" else so.sheet.shoe
    return () if part is None else part.holes, _latch(so, of)


def _latch(so: SettingOut, of: str) -> int:
    return -1 if of == "body" and so.valves_toward == "hinge" else 1


def _down(line: ReferencePoint) -> int:
    return -1 if line.direction == "up" else 1


def _carried(line: ReferencePoint, accessory: Accessory | None) -> ReferencePoint:
    """The part's reference point as an accessory puts it."""
    if accessory is None:
        return line
    return replace(
        line,
        along=line.along + accessory.shift_along.base,
        across=line.across + _down(line) * accessory.shift_down.base,
    )


def _with_lines(so: SettingOut, asked: tuple[str | None, str | None]) -> SettingOut:
    """With the places from the lines that are in view."""
    own = so.by_sheet
    if own is None or so.opening.mount is None:
        return so
    seen_along, seen_up = visible_lines(own.mount, own.along_from, own.datum)
    along, up = asked[0] or seen_along, asked[1] or seen_up
    overlap = so.opening.overlap
    if up != own.datum and overlap is None:
        return replace(
            so,
            refusal="needs-overlap",
            why=(
                f"The numbers are from the {own.datum}, and the {up} is what can be measured from here:"
                " measure how far the top of the leaf is above the underside of the stop, the overlap."
            ),
        )
    hinge = so.opening.hinge or "butt"
    edge = pivot_offset(hinge, so.opening.usual_thickness).edge
    layout = measured_from(own, along, up, edge, overlap)
    return replace(so, layout=layout, along=along_line(layout, own, edge))


def _with_holes(so: SettingOut, typed: Typed, units: str) -> SettingOut:
    mount = so.opening.mount
    if mount is None:
        return so
    holes: list[PlacedHole] = []
    fixings: dict[str, Fixing] = {}
    for of, place, part in (
        ("body", BODY_INTO[mount], None if so.sheet is None else so.sheet.body),
        ("shoe", SHOE_INTO[mount], None if so.sheet is None else so.sheet.shoe),
    ):
        accessory = so.accessories.of(of)
        screws = _screws(part, accessory, place) if so.sheet else Screws(typed.pattern.thread)
        fixing = fixing_for(so.opening, place, screws, units)
        fixings.setdefault(place, fixing)
        if so.layout is None or so.accessories.missing:
            continue
        line = so.layout.body if of == "body" else so.layout.shoe
        bolt = fixing_for(so.opening, place, screws, units, bolted=True)
        holes += _placed(so, line, _own(so, typed, of), accessory, (fixing, bolt))
    return replace(so, holes=tuple(holes), fixings=tuple(fixings.items()))


def _screws(part: SheetBody | SheetShoe | None, accessory: Accessory | None, into: str) -> Screws:
    if part is None:
        return Screws()
    mine = [one for one in part.packed if one.into in (None, into)]
    packed = tuple(sorted(mine, key=lambda one: one.into is None))
    if accessory is None or accessory.kind == "extra-screws":
        return Screws(part.thread, packed)
    if accessory.kind == "packer":
        return Screws(part.thread, packed, accessory.thickness)
    return Screws(
        accessory.thread or part.thread,
        packed if accessory.thread in (None, part.thread) else (),
    )


def _placed(
    so: SettingOut,
    line: ReferencePoint,
    own: tuple[tuple[Hole, ...], int],
    accessory: Accessory | None,
    fixings: tuple[Fixing, Fixing],
) -> list[PlacedHole]:
    """The part's own holes, or those of what carries it."""
    holes, latch = own
    found: list[PlacedHole] = []
    if accessory is None or accessory.kind in ("packer", "extra-screws"):
        for hole in holes:
            only_if = _only_if(so.opening, line, hole)
            if only_if is not None:
                found.append(_one(line.of, line, hole, latch, fixings, only_if))
    if accessory is not None and accessory.kind != "packer":
        found += [_one(accessory.name, line, hole, latch, fixings, "") for hole in accessory.holes]
    return found


def _only_if(opening: Opening, line: ReferencePoint, hole: Hole) -> str | None:
    """When the hole is drilled; None if it is not drilled on this opening. The face of a leaf has no step."""
    if hole.kind != "extra":
        return ""
    if line.of == "body":
        return EXTRA_BODY
    if line.part == LEAF:
        return None
    if opening.soffit == "stepped":
        return ""
    return None if opening.soffit is not None else EXTRA_SHOE


def _one(
    of: str,
    line: ReferencePoint,
    hole: Hole,
    latch: int,
    fixings: tuple[Fixing, Fixing],
    only_if: str,
) -> PlacedHole:
    """`fixings` are that of the part, and that of its through-bolts."""
    return PlacedHole(
        f"{of} {hole.name}",
        of,
        line,
        line.along + latch * hole.along.base,
        line.across + _down(line) * hole.down.base,
        fixings[hole.kind == "through-bolt"],
        only_if,
        hole.kind,
    )


def _judged(so: SettingOut, typed: Typed, paper: str | None, units: str) -> SettingOut:
    """With the first thing that stands in the way, what is still to be asked, and cautions."""
    so = replace(so, to_ask=_to_ask(so, typed, paper))
    if so.source == "paper" and (so.accessories.missing or not _suits(so)):
        so = _without_numbers(
            so
        )  # the paper knows the accessory or the hinge; the sheet's numbers do not
    for refusal, why in (
        ("clash", so.clashes[0].sentence if so.clashes else ""),
        ("not-on-sheet", so.why if so.refusal == "not-on-sheet" else ""),
        ("mount-not-known", _unknown(so)),
        ("needs-special", _special(so)),
        ("needs-template", "" if so.source == "paper" else so.accessories.missing),
        ("needs-plate-known", _plate_unknown(so)),
        ("not-on-sheet", _beyond(so)),
        ("needs-overlap", so.why if so.refusal == "needs-overlap" and so.source != "paper" else ""),
        ("needs-source", _no_source(so, typed)),
    ):
        if why:
            return _cautioned(replace(_without_numbers(so), refusal=refusal, why=why), units)
    return _cautioned(replace(so, refusal="go-on", why=""), units)


def _cautioned(so: SettingOut, units: str) -> SettingOut:
    beware = _beware(so, units)
    return replace(so, cautions=(*_cautions(so), *beware), beware=beware)


def _plate_unknown(so: SettingOut) -> str:
    """What to do where nobody knows whether the body goes on the sheet's drop plate; empty where it is known, the paper
    decides, or the holes are there already."""
    known = so.source == "paper" or so.opening.leaf.preparation == "tapped"
    if known or so.plate.verdict not in ("to-measure", "to-say") or so.opening.room is not None:
        return ""
    on_it = any(one.kind == "drop-plate" for one in so.accessories.found)
    return "" if on_it else so.plate.why


MOST_ALONG = Fraction(120)
"""The furthest along or across that is believed [in]; ours."""


def _beyond(so: SettingOut) -> str:
    """A sentence on a reference point that lies past the hinge edge, behind the stop or off the door."""
    if so.layout is None:
        return ""
    for line in (so.layout.body, so.layout.shoe):
        if not 0 <= line.along <= MOST_ALONG:
            return f"The {line.of} would be off the leaf along the door: check the numbers against the paper."
        if not 0 <= line.across <= MOST_ALONG:
            return (
                f"The {line.of} would be on the wrong side of the {line.across_from}: check the numbers against"
                " the paper, and which line it measures from."
            )
    if so.source != "typed":
        return ""
    for hole in so.holes:
        if hole.along < 0 or hole.across < 0:
            past = so.layout.along_from if hole.along < 0 else hole.line.across_from
            return (
                f"The hole {hole.name} would be past the {past}: check its numbers against the paper, and that"
                " each is toward the edge it was typed for."
            )
    return ""


def _without_numbers(so: SettingOut) -> SettingOut:
    return replace(so, layout=None, along=None, holes=())


def _suits(so: SettingOut) -> bool:
    """Whether the sheet's numbers are for the hinge."""
    return so.opening.special or so.opening.hinge in (None, *STANDARD_TEMPLATE)


def _unknown(so: SettingOut) -> str:
    missing = []
    if so.opening.mount is None:
        missing.append("the mount")
    if so.opening.angle is None and so.sheet is not None:
        missing.append("how far the leaf opens")
    if missing:
        return f"Not known yet: {' and '.join(missing)}. Ask it before anything is marked."
    return ""


def _special(so: SettingOut) -> str:
    hinge = so.opening.hinge
    if so.source != "sheet" or hinge is None or _suits(so):
        return ""
    return (
        f"The sheet's numbers do not suit {HINGE_WORDS[hinge]}: get the maker's special template for"
        " them, or copy it as a sheet and say special=yes."
    )


def _no_source(so: SettingOut, typed: Typed) -> str:
    if so.source == "not-known":
        return (
            "Nothing says where the holes go: load the closer's sheet, lay the paper from its box, or"
            " type the numbers of the maker's sheet once."
        )
    if so.source == "typed" and so.by_sheet is None:
        names = ", ".join(name.removeprefix("typed_").replace("_", " ") for name in typed.missing)
        return f"Still to be typed from the maker's sheet: {names}."
    return ""


def _to_ask(so: SettingOut, typed: Typed, paper: str | None) -> tuple[str, ...]:
    """What must still be asked: nothing that the sheet says."""
    opening = so.opening
    asked = [
        name
        for name, value in (("mount", opening.mount), ("knuckles", knuckles(opening)))
        if value is None
    ]
    asked += ["hinge"] if opening.hinge is None else []
    asked += ["opening"] if opening.angle is None else []
    if so.sheet is None:
        asked += ["template"] if paper is None and so.source == "not-known" else []
        asked += typed.missing if so.source == "typed" else ()
        asked += ["typed_valves_toward"] if typed.valves_toward is None else []
    if _plate_unknown(so):
        asked.append("top_rail" if so.plate.verdict == "to-measure" else "room")
    if so.refusal == "needs-overlap":
        asked.append("overlap")
    return tuple(asked)


def _cautions(so: SettingOut) -> tuple[str, ...]:
    found = []
    if so.row is not None and so.opening.angle is not None and so.row.up_to != so.opening.angle:
        found.append(
            f"The row to {so.row.up_to} covers an opening of {so.opening.angle}: the sheet has none for"
            f" {so.opening.angle} itself."
        )
    if "several" in so.opening.head_items and so.opening.mount == "parallel":
        found.append(
            "If a coordinator bar is among what is on the head, the shoe goes on its bracket."
        )
    for one in so.accessories.found:
        found.append(_goes_on(one))
    if so.plate.verdict == "to-measure" and so.source != "paper":
        found.append(so.plate.told)
    if so.source == "paper":
        found.append(
            "The paper governs; check it against the sheet's numbers where both are there."
        )
    found += [
        f"{part[:1].upper()}{part[1:]}: {fixing.holds}"
        for part, fixing in so.fixings
        if fixing.kind == "nothing"
    ]
    if so.sheet is not None and so.sheet.through_bolts:
        found.append(so.sheet.through_bolts)
    return tuple(found)


def _beware(so: SettingOut, units: str) -> tuple[str, ...]:
    """What must be settled before a drill is set on."""
    told = partial(_told, units=units)
    found = []
    for part, fixing in so.fixings:
        packed = _packed_for(so, part)
        if fixing.drilled and packed and not any(_same_kind(one, fixing.kind) for one in packed):
            found.append(
                f"The box has no {KIND_WORDS[fixing.kind]} for the {part}: get them before drilling."
            )
        found += _too_few(so, part)
    thick, leaf = so.opening.thickness, so.fixing(LEAF)
    long = leaf.length.base if leaf.kind == "wood-screw" and leaf.length is not None else None
    if thick is not None and long is not None and long > thick:
        found.append(
            f"The wood screws in the box are {told(long)} long, and the leaf is {told(thick)} thick: they would"
            " come out on the far side. Get shorter ones."
        )
    if so.layout is not None:
        found += too_near(so.layout, so.holes, surroundings(so.opening), told)
    return tuple(found)


def _too_few(so: SettingOut, part: str) -> list[str]:
    """A sentence on each kind of screw of which the box has fewer than holes go into that part."""
    needed = Counter(one.fixing for one in so.holes if one.part == part and not one.only_if)
    return [
        f"The box has {fixing.packed} {KIND_WORDS[fixing.kind]} for the {part}, and {count} are needed: get the"
        " others before drilling."
        for fixing, count in needed.items()
        if fixing.drilled and fixing.packed is not None and fixing.packed < count
    ]


def surroundings(opening: Opening) -> Surroundings:
    """What is known around the holes of an opening."""
    return Surroundings(
        edge=pivot_offset(opening.hinge or "butt", opening.usual_thickness).edge,
        width=opening.width,
        height=opening.height,
        overlap=opening.overlap,
        top_rail=opening.top_rail,
        glass=opening.glass,
        frame_face=opening.frame_face,
        soffit=opening.soffit_width,
    )


def _told(inches: Fraction, units: str) -> str:
    return write(to_mark(inches, units))


def _goes_on(accessory: Accessory) -> str:
    name, carried = accessory.name, accessory.carries
    if accessory.kind == "packer":
        by = "" if accessory.thickness is None else f", longer by its {accessory.thickness}"
        return f"The {carried}'s screws go through the {name}{by}."
    if accessory.kind == "extra-screws":
        return f"Drill the extra holes of the {carried} too."
    return f"The {carried} goes on the {name}: drill the holes of the {name}, not those of the {carried}."


def _packed_for(so: SettingOut, part: str) -> tuple[str, ...]:
    mount, sheet = so.opening.mount, so.sheet
    if mount is None or sheet is None:
        return ()
    found: SheetBody | SheetShoe | None = sheet.body if BODY_INTO[mount] == part else sheet.shoe
    return () if found is None else tuple(one.kind for one in found.packed)


def _same_kind(packed: str, kind: str) -> bool:
    return kind in (packed, f"{packed}-screw")
