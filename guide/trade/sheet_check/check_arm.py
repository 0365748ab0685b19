"""A closer's sheet against the kinematics: does each range's arm go together, rest, reach and close?"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from statistics import median

from guide.measures import Quantity, nearest, write
from guide.trade.answer import NoAnswer
from guide.trade.arm.clearance import (
    BodyOutline,
    arm_meets,
    body_meets_wall,
    over_centre,
    rack_ends,
)
from guide.trade.arm.geometry import RESERVE_DEG, Arm, Geometry
from guide.trade.arm.inputs import outline_of
from guide.trade.arm.moments import least_closing, moments
from guide.trade.arm.sheet_geometry import resting_forearm, sheet_geometry
from guide.trade.arm.spring import spring_of
from guide.trade.en_1154 import DEMANDS
from guide.trade.sheet.codec import Path
from guide.trade.sheet.parts import OpeningRange, SheetArm, SheetBody, SheetMount
from guide.trade.sheet.sheet import Sheet
from guide.trade.sheet_check.finding import SheetFinding, at_mount, look_at, named

_SIXTEENTH = Quantity(Fraction(1, 16), "in")
REST_TOLERANCE = 0.09
"""How far a forearm may be from the one that makes the arm rest as said [in]: rounding, thrice."""
RATIO_TOLERANCE = 0.08
"""How far the ratio at 2 deg may be from the other ranges' of the mount, as a share (our choice)."""
REACH_SLACK_DEG = 55.0
"""A range that stops so far short of what its arm can do was mistyped (our choice)."""
ROD_SLACK = 6
"""How far a rod may reach past what its ranges set it to [in]; a deep stop takes 3 (our choice)."""
CLOSED_FLOOR = 0.8
"""Least share of the EN closing moment of one size less that a mount may fall to (our choice)."""


@dataclass(frozen=True, slots=True)
class _Case:
    """One range of one mount, with the linkage it makes."""

    mount: SheetMount
    found: OpeningRange
    number: int
    body: SheetBody
    arm: SheetArm
    geometry: Geometry
    gap: float
    """Forearm on the sheet less the one that makes the arm rest as said [in]; nan if none does."""

    @property
    def ratio(self) -> float | None:
        """The ratio at 2 deg; None if the arm does not go together."""
        at = Arm(self.geometry).at(2)
        return None if at is None else at.ratio


def check_arms(sheet: Sheet) -> Iterator[SheetFinding]:
    """Every finding the kinematics give; none for mounts whose arm the sheet leaves out."""
    cases = list(_cases(sheet))
    yield from _too_short(sheet)
    for mount in sheet.mounts:
        yield from _rod_far(sheet, mount)
    rest = list(_rest(sheet, cases))
    yield from rest
    for case in cases:
        yield from _apart(sheet, case)
        if not any(one.path[:2] == at_mount(sheet.mounts, case.mount) for one in rest):
            yield from _ratio(sheet, case, cases)
        yield from _rod(sheet, case)
        yield from _reach(sheet, case)
        yield from _power(sheet, case)


def _cases(sheet: Sheet) -> Iterator[_Case]:
    for mount in sheet.mounts:
        if mount.arm is None or sheet.body is None:
            continue
        for number, found in enumerate(mount.ranges):
            try:
                geometry = sheet_geometry(sheet, mount.mount, found)
            except NoAnswer:
                continue
            resting = resting_forearm(geometry, mount.arm.rests)
            gap = math.nan if resting is None else geometry.forearm - resting
            yield _Case(mount, found, number, sheet.body, mount.arm, geometry, gap)


def _too_short(sheet: Sheet) -> Iterator[SheetFinding]:
    for mount in sheet.mounts:
        for number, found in enumerate(mount.ranges):
            try:
                sheet_geometry(sheet, mount.mount, found)
            except NoAnswer as error:
                if mount.arm is not None and sheet.body is not None:
                    path = at_mount(sheet.mounts, mount, "ranges", number, "shoe_along")
                    yield SheetFinding("arm-too-short", path, str(error))


def _off(case: _Case) -> bool:
    return not abs(case.gap) <= REST_TOLERANCE


def _rest(sheet: Sheet, cases: list[_Case]) -> Iterator[SheetFinding]:
    off = [case for case in cases if _off(case)]
    wholly = [
        mount
        for mount in sheet.mounts
        if (own := [case for case in cases if case.mount is mount]) and all(map(_off, own))
    ]
    if len(wholly) > 1:
        assert sheet.body is not None
        yield _not_at_rest(
            off[0], ("body", "pinion_out"), "the pinion's distance out", sheet.body.pinion_out
        )
        return
    for case in off:
        if case.mount in wholly and len(case.mount.ranges) > 1:
            key, what, value = _shared_suspect(sheet, case)
            yield _not_at_rest(case, at_mount(sheet.mounts, case.mount, "arm", key), what, value)
            wholly.remove(case.mount)
            off = [one for one in off if one.mount is not case.mount]
        elif case in off:
            key, what, value = _suspect(case, cases)
            path = at_mount(sheet.mounts, case.mount, "ranges", case.number, key)
            yield _not_at_rest(case, path, what, value)


