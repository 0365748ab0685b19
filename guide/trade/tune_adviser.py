"""What to turn next so that a door closes gently, surely and lightly enough.

The adviser is told of every test, oldest first, and takes it that its last advice was carried out. It
learns what a turn does on this door from the door's own swings. Both valves may move after one test,
since the two are read from different parts of one swing; the spring moves alone.
"""

import math
from collections.abc import Iterable

from guide.dataclass import dataclass
from guide.trade import tune_words as words
from guide.trade.swing_valves import MOST_TURNS
from guide.trade.tune import LONGEST, MOST_TESTS, SHORTEST, Advice, Caps, Move, Reading, Travel
from guide.trade.tune_latching import Latching, share_from_near
from guide.trade.tune_nominal import Leaf, Nominal, nominal
from guide.trade.tune_valve import ValveCurve, Weighed

WATCH = 0.4
"""Error of a stopwatch in a person's hand [s]; ours, and on the safe side."""

USUAL_COUNTS = 2
"""For how many readings that usual error counts beside this person's own."""

AIM = 6.0
"""From 90 to 12 deg [s], the middle of what is allowed."""

GUARD = 0.2
"""How far above the shortest time the door must seem to be [s]: that limit is the law's, the other ours,
and a door that is slowed step by step is always judged from the fast side."""

SURE, LATE_SURE, LAST_SURE = 0.88, 0.82, 0.65
"""Chance, by all readings together, that the time is right, from which the door is left alone: before
the test `LATE`, from it on, and at the last, when settling is worth more."""

EDGE = 0.35
"""A time this near to a limit [s] is not right, whatever the readings before it lead to expect; at the
last test it may be."""

MIDDLE = 0.25
"""A time this near to `AIM` [s] is right, whatever the readings before it lead to expect."""

LATE = 6

OTHER = 0.35
"""Most that the latch valve is taken to have of 90 to 12 deg, as a share: where the last 12 deg drag, seal
and air slow them, not the valve."""

LATCH_MARGIN, LAST_MARGIN = 1.2, 0.9
"""`Latching.margin` from which it is left alone, before the last test and at it."""

ALL_BUT_ALL = 0.85
"""`share_from_near` below which a door that never failed is doubted."""

SLOW_LATCH = 3.0
"""A last 12 deg longer than this [s] is quickened, before a draught or the cold stops it."""

FAST_EDGE, FAST_AFTER_SLAM = 0.30, 0.18
"""Mean speed of the latch edge over the last 12 deg [m/s] that is too near a slam, and where it
slammed a quarter turn before."""

NEAR_SLAM, NEAR_STALL = 0.7, 1.1
"""Seconds for the last 12 deg, for each metre of width: opening the latch valve to less than the first, or
closing it to more than the second, is done by quarter turns."""

STRONGER = 3
"""Half sizes the spring is raised at one go."""

LIGHTEN_TO = 0.985
"""Share of the force limit a new spring setting is chosen for."""

GAUGE = 0.035
"""A force above the limit by more than this share is no error of the gauge; of a mean of some, by less."""

ADDED = 0.7
"""A weaker spring takes off more than its share where air helps to open; how far that is believed, 0 to 1."""

LIKELY = 0.25
"""Chance of the right time below which the sweep valve is turned towards it, not for it."""

WINDOW = 0.55
"""Half of what a turn of the sweep valve is aimed into [s]."""

EIGHTH_GAINS = 0.04
"""An eighth of a turn is advised where quarters are worse by this chance."""

_TWELVE = 0.20944
"""12 deg [rad]."""

_QUARTER = 0.25
"""[turns]"""


@dataclass(frozen=True, slots=True)
class _Seen:
    """One test, with what all tests so far make of it."""

    reading: Reading
    nominal: Nominal
    sweep: Weighed
    latch: Weighed
    last: float
    """The last 12 deg [s]."""
    time: float
    """From 90 to 12 deg [s]."""
    shared: float
    """What the latch valve takes of `time`, for each second of `last`."""

    def other(self, last: float) -> float:
        """What of `time` is not the sweep valve's, where the last 12 deg take `last` [s]."""
        return self.shared * last + self.nominal.free


