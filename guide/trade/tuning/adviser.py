"""What to turn next so that a door closes gently, surely and lightly enough.

The adviser receives every test, oldest first, and assumes that its last advice was carried out. Its order is a
foreman's: a spring too heavy to open first, since it moves all else; then the latch valve; the spring stronger only
where the latch valve does not do; the sweep valve last, or along with the latch valve, since the two are read from
different parts of one swing. Along with a spring too heavy goes a valve that a weaker spring puts further wrong: the
force shows what the spring did, and the times what the valve did. Whatever is within the limits is left alone; a time
near one of them is measured once more. What a turn does on this door it learns from the door's own swings: the valves'
times (`valve_times`), the force (`opening_force`) and how far the watch strays (`stopwatch`).
"""

import math
from dataclasses import dataclass, replace

from guide.trade.swing.valves import MOST_TURNS
from guide.trade.tuning import wording as words
from guide.trade.tuning.latching import Latching
from guide.trade.tuning.nominal_door import Nominal, NominalLeaf, nominal
from guide.trade.tuning.opening_force import Forces
from guide.trade.tuning.reach import reaches
from guide.trade.tuning.readings import (
    GUARD,
    LONGEST,
    LONGEST_LAST,
    MOST_TESTS,
    SHORTEST,
    Advice,
    Caps,
    Move,
    Outcome,
    SwingReading,
    Travel,
)
from guide.trade.tuning.stopwatch import Stopwatch
from guide.trade.tuning.sweep_aim import AIM, sweep_aim, sweep_to
from guide.trade.tuning.valve_times import ValveCurve, ValveEstimate

WATCH = 0.3
"""Error of a stopwatch in a person's hand [s]; ours."""

ONE_TIME = (SHORTEST + 0.2, LONGEST + 0.3)
"""From 90 to 12 deg by the last test, once a valve was turned [s]; over our 7 s by what no watch in a hand can tell."""

ALL_TIMES = (SHORTEST + 0.3, LONGEST + 0.2)
"""The same by all tests together [s]; they keep clear of the law's side by more, as they know more than one."""

OTHER = 0.35
"""Most that the latch valve is assumed to have of 90 to 12 deg, as a share: where the last 12 deg drag, seal
and air slow them, not the valve."""

LATCH_GOES = 2
"""Tests without latching at one spring setting, after which the spring is tried, where it has room."""

CLEAR = 2.0
"""Errors of the watch that one time keeps clear of a limit by; the mean of more keeps clear by less (1 / sqrt(n))."""

SURE_UNTIL = 8
"""The last test that a doubt sends to another: after it, what is within `ONE_TIME` and `ALL_TIMES` is done."""

NEAR = 0.5
"""Turns of the latch valve to a slam within which a leaf that is not soft yet gets an eighth of a turn more."""

SOFT = 0.9
"""Seconds for the last 12 deg, for each metre of width, from which a leaf is soft: the latch edge's mean speed is then
0.23 m/s; ours."""

SOFT_UNTIL = 5
"""The last test at which a leaf that does not slam is made softer."""

STUCK_FROM, STUCK_TESTS, STUCK_TIME = 8, 4, 0.5
"""From that test on a door is given up whose last so many tests were alike: wrong in the same way, and each of both
times within so many seconds. A valve that changes nothing is not the fault."""

FAR_TOO_SLOW = LONGEST + 1
"""From 90 to 12 deg [s] expected at the spring that is light enough, above which the sweep valve goes along."""

BACK_GOES = 4
"""Tests without latching at one spring setting, after which it is given up for a stronger one that was gentle and is
over the force limit by little."""

OPENED_LAST = 1.5
"""What the last 12 deg are planned to take [s] where the latch valve is being opened and they take longer."""