def _not_at_rest(case: _Case, path: Path, what: str, value: Quantity) -> SheetFinding:
    forearm = Quantity(Fraction(case.geometry.forearm), "in")
    step = Quantity(Fraction(1), "mm") if case.arm.main.unit == "mm" else _SIXTEENTH
    shown = write(nearest(forearm, step))
    return SheetFinding(
        "arm-rest",
        path,
        f"{named(case.mount, case.found)}: with these places and a forearm of {shown} the arm does"
        f" not rest with the {case.arm.rests}; {look_at(what, value)}",
    )


def _shared_suspect(sheet: Sheet, off: _Case) -> tuple[str, str, Quantity]:
    """Main arm or shoe out: the main arm where the other mounts agree on another one."""
    arm = off.arm
    others = {one.arm.main for one in sheet.mounts if one.arm is not None and one is not off.mount}
    if arm.shoe_out is None or (len(others) == 1 and arm.main not in others):
        return "main", "the main arm", arm.main
    return "shoe_out", "the shoe's distance out", arm.shoe_out


def _suspect(case: _Case, cases: list[_Case]) -> tuple[str, str, Quantity]:
    """The number of one range that would have to change for it to look most like its neighbours."""
    found = case.found
    like = [one.ratio for one in cases if one.mount is case.mount and not _off(one)]
    usual = median([ratio for ratio in like if ratio is not None] or [2.4])
    geometry, rests = case.geometry, case.arm.rests
    options: list[tuple[str, str, Quantity, Callable[[float], Geometry]]] = [
        (
            "body_along",
            "the body's distance along",
            found.body_along,
            lambda value: replace(geometry, pinion_along=value),
        ),
        (
            "shoe_along",
            "the shoe's distance along",
            found.shoe_along,
            lambda value: replace(geometry, shoe_along=value),
        ),
    ]
    if case.mount.mount == "parallel":
        options.append(
            (
                "shoe_datum",
                "the shoe's distance out",
                found.shoe_datum,
                lambda value: replace(geometry, shoe_out=value),
            )
        )
    best: tuple[float, str, str, Quantity] | None = None
    for key, what, value, put in options:
        for candidate in _repairs(put, rests, float(value.base)):
            score = _unlike(candidate, usual)
            if best is None or score < best[0]:
                best = (score, key, what, value)
    if found.forearm is not None:
        score = _unlike(_at_rest(geometry, rests), usual)
        if best is None or score <= best[0]:
            best = (score, "forearm", "the forearm", found.forearm)
    if best is None:
        return "body_along", "the body's distance along", found.body_along
    return best[1:]


def _at_rest(geometry: Geometry, rests: str) -> Geometry | None:
    forearm = resting_forearm(geometry, rests)
    return None if forearm is None else replace(geometry, forearm=forearm)


def _unlike(geometry: Geometry | None, usual: float) -> float:
    at = None if geometry is None else Arm(geometry).at(2)
    return math.inf if at is None or at.ratio is None else abs(at.ratio / usual - 1)


def _repairs(put: Callable[[float], Geometry], rests: str, value: float) -> Iterator[Geometry]:
    """The geometries nearby, a 16th at a time, in which another value of one length puts the arm to
    rest."""
    for sixteenths in range(16 * 24):
        candidate = put(sixteenths / 16)
        resting = resting_forearm(candidate, rests)
        if resting is not None and abs(candidate.forearm - resting) <= REST_TOLERANCE / 2:
            yield candidate


def _apart(sheet: Sheet, case: _Case) -> Iterator[SheetFinding]:
    if case.ratio is None:
        path = at_mount(sheet.mounts, case.mount, "ranges", case.number, "forearm")
        message = (
            f"{named(case.mount, case.found)}: the arm cannot be put together;"
            f" {look_at('the forearm and both places along')}"
        )
        yield SheetFinding("arm-apart", path, message)


def _ratio(sheet: Sheet, case: _Case, cases: list[_Case]) -> Iterator[SheetFinding]:
    ratios = [one.ratio for one in cases if one.mount is case.mount and one.ratio]
    if len(ratios) < 2 or case.ratio is None:
        return
    off = case.ratio / median(ratios) - 1
    # Two ranges lie on either side of their own mean.
    if abs(off) <= (RATIO_TOLERANCE if len(ratios) > 2 else RATIO_TOLERANCE / 2):
        return
    path = at_mount(sheet.mounts, case.mount, "ranges", case.number, "body_along")
    more = "more" if off > 0 else "less"
    yield SheetFinding(
        "power-unlike",
        path,
        f"{named(case.mount, case.found)}: near the latch it has {abs(off):.0%} {more} power than is"
        f" usual on this mount; {look_at('its places along', case.found.body_along)}",
    )