class Adviser:
    """One door being tuned; `next` takes a test and gives what to do."""

    def __init__(
        self,
        leaf: Leaf,
        size: float,
        limit: float | None = None,
        caps: Caps | None = None,
        travel: Travel | None = None,
        most_tests: int | None = MOST_TESTS,
    ) -> None:
        """`size` is the EN size the spring stands at before the first test; `limit` the most it may
        take to open [N], None where the force is not judged. `most_tests` is None where the caller
        counts them."""
        first = nominal(leaf, size)
        self.leaf, self.size, self.limit = leaf, size, limit
        self.caps = caps or Caps()
        self.travel = travel or Travel()
        self.most_tests = most_tests
        self.tests = 0
        self._sweep = ValveCurve(first.sweep, WATCH)
        self._latch = ValveCurve(first.latch, WATCH)
        self._latching = Latching()
        self._forces: list[tuple[float, float]] = []
        self._been = {"sweep": (0.0, 0.0), "latch": (0.0, 0.0)}
        """The furthest closed and the furthest open that each valve was advised to [turns]."""
        self._raised = False
        """Whether the last move made the spring stronger."""

    def next(self, reading: Reading) -> Advice:
        """Take one test, and say what to turn before the next or that there is nothing to turn."""
        self.tests += 1
        now = self._learn(reading)
        heavy, right = self._is_heavy(reading), self._time_is_right(now)
        closes = reading.latched and not reading.slammed
        sure = not closes or self._is_sure_to_latch(now)
        if closes and sure and right and not heavy and not self._is_near_slam(now):
            return Advice((), done=True, impossible=False, reason=words.done(now.time))
        if self.most_tests is not None and self.tests >= self.most_tests:
            return _impossible(words.too_many())
        if heavy and (self.size > self.travel.sizes[0] or self._is_surely_heavy()):
            return self._lighten(now)
        if not reading.latched:
            return self._make_it_latch(now)
        if reading.slammed:
            return self._soften(now)
        if not sure:
            return self._make_it_sure(now)
        if self._is_near_slam(now):
            return self._turn(now, -_QUARTER, words.near_slam())
        if heavy and right:
            return Advice((), done=False, impossible=False, reason=words.measure_again())
        slow = now.last > SLOW_LATCH
        return self._turn(now, self._opening(now) if slow else 0.0, "")

    def _learn(self, reading: Reading) -> _Seen:
        self._latching.add(self.size, self._latch.at, reading)
        if reading.force is not None:
            self._forces.append((self.size, reading.force))
        if reading.s_12_0 is not None:
            self._latch.add(reading.s_12_0)
        self._sweep.watch = self._latch.watch = self._watch_error()
        latch = self._latch.weighed()
        last = latch.seconds(self._latch.at)
        usual = nominal(self.leaf, self.size)
        # The latch valve takes over before 12 deg, and setting off takes time: neither is the sweep valve's.
        first, shared = reading.s_90_12, usual.shared
        if first is not None:
            shared = min(shared, OTHER * first / last)
            self._sweep.add(max(first - shared * last - usual.free, 0.1 * first))
        sweep = self._sweep.weighed()
        time = sweep.seconds(self._sweep.at) + shared * last + usual.free
        return _Seen(reading, usual, sweep, latch, last, time, shared)

    def _watch_error(self) -> float:
        """Error of this person's watch [s]: what the last 12 deg told apart with nothing turned that they
        depend on, and the usual error for as many readings as `USUAL_COUNTS`."""
        squares, count = USUAL_COUNTS * WATCH**2, float(USUAL_COUNTS)
        by_place: dict[float, list[float]] = {}
        for at, seconds in self._latch.seen:
            by_place.setdefault(at, []).append(seconds)
        for times in by_place.values():
            mean = _mean(times)
            squares += sum((time - mean) ** 2 for time in times)
            count += len(times) - 1
        return math.sqrt(squares / count)

    def _time_is_right(self, now: _Seen) -> bool:
        measured = now.reading.s_90_12
        edge = 0.0 if self._is_last else EDGE
        if measured is None or not SHORTEST + edge <= measured <= LONGEST - edge:
            return False
        if abs(measured - AIM) <= MIDDLE:
            return True
        sure = SURE if self.tests < LATE else LAST_SURE if self._is_last else LATE_SURE
        other = now.other(now.last)
        low, high = (max(0.1, limit - other) for limit in (SHORTEST + GUARD, LONGEST))
        return now.sweep.chance(low, high, self._sweep.at) >= sure

    @property
    def _is_last(self) -> bool:
        return self.tests >= MOST_TESTS

    def _is_heavy(self, reading: Reading) -> bool:
        if self.limit is None or reading.force is None:
            return False
        here = self._forces_here()
        return reading.force > self.limit and (len(here) == 1 or _mean(here) > self.limit)

    def _is_surely_heavy(self) -> bool:
        """Whether it is no error of the gauge; matters where the spring can be no weaker."""
        here = self._forces_here()
        return self.limit is not None and (
            _mean(here) > self.limit * (1 + GAUGE / math.sqrt(len(here)))
        )

    def _forces_here(self) -> list[float]:
        return [force for size, force in self._forces if size == self.size]

    def _is_near_slam(self, now: _Seen) -> bool:
        at = self._latch.at
        if self._is_last or self._fails_at(at - _QUARTER):
            return False
        if self._latching.stops_if_slower(self.size, now.latch, now.last):
            return False
        edge = self.leaf.width * _TWELVE / now.last
        return edge > (FAST_AFTER_SLAM if self._slams_at(at + _QUARTER) else FAST_EDGE)

    def _is_sure_to_latch(self, now: _Seen) -> bool:
        """Whether it latches by enough to do so from part way too, or can be made no surer."""
        at = self._latch.at
        if self._latching.part_way or self._slams_at(at + _QUARTER / 2):
            return True
        margin = self._margin(now, at)
        if margin is None:
            return self._share_from_near(now, at) > ALL_BUT_ALL or not self._room(now)
        return margin >= (LAST_MARGIN if self._is_last else LATCH_MARGIN)

    def _margin(self, now: _Seen, at: float) -> float | None:
        return self._latching.margin(self.size, at, now.latch, self._share_from_near(now, at))

    def _share_from_near(self, now: _Seen, at: float) -> float:
        here = self._forces_here()
        force = _mean(here) if here else None
        return share_from_near(self.leaf, now.nominal, force, now.latch.seconds(at))

    def _make_it_sure(self, now: _Seen) -> Advice:
        """By half a size where there is room for more, else by the least turn of the latch valve."""
        at, eighth = self._latch.at, _QUARTER / 2
        if self._room(now) > 1 or self._margin(now, at) is None:
            return self._set_spring(self.size + 0.5, words.make_sure())
        enough = (self._margin(now, at + eighth) or 0.0) >= LATCH_MARGIN
        least = enough or self._slams_at(at + _QUARTER)
        return self._turn(now, eighth if least else _QUARTER, words.make_sure())

    def _fails_at(self, at: float) -> bool:
        return self._latching.fails_at(self.size, at)

    def _slams_at(self, at: float) -> bool:
        return self._latching.slams_at(self.size, at)

    def _lighten(self, now: _Seen) -> Advice:
        assert self.limit is not None
        if self.size <= self.travel.sizes[0]:
            return _impossible(words.too_heavy())
        size = self.size - 0.5
        while size > self.travel.sizes[0] and self._force_at(size, now) > LIGHTEN_TO * self.limit:
            size -= 0.5
        return self._set_spring(size, words.lighten())

    def _force_at(self, size: float, now: _Seen) -> float:
        """Force to expect at another size [N].

        The ordinary door's, scaled; a weaker spring takes off more than its share, since air that helps
        to open does not change with it.
        """
        force, usual = now.reading.force or 0.0, now.nominal.force
        change, scale = nominal(self.leaf, size).force - usual, force / usual
        if change < 0:
            scale = ADDED + (1 - ADDED) * min(1.0, scale)
        return force + change * scale

    def _room(self, now: _Seen) -> int:
        """Half sizes the spring may be raised by before it is too heavy to open."""
        known = [
            size for size, force in self._forces if self.limit is not None and force > self.limit
        ]
        size, room = self.size + 0.5, 0
        while size <= self.travel.sizes[1] and size < min(known, default=99.0):
            judged = self.limit is not None and now.reading.force is not None
            if judged and self._force_at(size, now) > LIGHTEN_TO * (self.limit or 0.0):
                break
            size, room = size + 0.5, room + 1
        return room

    def _make_it_latch(self, now: _Seen) -> Advice:
        at, room = self._latch.at, self._room(now)
        stops_high = now.reading.s_90_12 is None
        open_first = self._raised and now.last > NEAR_SLAM * self.leaf.width and not stops_high
        if room and not (open_first and not self._slams_at(at + _QUARTER)):
            return self._set_spring(self.size + min(room, STRONGER) / 2, words.strengthen())
        if stops_high:
            return _impossible(words.stops_high())
        if not self._slams_at(at + _QUARTER):
            return self._turn(now, self._opening(now), words.open_latch())
        if not self._slams_at(at + _QUARTER / 2):
            return self._turn(now, _QUARTER / 2, words.open_latch())
        return _impossible(words.slams_or_stops())

    def _soften(self, now: _Seen) -> Advice:
        at = self._latch.at
        if self._latching.was_gentle(self.size, at - 1.2 * _QUARTER, at):
            return self._turn(now, -_QUARTER / 2, words.slammed())
        if not self._fails_at(at - _QUARTER):
            return self._turn(now, self._closing(now), words.slammed())
        if not self._fails_at(at - _QUARTER / 2):
            return self._turn(now, -_QUARTER / 2, words.slammed())
        if self._room(now):
            return self._set_spring(self.size + 0.5, words.strengthen())
        return _impossible(words.slams_or_stops())

    def _opening(self, now: _Seen) -> float:
        """Turns to open the latch valve by: the most that is not expected to bring it near a slam.

        A leaf that stops is far from slamming.
        """
        at = self._latch.at
        least = 0.0 if now.reading.s_12_0 is None else NEAR_SLAM * self.leaf.width
        fit = [
            quarters
            for quarters in range(1, self.caps.latch + 1)
            if now.latch.seconds(at + quarters * _QUARTER) >= least
            and not self._slams_at(at + quarters * _QUARTER)
            and not self._latching.was_gentle(self.size, at, at + quarters * _QUARTER)
        ]
        return max(fit, default=self.caps.latch_near) * _QUARTER

    def _closing(self, now: _Seen) -> float:
        """Turns, below zero, to close the latch valve by: the most that leaves it fast enough to latch.

        A leaf that slams again is far from stopping.
        """
        at, most = self._latch.at, NEAR_STALL * self.leaf.width
        if now.reading.slammed and self._latching.slams_again(self.size):
            most *= 2
        fit = [
            quarters
            for quarters in range(1, self.caps.latch + 1)
            if now.latch.seconds(at - quarters * _QUARTER) <= most
            and not self._fails_at(at - quarters * _QUARTER)
        ]
        return -max(fit, default=self.caps.latch_near) * _QUARTER

    def _turn(self, now: _Seen, latch: float, why: str) -> Advice:
        """Turn the latch valve by `latch` [turns], and the sweep valve to whatever then suits."""
        latch = self._as_far(latch)
        last = now.latch.seconds(self._latch.at + latch)
        at = self._sweep.at
        sweep = self._sweep_to(now.sweep, _sweep_aim(now.other(last))) - at
        if sweep == 0 and latch == 0:
            sweep = _QUARTER / 2 if now.time > AIM else -_QUARTER / 2
            if not self._has("sweep", at + sweep):
                return _impossible(words.no_turns_left())
        self._sweep.at += sweep
        self._latch.at += latch
        self._note_been()
        moves = (*_valve("sweep", sweep), *_valve("latch", latch))
        expected = now.sweep.seconds(at + sweep) + now.other(last)
        self._raised = False
        reason = words.turned(why, now.reading.s_90_12, expected if sweep else None)
        return Advice(moves, done=False, impossible=False, reason=reason)

    def _sweep_to(self, law: Weighed, aim: float) -> float:
        """Where to turn the sweep valve for `aim` [s]: by quarters, by an eighth where that is likelier.

        Where no place is likely, to the one expected to miss by the least.
        """
        at, low, high = self._sweep.at, max(0.2 * aim, aim - WINDOW), aim + WINDOW
        quarters, eighths = (
            self._in_reach(
                at + step * _QUARTER / parts for step in _both_ways(parts * self.caps.sweep)
            )
            for parts in (1, 2)
        )
        nearest, likeliest = law.nearest(aim, quarters), law.likeliest(low, high, eighths)
        chance = law.chance(low, high, likeliest)
        if chance < LIKELY or law.chance(low, high, nearest) > chance - EIGHTH_GAINS:
            return nearest
        return likeliest

    def _in_reach(self, places: Iterable[float]) -> list[float]:
        return [place for place in places if abs(place) <= MOST_TURNS and self._has("sweep", place)]

    def _has(self, valve: str, place: float) -> bool:
        """Whether the valve's turns by the sheet, wherever they began, can hold all places it was at
        and this one."""
        turns = self.travel.sweep if valve == "sweep" else self.travel.latch
        closed, opened = self._been[valve]
        return turns is None or max(opened, place) - min(closed, place) <= turns

    def _as_far(self, latch: float) -> float:
        """The turn of the latch valve, or as much of it as the valve has left."""
        while latch and not self._has("latch", self._latch.at + latch):
            latch -= _QUARTER / 2 if latch > 0 else -_QUARTER / 2
        return latch

    def _note_been(self) -> None:
        for valve, at in (("sweep", self._sweep.at), ("latch", self._latch.at)):
            closed, opened = self._been[valve]
            self._been[valve] = (min(closed, at), max(opened, at))

    def _set_spring(self, size: float, why: str) -> Advice:
        old, new = nominal(self.leaf, self.size), nominal(self.leaf, size)
        halves = round((size - self.size) * 2)
        self._sweep.rescale(new.sweep / old.sweep)
        self._latch.rescale(new.latch / old.latch)
        self.size = size
        direction = "stronger" if halves > 0 else "weaker"
        moves: tuple[Move, ...] = (Move("spring", direction, abs(halves)),)
        if not self.caps.spring_alone:
            sweep, latch = self._sweep.weighed(), self._latch.weighed()
            last = latch.seconds(self._latch.at)
            to = self._sweep_to(sweep, _sweep_aim(new.shared * last + new.free))
            moves += _valve("sweep", to - self._sweep.at)
            self._sweep.at = to
            self._note_been()
        self._raised = halves > 0
        return Advice(moves, done=False, impossible=False, reason=why)


def _sweep_aim(other: float) -> float:
    """What the sweep valve's own part should last [s], `other` of the whole not being its."""
    return max(0.3 * AIM, AIM - other)


def _both_ways(most: int) -> list[int]:
    """The steps to `most` either way, no step first so that it wins a tie."""
    return [0, *(sign * step for step in range(1, most + 1) for sign in (-1, 1))]


def _valve(part: str, turns: float) -> tuple[Move, ...]:
    if turns == 0:
        return ()
    return (Move(part, "faster" if turns > 0 else "slower", abs(turns) / _QUARTER),)


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)


def _impossible(reason: str) -> Advice:
    return Advice((), done=False, impossible=True, reason=reason)
