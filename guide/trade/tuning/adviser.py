"""What to turn next so that a door closes gently, surely and lightly enough.

The adviser receives every test, oldest first, and assumes that its last advice was carried out. It estimates what a
turn does on this door from the door's own swings: the valves' times (`valve_times`), the force (`opening_force`), and
by a particle filter whether it latches (`possible_doors`). Both valves may move after one test, since the two are read
from different parts of one swing; the spring moves alone.
"""

import math
from dataclasses import dataclass

from guide.trade.swing.valves import MOST_TURNS
from guide.trade.tuning import wording as words
from guide.trade.tuning.latching import Latching, share_from_near
from guide.trade.tuning.nominal_door import Nominal, NominalLeaf, nominal
from guide.trade.tuning.opening_force import Forces
from guide.trade.tuning.possible_doors import PossibleDoors
from guide.trade.tuning.reach import reaches
from guide.trade.tuning.readings import (
    LONGEST,
    MOST_TESTS,
    SHORTEST,
    Advice,
    Caps,
    Move,
    SwingReading,
    Travel,
)
from guide.trade.tuning.sweep_aim import AIM, sweep_aim, sweep_to
from guide.trade.tuning.valve_times import ValveCurve, ValveEstimate

WATCH = 0.4
"""Error of a stopwatch in a person's hand [s]; ours, and on the safe side."""

USUAL_COUNTS = 2
"""For how many readings that usual error counts beside this person's own."""

GUARD = 0.2
"""How far above the shortest time the door must seem to be [s]: that limit is the law's, the other ours,
and a door that is slowed step by step is always judged from the fast side."""

SURE, LATE_SURE, LAST_SURE = 0.9, 0.84, 0.65
"""Chance, by all readings together, that the time is right, from which the door is left alone: before
the test `LATE`, from it on, and at the last, when settling is worth more."""

EDGE = 0.35
"""A time this near to a limit [s] is not right, whatever the readings before it lead to expect; at the
last test it may be."""

MIDDLE = 0.25
"""A time this near to `AIM` [s] is right, whatever the readings before it lead to expect."""

LATE = 6

OTHER = 0.35
"""Most that the latch valve is assumed to have of 90 to 12 deg, as a share: where the last 12 deg drag, seal
and air slow them, not the valve."""

ALL_BUT_ALL = 0.97
"""`share_from_near` above which a door that never failed is not doubted."""

SURE_LATCH, LAST_SURE_LATCH = 0.9, 0.62
"""Chance that it latches from near by too, from which it is left alone, before the last test and at it."""

LARGER = 0.4
"""What a whole turn more of the latch valve is worth when it is to latch more surely, as a chance."""

SPRING_COSTS = 1.3
"""Adjustments that a change of the spring counts as."""

NEVER = 6.0
"""Adjustments that a setting which will not do counts as."""

FURTHEST = 8
"""Half sizes further than which no spring is planned."""

STUBBORN = 3
"""Tests without latching at one spring setting, after which a stronger one is tried where there is room."""

OPENED_LAST = 1.5
"""What the last 12 deg are planned to take [s] where the latch valve is being opened and they take longer."""

SLOW_LATCH = 3.0
"""A last 12 deg longer than this [s] is quickened, before a draught or the cold stops it."""

FAST_EDGE, FAST_AFTER_SLAM = 0.30, 0.18
"""Mean speed of the latch edge over the last 12 deg [m/s] that is too near a slam, and where it
slammed a quarter turn before."""

NEAR_SLAM, NEAR_STALL = 0.7, 1.1
"""Seconds for the last 12 deg, for each metre of width: opening the latch valve to less than the first, or
closing it to more than the second, is done by quarter turns."""

_TWELVE = 0.20944
"""12 deg [rad]."""

_QUARTER = 0.25
"""[turns]"""


@dataclass(frozen=True, slots=True)
class _TestResult:
    """One test, with what all tests so far make of it."""

    reading: SwingReading
    nominal: Nominal
    sweep: ValveEstimate
    latch: ValveEstimate
    last: float
    """The last 12 deg [s]."""
    time: float
    """From 90 to 12 deg [s]."""
    shared: float
    """The latch valve's part of `time` [s], for each second of `last`."""

    def other(self, last: float) -> float:
        """What of `time` is not the sweep valve's, where the last 12 deg take `last` [s]."""
        return self.shared * last + self.nominal.free


