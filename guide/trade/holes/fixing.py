"""What goes into one hole: its screw or bolt, the drill, the depth, and what holds it.

What can hold follows from leaf and frame (`guide.trade.fastening`); thread and lengths are those of the closer's own
sheet. Drills are named from the set that the thread or the job is in: metric for an M thread or a metric job.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from guide.measures import Quantity, show, write
from guide.trade.answer import NoAnswer
from guide.trade.fastening.drills import INCH, METRIC, Drill, nearest_drill
from guide.trade.fastening.fasteners import (
    CORES,
    DrilledLeaf,
    Fastening,
    frame_fastening,
    leaf_fastening,
)
from guide.trade.fastening.lead_hole import HARDER_ABOVE, lead_hole
from guide.trade.fastening.threads import THREADS as KNOWN_THREADS
from guide.trade.fastening.threads import (
    USUAL_PERCENT,
    Thread,
    hole_for_percent,
    thread_named,
    thread_typed,
)
from guide.trade.fastening.wood_screws import SPECIFIC_GRAVITIES, WOOD_SCREWS, screw_typed
from guide.trade.holes.layout import LEAF, to_mark
from guide.trade.holes.opening import Material, Opening
from guide.trade.sheet.parts import PackedScrew

KINDS = (
    "machine-screw",
    "wood-screw",
    "through-bolt",
    "rivet-nut",
    "self-drilling",
    "ready",
    "not-known",
    "nothing",
    "no-holes",
)
"""What holds. "ready": the holes are there already. "nothing": leaf or frame holds no screw."""

KIND_WORDS = {
    "machine-screw": "machine screws",
    "wood-screw": "wood screws",
    "through-bolt": "through-bolts",
    "rivet-nut": "rivet nuts",
    "self-drilling": "self-drilling screws",
}
"""What a fitter calls each that is drilled for."""

_FROM_PACKED = {
    "machine": "machine-screw",
    "wood": "wood-screw",
    "self-drilling": "self-drilling",
    "through-bolt": "through-bolt",
    "rivet-nut": "rivet-nut",
}
_CLEARANCE_METRIC = {5: "5.5", 6: "6.6", 8: "9"}
"""Bolt to its clearance hole, medium [mm]; ISO 273 (from memory)."""
_CLEARANCE_INCH = Fraction(1, 32)
"""How much larger than the bolt its hole is [in]; common practice."""
_SLEEVE = Quantity(Fraction(3, 8), "in")
"""Hole for the sleeve of a 1/4-20 through-bolt; common practice."""
_PILOT = Quantity(Fraction(1, 8), "in")
"""Pilot through a leaf that is opened up from each side; common practice."""
_USUAL_WOOD_SCREW = "14"


@dataclass(frozen=True, slots=True)
class Fixing:
    """What one hole takes."""

    kind: str
    """One of `KINDS`."""
    screw: str = ""
    """Its thread or number; empty if not known."""
    drill: str = ""
    """The drill's name; empty if nothing is drilled, or the screw in hand decides."""
    tap: str = ""
    """The thread to tap; empty if none is tapped."""
    depth: Quantity | None = None
    """How deep to drill; None for a hole through the skin or the whole leaf."""
    first_face: str = ""
    """The face that is drilled first: "push face", "pull face"."""
    grip: Quantity | None = None
    """Between the heads of a through-bolt."""
    second_drill: str = ""
    """For a through-bolt, the hole of its sleeve from the other face; for a wood screw, the pilot in hard wood."""
    length: Quantity | None = None
    """Of the screw or bolt as packed; None if the sheet is silent."""
    packed: int | None = None
    """How many are in the box for the part; None if the sheet is silent."""
    longer: Quantity | None = None
    """How much longer than packed the screw must be, for a packer."""
    spacer: bool = False
    """Whether a through-bolt wants a spacer, or the empty rail is crushed."""
    holds: str = ""
    """What holds it, a phrase."""
    source: str = ""
    """Where screw and drill come from."""
    supposed: bool = False
    """Whether the screw is only a usual one, because neither sheet nor paper names it."""

    @property
    def drilled(self) -> bool:
        """Whether anything is drilled for it."""
        return self.kind in KIND_WORDS


@dataclass(frozen=True, slots=True)
class Screws:
    """The screws of a part, by the sheet."""

    thread: str = ""
    """Of its machine screws."""
    packed: tuple[PackedScrew, ...] = ()
    longer: Quantity | None = None
    """How much longer they are, for a packer."""

    def of_kind(self, kind: str) -> PackedScrew | None:
        """What the sheet packs of that kind; None if it is silent."""
        return next((one for one in self.packed if _FROM_PACKED[one.kind] == kind), None)


