"""Which accessory an opening needs under body or shoe, and whether the closer's sheet has its dimensions.

An accessory moves holes: what it carries goes where it puts it, and its own holes go into leaf or frame instead. So
without its dimensions no number may be given.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from guide.text import either
from guide.trade.holes.distances import EDGE, GLASS, MOST_OVERLAP
from guide.trade.holes.layout import FRAME, LEAF, SOFFIT, Layout
from guide.trade.holes.opening import Opening
from guide.trade.mounts import BODY_INTO
from guide.trade.sheet.parts import Accessory
from guide.trade.sheet.sheet import Sheet

KIND_WORDS = {
    "drop-plate": "drop plate",
    "soffit-plate": "soffit plate",
    "bracket": "bracket",
    "packer": "packer",
    "extra-screws": "extra screws",
}


@dataclass(frozen=True, slots=True)
class Need:
    """An accessory that the opening needs."""

    kind: str
    """One of `sheet.parts.ACCESSORY_KINDS`."""
    carries: str
    """"body" or "shoe"."""
    why: str
    """As a clause: "a coordinator bar is where the shoe goes"."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The accessories of one opening."""

    needs: tuple[Need, ...] = ()
    found: tuple[Accessory, ...] = ()
    """The sheet's rows for them, in the order of the needs; fewer if one is missing."""
    missing: str = ""
    """What the sheet lacks, a sentence that says what to do; empty if nothing."""

    def of(self, part: str) -> Accessory | None:
        """What carries body or shoe; None if it goes straight on leaf or frame."""
        return next((one for one in self.found if one.carries == part), None)


NO_ACCESSORY = Chosen()


PLATES = ("not-there", "to-measure", "to-say", "goes-on", "not-needed")
"""Whether the body goes on the sheet's drop plate. not-there: the sheet has none for the mount. to-measure: the sheet
says for which rail, and it is not measured. to-say: the sheet has no number for it, so the fitter must say."""


@dataclass(frozen=True, slots=True)
class Plate:
    """What the sheet's drop plate is to one opening."""

    verdict: str
    """One of `PLATES`."""
    why: str = ""
    """Where it goes on, why, as a clause; where it is not known, what to do, a sentence."""
    told: str = ""
    """The plate and where it is needed, by the sheet, a sentence; empty if there is none."""


NO_PLATE = Plate("not-there")


def plate_of(opening: Opening, layout: Layout | None, sheet: Sheet | None, mount: str) -> Plate:
    """Whether the body goes on the sheet's drop plate, by its limits and what is measured and said of the opening.

    A limit decides where the rail is measured. Else what was said of the room decides; nothing is guessed.
    """
    rows = () if sheet is None else sheet.accessories_for(mount)
    plate = next((one for one in rows if one.kind == "drop-plate"), None)
    if sheet is None or plate is None:
        return NO_PLATE
    face = "face of the frame's head" if BODY_INTO[mount] == FRAME else "top rail"
    told = f"{plate.told.rstrip('.')}{_limits(plate, face)}."
    solid = _solid(opening, mount)
    if opening.room == "plate":
        return Plate("goes-on", "the body has room only on a plate", told)
    if plate.limited and solid is not None:
        why = _past_limit(plate, opening, layout, sheet, (face, solid))
        return Plate("goes-on", why, told) if why else Plate("not-needed", "", told)
    name = f"{plate.name[:1].upper()}{plate.name[1:]}"
    if plate.limited:
        given = "frame_face" if face != "top rail" else "top_rail"
        ask = (
            f"{name}: not known yet whether the body goes on it{_limits(plate, face)}. Measure the {face}"
            f" ({given}=...), or say whether the plate goes on (room=plate, or room=fits)."
        )
        return Plate("to-measure", ask, told)
    if opening.room == "fits":
        return Plate("not-needed", "", told)
    ask = (
        f"{name}: the sheet has no number for when it goes on, only “{plate.when.rstrip('.')}”. Say whether"
        " the plate goes on: room=plate, or room=fits for the body straight on."
    )
    return Plate("to-say", ask, told)


def _limits(plate: Accessory, face: str) -> str:
    """The limits as the end of a sentence; empty if there are none, or the sentence has them."""
    found = []
    if plate.needed_below is not None and str(plate.needed_below) not in plate.when:
        found.append(f"below a {face} of {plate.needed_below}")
    if plate.needed_with_glass and "glass" not in plate.when:
        found.append("with glass behind the body")
    return f" (needed {either(found)})" if found else ""


def _solid(opening: Opening, mount: str) -> Fraction | None:
    """What the body is fixed to, down from the top of the leaf, or up the frame's face; None if not measured [in]."""
    if BODY_INTO[mount] == FRAME:
        return opening.frame_face
    known = [one for one in (opening.top_rail, opening.glass) if one is not None]
    return min(known, default=None)


def _past_limit(
    plate: Accessory,
    opening: Opening,
    layout: Layout | None,
    sheet: Sheet,
    measured: tuple[str, Fraction],
) -> str:
    """Why the plate is needed by its limits, as a clause; empty if it is not."""
    face, solid = measured
    if plate.needed_below is not None and solid < plate.needed_below.base:
        return f"the {face} is lower than {plate.needed_below}, the limit of the sheet"
    if not plate.needed_with_glass or layout is None or sheet.body is None:
        return ""
    above = Fraction(0)
    if layout.body.part == LEAF and layout.datum == "underside of the stop":
        above = MOST_OVERLAP if opening.overlap is None else opening.overlap
    if solid < above + layout.body.across + sheet.body.height.base / 2:
        return "glass may be behind the body, which reaches past what is solid"
    return ""