class Adviser:
    """One door being tuned; `next` adds a test and returns what to do."""

    def __init__(
        self,
        leaf: NominalLeaf,
        size: float,
        limit: float | None = None,
        caps: Caps | None = None,
        travel: Travel | None = None,
        most_tests: int | None = MOST_TESTS,
        part_way: bool | None = None,
    ) -> None:
        """`size` is the EN size the spring stands at before the first test; `limit` the most it may
        take to open [N], None if the force is not judged. `most_tests` is None where the caller
        counts them. `part_way` says whether a test is known to let the leaf go from 45 and 10 deg too;
        None if nobody said."""
        first = nominal(leaf, size)
        self.leaf, self.size, self.limit = leaf, size, limit
        self.caps = caps or Caps()
        self.travel = travel or Travel()
        self.most_tests = most_tests
        self.tests = 0
        self._sweep = ValveCurve(first.sweep, WATCH)
        self._latch = ValveCurve(first.latch, WATCH)
        self._latching = Latching(part_way=bool(part_way))
        self._likely = PossibleDoors(leaf, part_way)
        self._forces = Forces(leaf, limit, self.travel.sizes)
        self._sweep_reach, self._latch_reach = reaches(self.travel)

    def next(self, reading: SwingReading) -> Advice:
        """Add one test, and return what to turn before the next, or that nothing needs turning."""
        self.tests += 1
        now = self._learn(reading)
        heavy = self._forces.is_heavy(self.size, reading.force)
        right = self._time_is_right(now)
        closes = reading.latched and not reading.slammed
        sure = not closes or self._is_sure_to_latch(now)
        if closes and sure and right and not heavy and not self._is_near_slam(now):
            return Advice((), done=True, impossible=False, reason=words.done(now.time))
        if self.most_tests is not None and self.tests >= self.most_tests:
            return _impossible(words.too_many())
        if heavy and self._is_to_be_lightened():
            return self._lighten()
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

    def _learn(self, reading: SwingReading) -> _TestResult:
        self._latching.add(self.size, self._latch.at, reading)
        if reading.force is not None:
            self._forces.add(self.size, reading.force)
        if reading.s_12_0 is not None:
            self._latch.add(reading.s_12_0)
        self._sweep.watch = self._latch.watch = watch = self._watch_error()
        self._likely.add(self.size, self._latch.at, reading, watch)
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
        return _TestResult(reading, usual, sweep, latch, last, time, shared)

    def _watch_error(self) -> float:
        """Error of this person's watch [s], a pooled standard deviation: of repeated times of the last 12 deg at one
        setting of the latch valve, with the usual error for as many readings as `USUAL_COUNTS`."""
        squares, count = USUAL_COUNTS * WATCH**2, float(USUAL_COUNTS)
        by_place: dict[float, list[float]] = {}
        for at, seconds in self._latch.seen:
            by_place.setdefault(at, []).append(seconds)
        for times in by_place.values():
            mean = _mean(times)
            squares += sum((time - mean) ** 2 for time in times)
            count += len(times) - 1
        return math.sqrt(squares / count)

    def _time_is_right(self, now: _TestResult) -> bool:
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

    def _is_to_be_lightened(self) -> bool:
        """Not if it is over by less than the gauge's error and no weaker spring is there that may latch."""
        weaker = self.size - 0.5
        if weaker >= self.travel.sizes[0] and not self._latching.fails_at(weaker, self._latch.at):
            return True
        return self._forces.is_surely_heavy(self.size)

    def _is_near_slam(self, now: _TestResult) -> bool:
        at = self._latch.at
        if self._is_last or self._fails_at(at - _QUARTER):
            return False
        if self._latching.stops_if_slower(self.size, now.latch, now.last):
            return False
        edge = self.leaf.width * _TWELVE / now.last
        return edge > (FAST_AFTER_SLAM if self._slams_at(at + _QUARTER) else FAST_EDGE)

    def _is_sure_to_latch(self, now: _TestResult) -> bool:
        """Whether it latches by enough to do so from part way too."""
        if self._latching.part_way:
            return True
        if self._latching.never_failed and self._share_from_near(now) > ALL_BUT_ALL:
            return True
        sure = self._likely.chance(self.size, self._latch.at).latches
        settled = self._is_last or not self._can_open_more()
        return sure >= (LAST_SURE_LATCH if settled else SURE_LATCH)

    def _can_open_more(self) -> bool:
        return not self._slams_at(self._latch.at + _QUARTER / 2)

    def _share_from_near(self, now: _TestResult) -> float:
        force = self._forces.mean(self.size)
        return share_from_near(self.leaf, now.nominal, force, now.last)

    def _make_it_sure(self, now: _TestResult) -> Advice:
        """By the spring or by the least turn of the latch valve, whichever is likelier to do."""
        at, eighth = self._latch.at, _QUARTER / 2
        best = self._best_size(_QUARTER)
        if best > self.size:
            return self._set_spring(best, words.make_sure())
        turns = [turn for turn in (eighth, _QUARTER) if not self._slams_at(at + turn)]
        if not turns:
            return self._slams_or_stops()
        best_turn = max(turns, key=lambda turn: self._good(at + turn) + LARGER * turn)
        return self._turn(now, best_turn, words.make_sure())

    def _good(self, at: float) -> float:
        chance = self._likely.chance(self.size, at)
        return chance.latches * (1 - chance.slams)

    def _best_size(self, step: float) -> float:
        """The spring setting from which the fewest adjustments of the latch valve, by `step`, are to be expected."""
        left = max(1, MOST_TESTS - self.tests)
        plans = []
        for halves in range(min(self._forces.room(self.size), FURTHEST) + 1):
            size = self.size + halves / 2
            goes = self._likely.goes(size, self._latch.at, step, left - (halves > 0))
            cost = SPRING_COSTS if halves else 0.0
            plans.append((goes.mean + cost + goes.never * NEVER, size))
        if len(plans) > 1 and self._latching.failures(self.size) >= STUBBORN:
            del plans[0]
        return min(plans)[1]

    def _fails_at(self, at: float) -> bool:
        return self._latching.fails_at(self.size, at)

    def _slams_at(self, at: float) -> bool:
        return self._latching.slams_at(self.size, at)

    def _lighten(self) -> Advice:
        if self.size <= self.travel.sizes[0]:
            return _impossible(words.too_heavy())
        return self._set_spring(self._forces.lighter(self.size), words.lighten())

    def _make_it_latch(self, now: _TestResult) -> Advice:
        at = self._latch.at
        stops_high = now.reading.s_90_12 is None
        best = self._best_size(self.caps.latch * _QUARTER)
        if best > self.size:
            return self._set_spring(best, words.strengthen())
        if stops_high:
            return _impossible(words.stops_high())
        if not self._slams_at(at + _QUARTER):
            return self._turn(now, self._opening(now), words.open_latch())
        if not self._slams_at(at + _QUARTER / 2):
            return self._turn(now, _QUARTER / 2, words.open_latch())
        return self._slams_or_stops()

    def _soften(self, now: _TestResult) -> Advice:
        at = self._latch.at
        if self._latching.was_gentle(self.size, at - 1.2 * _QUARTER, at):
            return self._turn(now, -_QUARTER / 2, words.slammed())
        if not self._fails_at(at - _QUARTER):
            return self._turn(now, self._closing(now), words.slammed())
        if not self._fails_at(at - _QUARTER / 2):
            return self._turn(now, -_QUARTER / 2, words.slammed())
        if self._forces.room(self.size):
            return self._set_spring(self.size + 0.5, words.strengthen())
        return self._slams_or_stops()

    def _slams_or_stops(self) -> Advice:
        return _impossible(words.slams_or_stops(room=self._forces.room(self.size) > 0))

    def _opening(self, now: _TestResult) -> float:
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

    def _closing(self, now: _TestResult) -> float:
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

    def _turn(self, now: _TestResult, latch: float, why: str) -> Advice:
        """Turn the latch valve by `latch` [turns], and the sweep valve to whatever then suits."""
        latch = self._latch_reach.as_far(self._latch.at, latch)
        last = now.latch.seconds(self._latch.at + latch)
        at = self._sweep.at
        planned = min(last, max(OPENED_LAST, 0.6 * last)) if latch > 0 else last
        sweep = self._sweep_to(now.sweep, now.other(planned)) - at
        if sweep == 0 and latch == 0:
            sweep = _QUARTER / 2 if now.time > AIM else -_QUARTER / 2
            if not self._sweep_reach.has(at + sweep):
                return _impossible(words.no_turns_left())
        self._stand(at + sweep, self._latch.at + latch)
        moves = (*_valve("sweep", sweep), *_valve("latch", latch))
        expected = now.sweep.seconds(at + sweep) + now.other(last)
        reason = words.turned(why, now.reading.s_90_12, expected if sweep else None)
        return Advice(moves, done=False, impossible=False, reason=reason)

    def _sweep_to(self, law: ValveEstimate, other: float) -> float:
        """Where to turn the sweep valve, `other` of 90 to 12 deg not being its [s]."""

        def has(place: float) -> bool:
            return abs(place) <= MOST_TURNS and self._sweep_reach.has(place)

        return sweep_to(law, self._sweep.at, sweep_aim(other), self.caps.sweep, has)

    def _stand(self, sweep: float, latch: float) -> None:
        self._sweep.at, self._latch.at = sweep, latch
        self._sweep_reach.note(sweep)
        self._latch_reach.note(latch)

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
            to = self._sweep_to(sweep, new.shared * last + new.free)
            moves += _valve("sweep", to - self._sweep.at)
            self._stand(to, self._latch.at)
        return Advice(moves, done=False, impossible=False, reason=why)


def _valve(part: str, turns: float) -> tuple[Move, ...]:
    if turns == 0:
        return ()
    return (Move(part, "faster" if turns > 0 else "slower", abs(turns) / _QUARTER),)


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)


def _impossible(reason: str) -> Advice:
    return Advice((), done=False, impossible=True, reason=reason)