def fixing_for(
    opening: Opening, part: str, screws: Screws, units: str, *, bolted: bool = False
) -> Fixing:
    """What a hole of that part (one of `layout.PARTS`) takes, in the units of the job.

    `bolted` is for a hole that the sheet wants a through-bolt in, whatever the leaf holds.
    """
    material = opening.leaf if part == LEAF else opening.frame
    face = "pull face" if opening.mount == "regular" else "push face"
    if material.preparation == "tapped":
        return Fixing(
            "ready", screws.thread, first_face=face, holds="the tapped holes that are there"
        )
    try:
        found = _fastening(opening, part, material, units)
    except NoAnswer as reason:
        return Fixing("nothing", holds=str(reason))
    if found is None:
        return _not_known(screws, units)
    kind = "rivet-nut" if found.fastener == "threaded-insert" else found.fastener
    kind = "through-bolt" if bolted and part == LEAF else _as_packed(kind, material, screws)
    works: dict[str, Callable[[Fastening, Screws, str], Fixing]] = {
        "machine-screw": _machine_screw,
        "wood-screw": _wood_screw,
        "through-bolt": _through_bolt,
        "rivet-nut": _rivet_nut,
        "self-drilling": _self_drilling,
    }
    packed = screws.of_kind(kind)
    return replace(
        works[kind](found, screws, units),
        length=None if packed is None else packed.length,
        packed=None if packed is None else packed.count,
        first_face=face if part == LEAF else "",
        longer=screws.longer,
        spacer=kind == "through-bolt" and _is_tube(material),
        holds=_holds(kind, material, part),
        source="the closer's sheet" if screws.thread or screws.packed else "common practice",
    )


def _not_known(screws: Screws, units: str) -> Fixing:
    """Leaf or frame are not known yet: the drill if it is metal with a plate."""
    thread = _thread(screws, "machine-screw")
    if thread is None:
        return Fixing("not-known", screws.thread)
    drill = nearest_drill(hole_for_percent(thread, Fraction(USUAL_PERCENT)), _series(thread, units))
    return Fixing("not-known", thread.name, drill.name, thread.name)


def _fastening(opening: Opening, part: str, material: Material, units: str) -> Fastening | None:
    if material.kind is None:
        return None
    if part != LEAF:
        if material.plate is None and material.kind in ("steel", "aluminium"):
            return None
        return frame_fastening(material.kind, material.plate or False, units)
    if material.kind == "glass":
        raise NoAnswer("Glass is not drilled.")
    plate = material.plate or False
    if plate and material.kind != "wood":
        core = material.core or CORES[material.kind][0]
    elif material.core is None:
        return None
    else:
        core = material.core
    if opening.thickness is None and not (plate and material.kind != "wood"):
        return None
    size = Quantity(opening.usual_thickness, "in")
    thickness = size if units == "inch" else size.to("mm")
    return leaf_fastening(DrilledLeaf(material.kind, core, plate, thickness))


def _as_packed(kind: str, material: Material, screws: Screws) -> str:
    """Screws that drill their own hole take the place of machine screws where the sheet packs no others, and rivet
    nuts that of through-bolts in an empty rail."""
    packs = {_FROM_PACKED[one.kind] for one in screws.packed}
    metal = material.kind in ("steel", "aluminium")
    if metal and kind == "machine-screw" and kind not in packs and "self-drilling" in packs:
        return "self-drilling"
    if kind == "through-bolt" and _is_tube(material) and kind not in packs and "rivet-nut" in packs:
        return "rivet-nut"
    return kind


def _is_tube(material: Material) -> bool:
    """Whether an empty aluminium rail is all there is."""
    return material.kind == "aluminium" and material.core == "tube" and not material.plate


def _thread(screws: Screws, kind: str) -> Thread | None:
    packed = screws.of_kind(kind)
    name = thread_typed(packed.size if packed is not None else screws.thread)
    return thread_named(name) if name in KNOWN_THREADS else None


def _name(screws: Screws, kind: str) -> str:
    packed = screws.of_kind(kind)
    return packed.size if packed is not None else screws.thread


def _series(thread: Thread, units: str) -> tuple[Drill, ...]:
    return METRIC if thread.metric or units == "metric" else INCH


def _machine_screw(found: Fastening, screws: Screws, units: str) -> Fixing:
    thread = _thread(screws, "machine-screw")
    name = _name(screws, "machine-screw")
    if thread is None:
        return Fixing("machine-screw", name, tap=name, depth=found.depth)
    drill = nearest_drill(hole_for_percent(thread, Fraction(USUAL_PERCENT)), _series(thread, units))
    return Fixing("machine-screw", thread.name, drill.name, thread.name, found.depth)


