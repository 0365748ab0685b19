"""How far each hole is from edges, glass, reinforcement and other hardware, and which is too near.

Lengths in inches. If the overlap of leaf and stop is not known, the value is assumed that makes a hole nearer than it
is, never farther.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from guide.trade.holes.layout import FRAME, LEAF, SOFFIT, Layout
from guide.trade.holes.placed_hole import PlacedHole

EDGE = Fraction(3, 8)
"""Least from a hole's centre to the edge of what it goes into (common practice)."""
GLASS = Fraction(1)
"""Least to glass, for bead and putty (common practice)."""
REINFORCEMENT = Fraction(1, 2)
"""Least to an end of the reinforcement, within it (common practice)."""
HARDWARE = Fraction(1, 2)
"""Least to other hardware (common practice)."""

HEADROOM = Fraction(78)
"""Least from the floor to a closer that hangs in the opening: 2010 ADA Standards 307.4, exception."""

HARDWARE_WORDS = "the other hardware"

MOST_OVERLAP = Fraction(3, 4)
"""Most that a leaf's top is above the underside of the stop (common practice)."""
_HEAD_GAP = Fraction(1, 8)
"""Top of the leaf to the frame's face above it, on the pull side (common practice)."""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What is known of the opening. None is not known."""

    edge: Fraction
    """Hinge edge from the hinge pin centre, above zero toward the latch."""
    width: Fraction | None = None
    """Of the leaf."""
    height: Fraction | None = None
    """Of the leaf."""
    overlap: Fraction | None = None
    """Top of the leaf above the underside of the stop."""
    top_rail: Fraction | None = None
    """Height of the leaf's top rail, or of its solid part."""
    glass: Fraction | None = None
    """From the top of the leaf down to the glass or its bead."""
    frame_face: Fraction | None = None
    """Height of the face of the frame's head."""
    soffit: Fraction | None = None
    """Width of the soffit, out from the leaf's push face."""
    reinforced: tuple[Fraction | None, Fraction | None] = (None, None)
    """Where the reinforcement under the body begins and ends, along from where the layout measures."""
    hardware: tuple[Fraction | None, Fraction | None] = (None, None)
    """Where other hardware on the head begins and ends, along from where the layout measures."""


@dataclass(frozen=True, slots=True)
class Near:
    """One limit, as far as one hole is concerned."""

    what: str
    """What is near, a phrase."""
    distance: Fraction
    """From the hole's centre; below zero where the hole is past it."""
    least: Fraction
    """What to keep from it."""


def distances(layout: Layout, hole: PlacedHole, around: Surroundings) -> tuple[Near, ...]:
    """Every limit that is known for that hole."""
    into = {LEAF: _leaf, FRAME: _frame, SOFFIT: _soffit}[hole.line.part]
    found = [*into(layout, hole, around)]
    begins, ends = around.reinforced
    if hole.line.of == "body":
        if begins is not None:
            found.append(Near("the start of the reinforcement", hole.along - begins, REINFORCEMENT))
        if ends is not None:
            found.append(Near("the end of the reinforcement", ends - hole.along, REINFORCEMENT))
    begins, ends = around.hardware
    if begins is not None and ends is not None:
        apart = max(begins - hole.along, hole.along - ends)
        found.append(Near(HARDWARE_WORDS, apart, HARDWARE))
    return tuple(found)


def too_near(
    layout: Layout,
    holes: tuple[PlacedHole, ...],
    around: Surroundings,
    told: Callable[[Fraction], str],
) -> tuple[str, ...]:
    """A sentence for every limit that a hole is too near to, with the nearest hole named.

    `told` writes a length [in] for the fitter.
    """
    return tuple(
        _sentence(near, hole, told)
        for near, hole in _nearest(layout, holes, around)
        if near.distance < near.least
    )


def how_near(
    layout: Layout,
    holes: tuple[PlacedHole, ...],
    around: Surroundings,
    told: Callable[[Fraction], str],
) -> str:
    """One sentence: how far the nearest hole is from each thing that is known, where it is far enough."""
    clear = [
        f"{told(near.distance)} from {near.what} ({hole.name})"
        for near, hole in _nearest(layout, holes, around)
        if near.distance >= near.least
    ]
    return f"Nearest holes: {'; '.join(clear)}." if clear else ""


def _nearest(
    layout: Layout, holes: tuple[PlacedHole, ...], around: Surroundings
) -> list[tuple[Near, PlacedHole]]:
    """Each limit with the hole that is nearest to it."""
    worst: dict[str, tuple[Near, PlacedHole]] = {}
    for hole in holes:
        for near in distances(layout, hole, around):
            if near.what not in worst or near.distance < worst[near.what][0].distance:
                worst[near.what] = near, hole
    return [*worst.values()]