_QUARTER, _EIGHTH = 0.25, 0.125
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

    @property
    def is_too_fast(self) -> bool:
        """From 90 to 12 deg, by the watch."""
        return self.reading.s_90_12 is not None and self.reading.s_90_12 < SHORTEST

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
    ) -> None:
        """`size` is the EN size the spring stands at before the first test; `limit` the most it may
        take to open [N], None if the force is not judged. `most_tests` is None where the caller
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
        self._forces = Forces(leaf, limit, self.travel.sizes)
        self._sweep_reach, self._latch_reach = reaches(self.travel)
        self._spent = 0.0
        """The strongest EN size known to latch nowhere without a slam; 0 for none."""
        self._near_asked = False
        self._here: list[float] = []
        """From 90 to 12 deg [s] at the present setting; an eighth of the latch valve does not show in it."""
        self._watch = Stopwatch()
        self._readings: list[SwingReading] = []
        self._as_found = True
        """Nothing was turned yet."""

    def next(self, reading: SwingReading) -> Advice:
        """Add one test, and return what to turn before the next, or that nothing needs turning."""
        self.tests += 1
        self._readings.append(reading)
        now = self._learn(reading)
        heavy = self._forces.is_heavy(self.size, reading.force)
        right = reading.latched and not reading.slammed and self._times_are_right(now)
        if right and not heavy:
            return self._leave_alone(reading)
        too_heavy = heavy and not self._can_lighten()
        if too_heavy and (right or not self._forces.is_little_over(self.size)):
            return self._too_heavy()
        if self.most_tests is not None and self.tests >= self.most_tests:
            return _end("impossible", words.too_many(self.tests))
        if self.tests >= STUCK_FROM and _are_alike(self._readings[-STUCK_TESTS:]):
            return _end("impossible", words.too_many(self.tests))
        if heavy and not too_heavy:
            return self._lighten(now)
        if reading.s_90_12 is None:
            return self._stops_high()
        if not reading.latched:
            return self._make_it_latch(now)
        if reading.slammed:
            return self._soften(now)
        if reading.s_12_0 is not None and max(reading.s_12_0, now.last) > LONGEST_LAST:
            slow = max(reading.s_12_0, now.last)
            return self._turn(now, self._opening(now), words.slow_last(slow))
        if self._is_near_slam():
            return self._turn(now, -_EIGHTH, words.near_slam())
        if self._is_doubtful(now):
            return Advice((), "", words.time_again(), "time")
        return self._turn(now, 0.0, words.time(reading.s_90_12, now.time))

    def _learn(self, reading: SwingReading) -> _TestResult:
        self._latching.add(self.size, self._latch.at, reading)
        if reading.force is not None:
            self._forces.add(self.size, reading.force)
        if reading.s_12_0 is not None:
            self._latch.add(reading.s_12_0)
            self._watch.add((self.size, self._latch.at), reading.s_12_0)
        latch = self._latch.weighed()
        last = latch.seconds(self._latch.at)
        usual = nominal(self.leaf, self.size)
        # The latch valve takes over before 12 deg, and setting off takes time: neither is the sweep valve's.
        first, shared = reading.s_90_12, usual.shared
        if first is not None:
            self._here.append(first)
            self._watch.add((self.size, self._latch.at, self._sweep.at), first)
            shared = min(shared, OTHER * first / last)
            self._sweep.add(max(first - shared * last - usual.free, 0.1 * first))
        sweep = self._sweep.weighed()
        time = sweep.seconds(self._sweep.at) + shared * last + usual.free
        return _TestResult(reading, usual, sweep, latch, last, time, shared)

    def _times_are_right(self, now: _TestResult) -> bool:
        """Clear of the limits, or after so many tests within them; and soft."""
        first, last = now.reading.s_90_12, now.reading.s_12_0
        if (
            first is None
            or last is None
            or max(last, now.last) > LONGEST_LAST
            or self._is_near_slam()
        ):
            return False
        if self.tests > SURE_UNTIL:
            return ONE_TIME[0] <= first <= ONE_TIME[1] and ALL_TIMES[0] <= now.time <= ALL_TIMES[1]
        return self._is_clear(now)

    def _is_clear(self, now: _TestResult) -> bool:
        """Of both limits, by the mean of the times at this setting and by all tests together."""
        mean = sum(self._here) / len(self._here)
        clear = CLEAR * self._watch.error() / math.sqrt(len(self._here))
        low, high = SHORTEST + clear, ONE_TIME[1] - clear
        return low <= mean <= high and (self._as_found or low <= now.time <= high)

    def _is_doubtful(self, now: _TestResult) -> bool:
        """Timed once here, within the limits and not clear of them."""
        first = now.reading.s_90_12
        if self.tests > SURE_UNTIL or len(self._here) != 1 or first is None:
            return False
        return _within(first) and (self._as_found or _within(now.time))

    def _is_near_slam(self) -> bool:
        """Slams a little further open, is not soft yet, and is not known to stop short an eighth further closed."""
        lasts = [one.s_12_0 for one in self._readings[-2:] if one.s_12_0 is not None]
        if (
            self.tests > SOFT_UNTIL
            or not lasts
            or sum(lasts) >= SOFT * self.leaf.width * len(lasts)
        ):
            return False
        at = self._latch.at
        known = self._latching.fails_at(self.size, at - _EIGHTH)
        return not known and self._latching.to_slam(self.size, at) <= NEAR

    def _leave_alone(self, reading: SwingReading) -> Advice:
        """Done, once it was let go from near by too, or that was asked for."""
        if reading.from_near or self._near_asked:
            return _end("finished", words.done(reading.s_90_12 or 0.0))
        self._near_asked = True
        return Advice((), "", words.from_near(), "near")

    def _can_lighten(self) -> bool:
        """Not where it is over by less than a gauge can tell, and a weaker spring is known not to latch here."""
        known = self._latching.fails_at(self.size - 0.5, self._latch.at)
        if known and not self._forces.is_surely_heavy(self.size):
            return False
        return self.size - 0.5 >= max(self.travel.sizes[0], self._spent + 0.5)

    def _lighten(self, now: _TestResult) -> Advice:
        """The spring, and along with it a valve that is wrong now and would be more so at the spring it needs."""
        weaker = self._forces.lighter(self.size)
        old, new = nominal(self.leaf, self.size), nominal(self.leaf, weaker)
        last = now.last * new.latch / old.latch
        sweep = self._sweep_along(now, new.sweep / old.sweep, now.shared * last + new.free)
        latch = self._latch_along(now, last)
        spring = self._set_spring(weaker, words.lighten(along=bool(sweep or latch)))
        self._stand(self._sweep.at + sweep, self._latch.at + latch)
        return replace(
            spring, moves=(*spring.moves, *_valve("sweep", sweep), *_valve("latch", latch))
        )

    def _sweep_along(self, now: _TestResult, slower: float, other: float) -> float:
        """Turns of the sweep valve, on the way to a spring by which its part of the time takes `slower` times as long.

        0 where 90 to 12 deg, `other` of it not being the valve's [s], may come right by the spring alone.
        """
        at = self._sweep.at
        expected = slower * now.sweep.seconds(at) + other
        if now.reading.s_90_12 is None or SHORTEST <= expected <= FAR_TOO_SLOW:
            return 0.0
        turn = self._sweep_place(now, sweep_aim(other) / slower) - at
        return 0.0 if turn > 0 and now.time < LONGEST else turn

    def _latch_along(self, now: _TestResult, last: float) -> float:
        """Turns to open the latch valve, on the way to a spring by which the last 12 deg take `last` [s]."""
        if now.reading.slammed or (now.reading.latched and last < LONGEST_LAST):
            return 0.0
        return self._latch_reach.as_far(self._latch.at, self._free(self.caps.latch_near * _QUARTER))

    def _too_heavy(self) -> Advice:
        """At the weakest spring that latches."""
        if not self._forces.is_surely_heavy(self.size) and self.tests < STUCK_FROM:
            return Advice((), "", words.measure_again(), "force")
        if self._forces.is_little_over(self.size):
            return _end("left-to-do", words.left_to_do())
        return _end("impossible", words.too_heavy())

    def _stops_high(self) -> Advice:
        """Before 12 deg, where the latch valve has no say."""
        room = self._forces.room(self.size)
        if not room:
            return self._give_up(words.stops_high())
        return self._set_spring(self.size + min(2, room) / 2, words.spring_before_mark())

    def _make_it_latch(self, now: _TestResult) -> Advice:
        """By the latch valve, an eighth to a quarter first, twice that where it was not near; the spring last."""
        at, room = self._latch.at, self._forces.room(self.size)
        failures = len(self._latching.failed)
        quarters = self.caps.latch_near if failures == 1 else self.caps.latch
        turns = self._latch_reach.as_far(at, self._free(quarters * _QUARTER))
        goes = 1 if self._latching.failures(self.size - 0.5) else LATCH_GOES
        stubborn = self._latching.failures(self.size) >= goes
        if room and (not turns or stubborn):
            return self._more_spring(far_off=now.reading.s_12_0 is None)
        spent = self._latching.failures(self.size) >= BACK_GOES and self._gentle_above() is not None
        if turns and at + turns <= MOST_TURNS and not spent:
            return self._turn(now, turns, words.open_latch())
        slams = self._latching.slams_at(self.size, at + _EIGHTH)
        return self._give_up(words.slams_or_stops() if slams else words.will_not_latch())

    def _free(self, turns: float) -> float:
        """As much of that turn of the latch valve as is not known to slam, or to stop short: all, half of it or
        half of that, by eighths at the least; or 0."""
        bad = self._latching.slams_at if turns > 0 else self._latching.fails_at
        while abs(turns) >= _EIGHTH:
            if not bad(self.size, self._latch.at + turns):
                return turns
            turns /= 2
        return 0.0

    def _more_spring(self, *, far_off: bool) -> Advice:
        """A whole size where it is far off: it stops short from 90 deg too; else half a size."""
        steps = min(self.caps.spring if far_off else 1, self._forces.room(self.size))
        return self._set_spring(self.size + steps / 2, words.more_spring())

    def _soften(self, now: _TestResult) -> Advice:
        """By the latch valve; where it is known to stop short an eighth further, by a spring that needs less of it."""
        turns = self._closing()
        if self._latch_reach.as_far(self._latch.at, turns):
            return self._turn(now, turns, words.slammed())
        if self._forces.room(self.size):
            return self._more_spring(far_off=False)
        return self._give_up(words.slams_or_stops())

    def _give_up(self, why: str) -> Advice:
        """Latches nowhere here; back to a stronger spring that did, where that is over the limit by little."""
        self._spent = max(self._spent, self.size)
        gentle = self._gentle_above()
        if gentle is None:
            return _end("impossible", why)
        return self._set_spring(gentle, words.back())

    def _gentle_above(self) -> float | None:
        """The next stronger spring that latched without a slam and is over the limit by little; None if none is."""
        known = min((size for size, _ in self._latching.gentle if size > self.size), default=None)
        return known if known is not None and self._forces.is_little_over(known) else None

    def _opening(self, now: _TestResult) -> float:
        """Turns to open a latch valve that drags by: half a turn far from right, else a quarter."""
        far_off = now.last > 1.5 * LONGEST_LAST
        return self._free((self.caps.latch if far_off else self.caps.latch_near) * _QUARTER)

    def _closing(self) -> float:
        """Turns, below zero, to close a latch valve that slams by: a quarter, and half a turn where it slams again.

        An eighth where it was gentle further closed.
        """
        at = self._latch.at
        if any(size == self.size and place < at for size, place in self._latching.gentle):
            return self._free(-_EIGHTH)
        again = self._latching.slams(self.size) > 1
        return self._free(-(self.caps.latch if again else self.caps.latch_near) * _QUARTER)

    def _turn(self, now: _TestResult, latch: float, why: str) -> Advice:
        """Turn the latch valve by `latch` [turns], and the sweep valve to whatever then suits."""
        if not latch and now.reading.latched and self._is_near_slam():
            latch = -_EIGHTH
        latch = self._latch_reach.as_far(self._latch.at, latch)
        last = now.latch.seconds(self._latch.at + latch)
        at = self._sweep.at
        planned = min(last, max(OPENED_LAST, 0.6 * last)) if latch > 0 else last
        expected = now.sweep.seconds(at) + now.other(planned)
        if latch and SHORTEST + GUARD <= expected <= LONGEST:
            sweep = 0.0
        else:
            sweep = self._sweep_to(now, now.other(planned)) - at
        if sweep == 0 and latch == 0:
            sweep = _EIGHTH if now.time > AIM and not now.is_too_fast else -_EIGHTH
            if not self._sweep_reach.has(at + sweep):
                return _end("impossible", words.no_turns_left())
        self._stand(at + sweep, self._latch.at + latch)
        if sweep and latch:
            why = f"{why} {words.sweep_along()}"
        return Advice((*_valve("sweep", sweep), *_valve("latch", latch)), "", why)

    def _sweep_to(self, now: _TestResult, other: float) -> float:
        """Where to turn the sweep valve, `other` of 90 to 12 deg not being its [s].

        A leaf that was too fast is never made faster, whatever was expected of an ordinary one.
        """
        at = self._sweep.at
        place = self._sweep_place(now, sweep_aim(other))
        if now.is_too_fast and (place > at or (place == at and self.tests == 1)):
            return at + self._sweep_reach.as_far(at, -self.caps.sweep * _QUARTER)
        return place

    def _sweep_place(self, now: _TestResult, aim: float) -> float:
        """Where to turn the sweep valve for `aim` [s] of its own."""

        def has(place: float) -> bool:
            return abs(place) <= MOST_TURNS and self._sweep_reach.has(place)

        return sweep_to(now.sweep, self._sweep.at, aim, self.caps.sweep, has)

    def _stand(self, sweep: float, latch: float) -> None:
        self._as_found = False
        if sweep != self._sweep.at or abs(latch - self._latch.at) > _EIGHTH:
            self._here = []
        self._sweep.at, self._latch.at = sweep, latch
        self._sweep_reach.note(sweep)
        self._latch_reach.note(latch)

    def _set_spring(self, size: float, why: str) -> Advice:
        """The spring alone, and no further than `Caps.spring` at one go."""
        most = self.caps.spring / 2
        size = min(self.size + most, max(self.size - most, size))
        old, new = nominal(self.leaf, self.size), nominal(self.leaf, size)
        halves = round((size - self.size) * 2)
        self._sweep.rescale(new.sweep / old.sweep)
        self._latch.rescale(new.latch / old.latch)
        self.size, self._as_found, self._here = size, False, []
        move = Move("spring", "stronger" if halves > 0 else "weaker", abs(halves))
        return Advice((move,), "", why)


def _within(seconds: float) -> bool:
    """From 90 to 12 deg, by the watch, and clear of the law's side."""
    return SHORTEST + GUARD <= seconds <= LONGEST


def _are_alike(tests: list[SwingReading]) -> bool:
    """Whether nothing that was turned between these tests shows in them."""
    seen = {(one.s_90_12 is None, one.s_12_0 is None, one.latched, one.slammed) for one in tests}
    firsts, lasts = [one.s_90_12 or 0.0 for one in tests], [one.s_12_0 or 0.0 for one in tests]
    return len(seen) == 1 and all(
        max(times) - min(times) <= STUCK_TIME for times in (firsts, lasts)
    )


def _valve(part: str, turns: float) -> tuple[Move, ...]:
    if turns == 0:
        return ()
    return (Move(part, "faster" if turns > 0 else "slower", abs(turns) / _QUARTER),)


def _end(outcome: Outcome, reason: str) -> Advice:
    return Advice((), outcome, reason)