def _wood_screw(found: Fastening, screws: Screws, units: str) -> Fixing:
    packed = screws.of_kind("wood-screw")
    number = _USUAL_WOOD_SCREW if packed is None else screw_typed(packed.size)
    depth = found.depth
    if packed is not None and packed.length is not None and depth is not None:
        depth = min(depth, packed.length if units == "inch" else packed.length.to("mm"))
    if number not in WOOD_SCREWS:
        return Fixing("wood-screw", packed.size if packed else number, depth=depth)
    softer, harder = (
        nearest_drill(lead_hole(number, gravity), METRIC if units == "metric" else INCH_FRACTIONS)
        for gravity in (HARDER_ABOVE, SPECIFIC_GRAVITIES["red oak"])
    )
    return Fixing(
        "wood-screw",
        f"No. {number}",
        softer.name,
        depth=depth,
        second_drill=harder.name,
        supposed=packed is None,
    )


INCH_FRACTIONS = tuple(drill for drill in INCH if drill.name.endswith(" in"))
"""What a carpenter's set has."""


def _through_bolt(found: Fastening, screws: Screws, units: str) -> Fixing:
    thread = _thread(screws, "through-bolt")
    packed = screws.of_kind("through-bolt")
    name = _name(screws, "through-bolt")
    grip = found.grip
    if thread is None:
        return Fixing("through-bolt", name, grip=grip)
    series = _series(thread, units)
    sleeve = packed.hole if packed is not None else None
    if sleeve is None and thread.name == "1/4-20":
        sleeve = _SLEEVE
    return Fixing(
        "through-bolt",
        thread.name,
        nearest_drill(_clearance(thread), series).name,
        grip=grip,
        second_drill="" if sleeve is None else nearest_drill(sleeve, series).name,
    )


def _clearance(thread: Thread) -> Quantity:
    size = thread.major
    if size.unit == "in":
        return Quantity(size.magnitude + _CLEARANCE_INCH, "in")
    usual = _CLEARANCE_METRIC.get(int(size.magnitude))
    return Quantity(size.magnitude * Fraction(11, 10) if usual is None else Fraction(usual), "mm")


def _rivet_nut(_: Fastening, screws: Screws, units: str) -> Fixing:
    packed = screws.of_kind("rivet-nut")
    name = _name(screws, "rivet-nut")
    if packed is None or packed.hole is None:
        return Fixing("rivet-nut", name)
    metric = packed.hole.unit == "mm" or units == "metric"
    return Fixing("rivet-nut", name, nearest_drill(packed.hole, METRIC if metric else INCH).name)


def _self_drilling(_: Fastening, screws: Screws, __: str) -> Fixing:
    return Fixing("self-drilling", _name(screws, "self-drilling"))


def _holds(kind: str, material: Material, part: str) -> str:
    """What holds a screw or bolt of that kind, a phrase."""
    if kind == "through-bolt":
        core = {"mineral": "the mineral core", "tube": "the empty rail"}.get(
            material.core or "", "what is inside"
        )
        return f"both faces of the leaf, clamped by the bolt; {core} holds nothing"
    if kind == "wood-screw":
        return "solid timber" if part == LEAF else "the frame's own timber"
    if kind == "rivet-nut":
        return f"rivet nuts in the {material.kind} skin"
    if material.kind == "wood":
        return "blocking of solid timber"
    return f"a steel plate behind the {material.kind} skin"


def drill_words(fixing: Fixing, count: int | None, units: str) -> str:
    """What to drill for so many holes, as for a fitter on a ladder: "4 holes, No. 7 drill, 1/2 in deep, tap
    1/4-20, push face first, screws 1 in long". Without a count, for every hole of the paper."""
    holes = "Every hole" if count is None else f"{count} hole{'s' if count != 1 else ''}"
    return f"{holes}{_HOW[fixing.kind](fixing, units)}"


def _long(fixing: Fixing, units: str) -> str:
    """How long the screws or bolts are, beside their size."""
    if fixing.longer is None:
        return "" if fixing.length is None else f", {_length(fixing.length, units)} long"
    by = f"{_length(fixing.longer, units)} longer"
    if fixing.length is None:
        return f", {by}"
    whole = _length(_sum(fixing.length, fixing.longer), units)
    return f", {whole} long, {by} than those in the box"


def _screws_long(fixing: Fixing, units: str) -> str:
    return _long(fixing, units).replace(", ", ", screws ", 1)


def _sum(one: Quantity, other: Quantity) -> Quantity:
    return Quantity(one.magnitude + other.to(one.unit).magnitude, one.unit)


def screw_words(fixing: Fixing, count: int | None, units: str) -> str:
    """The screws to lay out for so many holes: "4 machine screws 1/4-20, 1 in long". Without a count, how many the box
    has; of what is not known, those in the box."""
    many = "" if count is None else f"{count} "
    if not fixing.drilled:
        return f"{many}screws from the box{f', {fixing.screw}' if fixing.screw else ''}"
    if fixing.kind == "rivet-nut":  # the nuts are in their holes by then
        return f"{many}machine screws{_of(fixing)}{_long(fixing, units)}, for the rivet nuts"
    return f"{many}{KIND_WORDS[fixing.kind]}{_of(fixing)}{_long(fixing, units)}"