def needs(
    opening: Opening,
    layout: Layout | None,
    holes: tuple[tuple[str, Fraction], ...],
    plate: Plate = NO_PLATE,
) -> Iterator[Need]:
    """What the opening needs, by what is known of it.

    `holes` are the second numbers of the part's own holes, by part name ("body", "shoe"); `plate` what the sheet's drop
    plate is to the opening.
    """
    if opening.mount == "parallel":
        if "coordinator" in opening.head_items:
            yield Need("bracket", "shoe", "a coordinator bar is where the shoe goes")
        if opening.soffit == "blade":
            yield Need("packer", "shoe", "the stop is a blade")
        if opening.soffit == "narrow":
            yield Need("soffit-plate", "shoe", "the soffit is narrower than the shoe")
        elif _runs_out(opening, layout, holes):
            yield Need("soffit-plate", "shoe", "the soffit is too narrow for the shoe's holes")
        if opening.soffit == "stepped":
            yield Need("extra-screws", "shoe", "the soffit steps under the shoe")
    why = _body_runs_out(opening, layout, holes)
    if not why and plate.verdict == "goes-on" and opening.room != "plate":
        why = plate.why
    if why:
        yield Need("drop-plate", "body", why)
    elif opening.room == "plate" and not (
        opening.mount == "parallel"
        and ("coordinator" in opening.head_items or opening.soffit == "narrow")
    ):
        yield Need("drop-plate", "body", "the body has room only on a plate")


def _runs_out(
    opening: Opening, layout: Layout | None, holes: tuple[tuple[str, Fraction], ...]
) -> bool:
    if layout is None or layout.shoe.part != SOFFIT or opening.soffit_width is None:
        return False
    shoe = [across for of, across in holes if of == "shoe"] or [layout.shoe.across]
    return opening.soffit_width - max(shoe) < EDGE


def _body_runs_out(
    opening: Opening, layout: Layout | None, holes: tuple[tuple[str, Fraction], ...]
) -> str:
    """Why the body's own holes do not fit; empty if they do, or nothing is known."""
    if layout is None:
        return ""
    body = [across for of, across in holes if of == "body"]
    if not body:
        return ""
    if layout.body.part == LEAF:
        above = Fraction(0)
        if layout.datum == "underside of the stop":
            above = MOST_OVERLAP if opening.overlap is None else opening.overlap
        lowest = max(body) + above
        if opening.top_rail is not None and opening.top_rail - lowest < EDGE:
            return "the top rail is too low for the body's holes"
        if opening.glass is not None and opening.glass - lowest < GLASS:
            return "glass is behind the body's holes"
    if layout.body.part == FRAME and opening.frame_face is not None:
        from_stop = layout.datum == "underside of the stop"
        start = Fraction(0) if from_stop else -(opening.overlap or Fraction(0))
        if start + opening.frame_face - max(body) < EDGE:
            return "the frame's face is too low for the body's holes"
    return ""


def choose(wanted: tuple[Need, ...], sheet: Sheet | None, mount: str) -> Chosen:
    """The sheet's rows for what is needed; `missing` says what to do where one is not there."""
    found: list[Accessory] = []
    for need in wanted:
        name = KIND_WORDS[need.kind]
        wants = f"{need.why[:1].upper()}{need.why[1:]}, so the {need.carries} goes on a {name}"
        if need.kind == "extra-screws":
            wants = (
                f"{need.why[:1].upper()}{need.why[1:]}, so the {need.carries} needs extra screws"
            )
        if sheet is None:
            return Chosen(wanted, tuple(found), _get_template(wants, need))
        if _on_the_part(need, sheet):
            continue
        fits = [
            one
            for one in sheet.accessories_for(mount)
            if one.kind == need.kind and one.carries == need.carries
        ]
        if not any(one.copied for one in fits):
            lacks = "without its dimensions" if fits else "not there"
            return Chosen(
                wanted,
                tuple(found),
                _get_template(f"{wants}, which on the sheet {sheet.sheet} is {lacks}", need),
            )
        found.append(next(one for one in fits if one.copied))
    carried = [one.carries for one in found if one.kind != "extra-screws"]
    twice = next((part for part in ("body", "shoe") if carried.count(part) > 1), None)
    if twice is not None:
        names = " and ".join(one.name for one in found if one.carries == twice)
        return Chosen(
            wanted,
            tuple(found),
            f"The {twice} would go on {names} at once, and the sheet has no holes for both together: lay"
            " the template packed with them, or do not start.",
        )
    return Chosen(wanted, tuple(found), _elsewhere(found, mount))


def _on_the_part(need: Need, sheet: Sheet) -> bool:
    """Whether the part has the extra holes itself."""
    if need.kind != "extra-screws" or sheet.shoe is None:
        return False
    return any(hole.kind == "extra" for hole in sheet.shoe.holes)


def _get_template(wants: str, need: Need) -> str:
    name = KIND_WORDS[need.kind]
    return f"{wants}: lay the template packed with the {name}, or do not start."


_PLACES = {
    "body": {"regular": LEAF, "top-jamb": FRAME, "parallel": LEAF},
    "shoe": {"regular": FRAME, "top-jamb": LEAF, "parallel": SOFFIT},
}


def _elsewhere(found: list[Accessory], mount: str) -> str:
    """A sentence on an accessory whose holes go into another part than what it carries would."""
    for one in found:
        usual = _PLACES[one.carries][mount]
        if one.into != usual:
            kinds = either([usual, one.into])
            return (
                f"The {one.name} goes into the {one.into}, and the {one.carries} is measured on the"
                f" {usual} ({kinds}): lay the template packed with it, or do not start."
            )
    return ""