def _sentence(near: Near, hole: PlacedHole, told: Callable[[Fraction], str]) -> str:
    if near.distance < 0 and near.what == HARDWARE_WORDS:
        place = f"lies under {near.what}"
    elif near.distance < 0:
        place = f"lies {told(-near.distance)} past {near.what}"
    elif near.distance == 0:
        place = f"lies on {near.what}"
    else:
        place = f"is only {told(near.distance)} from {near.what}"
    what_to_do = (
        "leave this extra hole out"
        if hole.kind == "extra"
        else "choose another place or mount, or ask the foreman"
    )
    return f"The hole {hole.name} {place}; keep {told(near.least)} (common practice): {what_to_do}."


def body_past_hinge_edge(
    layout: Layout, toward_hinge: Fraction, around: Surroundings
) -> Fraction | None:
    """How far a body on the leaf, reaching so far from its pinion, stands past the hinge edge [in]; None
    where it does not."""
    if layout.body.part != LEAF:
        return None
    past = toward_hinge - _from_edge(layout, layout.body.along, around)
    return past if past > 0 else None


def head_clearance(layout: Layout, body_height: Fraction, around: Surroundings) -> Fraction | None:
    """From the leaf's lower edge up to the underside of a body that is so high and on the leaf [in]; None
    where the body is on the frame or the leaf's height is not known."""
    if layout.body.part != LEAF or around.height is None:
        return None
    down = layout.body.across + body_height / 2
    if layout.datum == "underside of the stop":
        down += _overlap(around, MOST_OVERLAP)
    return around.height - down


def body_meets_hardware(
    layout: Layout, reach: tuple[Fraction, Fraction], around: Surroundings
) -> bool:
    """Whether a body that reaches so far toward hinge and latch covers part of the other hardware."""
    begins, ends = around.hardware
    if begins is None or ends is None:
        return False
    return layout.body.along - reach[0] < ends and layout.body.along + reach[1] > begins


def _from_edge(layout: Layout, along: Fraction, around: Surroundings) -> Fraction:
    return along if layout.along_from == "hinge edge" else along - around.edge


def _overlap(around: Surroundings, guess: Fraction) -> Fraction:
    return guess if around.overlap is None else around.overlap


def _leaf(layout: Layout, hole: PlacedHole, around: Surroundings) -> list[Near]:
    along = _from_edge(layout, hole.along, around)
    from_stop = layout.datum == "underside of the stop"
    least_down = hole.across + (_overlap(around, Fraction(0)) if from_stop else 0)
    most_down = hole.across + (_overlap(around, MOST_OVERLAP) if from_stop else 0)
    found = [
        Near("the hinge edge of the leaf", along, EDGE),
        Near("the top of the leaf", least_down, EDGE),
    ]
    if around.width is not None:
        found.append(Near("the latch edge of the leaf", around.width - along, EDGE))
    if around.top_rail is not None:
        found.append(Near("the lower edge of the top rail", around.top_rail - most_down, EDGE))
    if around.glass is not None:
        found.append(Near("the glass", around.glass - most_down, GLASS))
    return found


def _frame(layout: Layout, hole: PlacedHole, around: Surroundings) -> list[Near]:
    lower, upper = _frame_starts(layout, around)
    found = [Near("the lower edge of the frame's face", hole.across - upper, EDGE)]
    if around.frame_face is not None:
        top = lower + around.frame_face
        found.append(Near("the upper edge of the frame's face", top - hole.across, EDGE))
    return found


def _frame_starts(layout: Layout, around: Surroundings) -> tuple[Fraction, Fraction]:
    """The least and the most that the frame's face may begin above the datum."""
    from_stop = layout.datum == "underside of the stop"
    if layout.mount == "regular":
        if not from_stop:
            return _HEAD_GAP, _HEAD_GAP
        least, most = _overlap(around, Fraction(0)), _overlap(around, MOST_OVERLAP)
        return least + _HEAD_GAP, most + _HEAD_GAP
    if from_stop:
        return Fraction(0), Fraction(0)
    return -_overlap(around, MOST_OVERLAP), -_overlap(around, Fraction(0))


def _soffit(_: Layout, hole: PlacedHole, around: Surroundings) -> list[Near]:
    found = [Near("the push face of the leaf", hole.across, EDGE)]
    if around.soffit is not None:
        found.append(Near("the far edge of the soffit", around.soffit - hole.across, EDGE))
    return found
