from guide.trade.tune import *
from guide.trade.tune import Advice, Caps, Move
from guide.trade.tune_nominal import nominal
from guide.trade.tune_valve import ValveCurve

P = dict(
    aim1=6.0,
    margin=0.2,
    lslow=3.0,
    step_up=2,
    fmargin=0.97,
    guard=0.33,
    hold=0.2,
    near=0.95,
    sure=1, gap=.63,
    fine=1, relax=6,
)


class Adviser:
    def __init__(self, leaf, size, limit=None, watch=WATCH, caps=Caps(), p=None):
        self.p = {**P, **(p or {})}
        self.leaf, self.size, self.limit, self.watch, self.caps = leaf, size, limit, watch, caps
        n = nominal(leaf, size)
        self.sweep = ValveCurve(n.sweep, watch)
        self.latch = ValveCurve(n.latch, watch)
        self.tests = 0
        self.forces = []
        self.too_heavy = 99.0
        self.fails = []  # (size, latch at)
        self.slams = []

    def next(self, r):
        p = self.p
        self.tests += 1
        n = nominal(self.leaf, self.size)
        heavy = self.limit is not None and r.force is not None and r.force > self.limit
        if heavy:
            self.too_heavy = min(self.too_heavy, self.size)
        if r.s_12_0 is not None:
            self.latch.add(r.s_12_0)
        lw = self.latch.weighed()
        t2 = lw.seconds(self.latch.at)
        if r.s_90_12 is not None:
            self.sweep.add(max(0.5, r.s_90_12 - n.shared * t2))
        sw = self.sweep.weighed()
        if not r.latched:
            self.fails.append((self.size, self.latch.at))
        if r.slammed:
            self.slams.append((self.size, self.latch.at))
        self.n, self.sw, self.lw, self.r, self.t2 = n, sw, lw, r, t2
        est = sw.seconds(self.sweep.at) + n.shared * t2
        m, hold = p["margin"], p["hold"]
        timed = (
            r.s_90_12 is not None
            and SHORTEST + m <= r.s_90_12 <= LONGEST - m
            and SHORTEST + hold <= est <= LONGEST - hold
        )
        at = self.latch.at
        unsure = (
            p["sure"]
            and r.latched
            and not r.slammed
            and not self.slammed_by(at + 0.25)
            and any(
                s == self.size and at - 0.13 - 0.25 * p["sure"] <= f <= at for s, f in self.fails
            )
        )
        fast = (
            r.latched
            and not r.slammed
            and self.leaf.width * 0.2094 / t2 > p["guard"]
            and not self.failed_by(at - 0.25)
        )
        if not heavy and r.latched and not r.slammed and timed and not fast and not unsure:
            return Advice((), True, False, "done")
        if self.tests >= 8:
            if not heavy and r.latched and not r.slammed and timed:
                return Advice((), True, False, "done")
            return Advice((), False, True, "eight")
        if heavy:
            return self._weaker()
        if not r.latched:
            return self._not_latched()
        if r.slammed:
            return self._slammed()
        if unsure:
            return self._valves(0.25)
        if fast:
            return self._valves(-0.25)
        return self._valves(self._open() if t2 > p["lslow"] else 0)

    def slammed_by(self, at):
        return any(s == self.size and f <= at + 0.01 for s, f in self.slams)

    def failed_by(self, at):
        return any(s == self.size and f >= at - 0.01 for s, f in self.fails)

    def _spring(self, halves, why):
        old, new = nominal(self.leaf, self.size), nominal(self.leaf, self.size + halves / 2)
        self.sweep.rescale(new.sweep / old.sweep)
        self.latch.rescale(new.latch / old.latch)
        self.size += halves / 2
        moves = (Move("spring", "stronger" if halves > 0 else "weaker", abs(halves)),)
        if not self.caps.spring_alone:
            self.n, self.sw, self.lw = new, self.sweep.weighed(), self.latch.weighed()
            moves += self._valves(0).moves
        return Advice(moves, False, False, why)

    def _force_at(self, size):
        r = self.r
        a, b = nominal(self.leaf, self.size).force, nominal(self.leaf, size).force
        scale = r.force / a
        return r.force + (b - a) * (min(1, scale) if b < a else max(1, scale))

    def _weaker(self):
        size = self.size - 0.5
        if size < 1:
            return Advice((), False, True, "too heavy at weakest")
        while size > 1 and self._force_at(size) > self.p["fmargin"] * self.limit:
            size -= 0.5
        return self._spring(round((size - self.size) * 2), "too heavy")

    def _room(self):
        size, best = self.size, 0
        while size + 0.5 <= 7:
            size += 0.5
            if size >= self.too_heavy:
                break
            if (
                self.limit is not None
                and self.r.force is not None
                and self._force_at(size) > self.p["fmargin"] * self.limit
            ):
                break
            best += 1
        return best

    def _not_latched(self):
        room = self._room()
        if room:
            return self._spring(min(room, self.p["step_up"]), "no latch")
        if self.r.s_90_12 is None:
            return Advice((), False, True, "stalls above 12")
        at = self.latch.at
        if self.slammed_by(at + 0.26):
            if self.slammed_by(at + 0.13):
                return Advice((), False, True, "slams or fails")
            return self._valves(0.125)
        return self._valves(self._open())

    def _slammed(self):
        at = self.latch.at
        if self.failed_by(at - 0.26):
            if not self.failed_by(at - 0.13):
                return self._valves(-0.125)
            room = self._room()
            if room:
                return self._spring(1, "slams or fails")
            return Advice((), False, True, "slams or fails")
        slow = 1.0 * self.leaf.width
        if self.caps.latch > 2:
            want = (
                self.lw.nearest(
                    max(1.0, 1.5 * self.lw.seconds(at)), [at - q / 4 for q in range(1, 11)]
                )
                - at
            )
        else:
            want = -0.5 if self.lw.seconds(at - 0.5) < 0.8 * self.leaf.width else -0.25
            want = max(want, -self.caps.latch / 4)
        while self.failed_by(at + want) and want < -0.25:
            want += 0.25
        return self._valves(want)

    def _open(self):
        at = self.latch.at
        w = self.leaf.width
        if self.caps.latch > 2:
            tries = sum(1 for s, _ in self.fails if s == self.size)
            aim = 1.0 if tries <= 1 else 0.7 * w
            want = max(0.25, self.lw.nearest(aim, [at + q / 4 for q in range(1, 11)]) - at)
        else:
            want = 0.5 if self.lw.seconds(at + 0.5) > self.p["near"] * w else 0.25
            want = min(want, self.caps.latch / 4)
        while want > 0.25 and self.slammed_by(at + want):
            want -= 0.25
        return want

    def _valves(self, step):
        caps = self.caps
        at = self.latch.at
        want = max(2.0, self.p["aim1"] - self.n.shared * self.lw.seconds(at + step))
        x = self.sweep.at
        spots = [x + q / 4 for q in range(-caps.sweep, caps.sweep + 1) if abs(x + q / 4) <= 4]
        best = self.sw.nearest(want, spots)
        if self.p["fine"] and abs(self.sw.seconds(best) - want) > 0.5:
            finer = self.sw.nearest(want, [best - 0.125, best, best + 0.125])
            if abs(finer - x) <= caps.sweep / 4:
                best = finer
        q = best - x
        if q == 0 and step == 0 and self.r.s_90_12 is not None:
            q = 0.125 if self.sw.seconds(x) > want else -0.125
        self.sweep.at += q
        self.latch.at += step
        moves = []
        if q:
            moves.append(Move("sweep", "faster" if q > 0 else "slower", abs(q) * 4))
        if step:
            moves.append(Move("latch", "faster" if step > 0 else "slower", abs(step) * 4))
        return Advice(tuple(moves), False, False, "valves")