def _rod(sheet: Sheet, case: _Case) -> Iterator[SheetFinding]:
    shortest, longest = case.arm.forearm
    forearm = case.geometry.forearm
    low, high = float(shortest.base) - REST_TOLERANCE, float(longest.base) + REST_TOLERANCE
    if low <= forearm <= high:
        return
    whole = all(
        not low <= float((one.forearm or shortest).base) <= high for one in case.mount.ranges
    )
    path = at_mount(sheet.mounts, case.mount, "arm", "forearm")
    if not whole:
        path = at_mount(sheet.mounts, case.mount, "ranges", case.number, "forearm")
    yield SheetFinding(
        "rod-short",
        path,
        f"{named(case.mount, case.found)}: a forearm of {forearm:.2f} in is outside the rod's"
        f" {shortest} to {longest}; {look_at('the forearm')}",
    )


def _rod_far(sheet: Sheet, mount: SheetMount) -> Iterator[SheetFinding]:
    set_to = [one.forearm.base for one in mount.ranges if one.forearm is not None]
    if mount.arm is None or not set_to:
        return
    shortest, longest = mount.arm.forearm
    if max(set_to) - shortest.base > ROD_SLACK or longest.base - min(set_to) > ROD_SLACK:
        yield SheetFinding(
            "rod-far",
            at_mount(sheet.mounts, mount, "arm", "forearm"),
            f"{named(mount)}: the rod goes from {shortest} to {longest}, far past what any range sets"
            f" it to; {look_at('the forearm')}",
        )


@lru_cache(maxsize=256)
def _end_of_reach(
    geometry: Geometry, preset_deg: float, outline: BodyOutline | None
) -> tuple[float, str]:
    """How far such an arm opens the leaf [deg], and what stops it there.

    Kept: a sheet is checked as it is copied and again as its paper is printed.
    """
    arm = Arm(geometry)
    lock = arm.lock()
    limits = [
        (None if lock is None else lock.deg - RESERVE_DEG, "the arm would be near its lock"),
        (over_centre(arm), "the spring would open the door"),
        (rack_ends(arm, preset_deg), "the pinion would run out of travel"),
        (arm_meets(arm), "the arm would meet frame or leaf"),
        (body_meets_wall(geometry, outline), "the body meets the wall"),
    ]
    return min(((deg, why) for deg, why in limits if deg is not None), default=(180.0, ""))


def _reach(sheet: Sheet, case: _Case) -> Iterator[SheetFinding]:
    preset_deg = float(case.arm.preset_turn.base)
    end, why = _end_of_reach(case.geometry, preset_deg, outline_of(sheet, case.mount))
    up_to = float(case.found.up_to.base)
    path = at_mount(sheet.mounts, case.mount, "ranges", case.number, "up_to")
    if up_to > end:
        yield SheetFinding(
            "range-past-reach",
            path,
            f"{named(case.mount, case.found)}: {why} from {end:.0f} deg;"
            f" {look_at('the opening and both places along')}",
        )
    elif min(end, 180.0) - up_to > REACH_SLACK_DEG:
        last = case.number == len(case.mount.ranges) - 1
        following = None if last else case.mount.ranges[case.number + 1].up_to
        # A last range may stop where the maker pleases; one before another must not leave a gap.
        if following is not None and float(following.base) - up_to > REACH_SLACK_DEG:
            yield SheetFinding(
                "range-stops-short",
                path,
                f"{named(case.mount, case.found)}: the arm would go on to {end:.0f} deg, and the next"
                f" range is far; {look_at('the opening', case.found.up_to)}",
            )


def _power(sheet: Sheet, case: _Case) -> Iterator[SheetFinding]:
    size = sheet.sizes[0]
    curve = moments(
        Arm(case.geometry),
        spring_of(size),
        preset=math.radians(float(case.arm.preset_turn.base)),
    )
    less = DEMANDS[max(size - 1, 1)].close_0_4_least
    has = least_closing(curve, 0, 4)
    if has is None or has >= CLOSED_FLOOR * less:
        return
    path = at_mount(sheet.mounts, case.mount, "ranges", case.number, "body_along")
    yield SheetFinding(
        "power-floor",
        path,
        f"{named(case.mount, case.found)}: at EN size {size} it would close with {has:.1f} N m near"
        f" the latch, too little for any leaf; {look_at('both places along')}",
    )