_IN_THE_BOX = "the screws in the box"


def _of(fixing: Fixing) -> str:
    return f" {fixing.screw}" if fixing.screw else ""


def _first(fixing: Fixing) -> str:
    return f", {fixing.first_face} first" if fixing.first_face else ""


def _tapped_words(fixing: Fixing, units: str) -> str:
    screw = fixing.screw or _IN_THE_BOX
    drill = f"{fixing.drill} drill" if fixing.drill else f"tap drill for {screw}"
    deep = "" if fixing.depth is None else f", {_length(fixing.depth, units)} deep"
    tap = fixing.tap or "the same"
    return f", {drill}{deep}, tap {tap}{_first(fixing)}{_screws_long(fixing, units)}"


def _wood_words(fixing: Fixing, units: str) -> str:
    harder = f" ({fixing.second_drill} in hard wood)" if fixing.second_drill else ""
    drill = f"{fixing.drill} drill{harder}" if fixing.drill else "pilot as the sheet says"
    deep = "" if fixing.depth is None else f", {_length(fixing.depth, units)} deep"
    look = " (usual; look in the box)" if fixing.supposed else ""
    screws = f"wood screws {fixing.screw}{look}{_long(fixing, units)}"
    return f", {drill}{deep}, for {screws}{_first(fixing)}"


def _bolt_words(fixing: Fixing, units: str) -> str:
    first = fixing.first_face
    other = "pull face" if first == "push face" else "push face"
    pilot = nearest_drill(_PILOT, METRIC if units == "metric" else INCH).name
    bolt = (
        f"{fixing.drill} from the {first}" if fixing.drill else f"the bolt's size from the {first}"
    )
    sleeve = (
        f"{fixing.second_drill} from the {other} for the sleeve"
        if fixing.second_drill
        else f"the sleeve's size from the {other}"
    )
    spacer = "; a spacer in the rail on each bolt" if fixing.spacer else ""
    holes = f"pilot {pilot} from the {first}, then {bolt}, {sleeve}{spacer}"
    return f" right through for through-bolts{_of(fixing)}{_long(fixing, units)}: {holes}"


def _nut_words(fixing: Fixing, units: str) -> str:
    drill = f"{fixing.drill} drill" if fixing.drill else "drill as the rivet nut's own sheet says"
    nuts = f"rivet nuts{_of(fixing)}{_screws_long(fixing, units)}"
    return f", {drill}, through the skin only, for {nuts}"


def _own_hole_words(fixing: Fixing, units: str) -> str:
    return f" for self-drilling screws{_of(fixing)}{_long(fixing, units)}: punch each centre, drill no pilot"


_HOW: dict[str, Callable[[Fixing, str], str]] = {
    "machine-screw": _tapped_words,
    "wood-screw": _wood_words,
    "through-bolt": _bolt_words,
    "rivet-nut": _nut_words,
    "self-drilling": _own_hole_words,
    "ready": lambda fixing, units: " are there already: drill none, run a screw into each by hand",
    "not-known": lambda fixing, units: (
        f" for {fixing.screw or 'screws'}: drill when it is known what holds"
    ),
    "nothing": lambda fixing, units: ": drill none, nothing holds here",
    "no-holes": lambda fixing, units: "",
}


def hole_words(fixing: Fixing) -> str:
    """What one hole takes, short: "No. 7 to tap 1/4-20", "9/32 in right through"."""
    if fixing.kind == "machine-screw":
        return (
            f"{fixing.drill} to tap {fixing.tap}" if fixing.drill else f"tap {fixing.tap}".strip()
        )
    if fixing.kind == "wood-screw":
        return f"{fixing.drill or 'pilot'} for wood screw {fixing.screw}"
    if fixing.kind == "through-bolt":
        return f"{fixing.drill or fixing.screw} right through".strip()
    if fixing.kind == "rivet-nut":
        return f"{fixing.drill + ' ' if fixing.drill else ''}for rivet nut {fixing.screw}"
    if fixing.kind == "self-drilling":
        return f"self-drilling {fixing.screw}"
    if fixing.kind == "ready":
        return "there already"
    if fixing.tap:
        return f"{fixing.drill} to tap {fixing.tap} in metal"
    return f"for {fixing.screw}" if fixing.screw else "drill not known"


def _length(length: Quantity, units: str) -> str:
    return show(length, units) if length.unit not in ("in", "mm") else write(_in(length, units))


def _in(length: Quantity, units: str) -> Quantity:
    same = (length.unit == "in") == (units == "inch")
    return length if same else to_mark(length.base, units)
