from guide.trade.tune import *
from guide.trade.tune import Advice, Caps, Move, Reading
from guide.trade.tune_nominal import Leaf, nominal
from guide.trade.tune_valve import ValveCurve, Weighed
from guide.trade.sheet import SIZES
P = dict(aim1=6.0, aim2=1.3, margin=0.2, lmin=0.0, lslow=3.0, step_up=2, fmargin=.97, latchfirst=0, guard=0.30, hold=0)

class Adviser:
    def __init__(self, leaf, size, limit=None, watch=WATCH, caps=Caps(), p=None):
        self.p = {**P, **(p or {})}
        self.leaf, self.size, self.limit, self.watch, self.caps = leaf, size, limit, watch, caps
        n = nominal(leaf, size)
        self.sweep = ValveCurve(n.sweep, watch)
        self.latch = ValveCurve(n.latch, watch)
        self.tests = 0
        self.too_heavy = 99.0
        self.fails = []   # (size, latch at)
        self.slams = []
        self.fast_limit = 4.0

    def next(self, r):
        p = self.p
        self.tests += 1
        n = nominal(self.leaf, self.size)
        heavy = self.limit is not None and r.force is not None and r.force > self.limit
        if heavy: self.too_heavy = min(self.too_heavy, self.size)
        if r.s_12_0 is not None and r.latched:
            self.latch.add(r.s_12_0)
        lw = self.latch.weighed()
        t2 = lw.seconds(self.latch.at)
        if r.s_90_12 is not None:
            self.sweep.add(r.s_90_12 - n.shared * (r.s_12_0 if r.s_12_0 is not None and r.latched else t2))
        sw = self.sweep.weighed()
        if not r.latched: self.fails.append((self.size, self.latch.at))
        if r.slammed: self.slams.append((self.size, self.latch.at))
        m = p['margin']
        est = sw.seconds(self.sweep.at) + n.shared * t2
        ok = (not heavy and r.latched and not r.slammed and r.s_90_12 is not None
              and SHORTEST + m <= r.s_90_12 <= LONGEST - m)
        if ok and p['hold'] and not (SHORTEST + p['hold'] <= est <= LONGEST - p['hold']): ok = False
        edge = self.leaf.width * 0.2094 / t2
        fast = r.latched and not r.slammed and edge > p['guard'] 
        if ok and not fast:
            return Advice((), True, False, "done")
        if self.tests >= 8:
            return Advice((), False, True, "eight")
        if heavy:
            return self._weaker(r)
        if not r.latched:
            return self._not_latched(r, sw, lw, n)
        return self._valves(r, sw, lw, n, slower=r.slammed or fast)

    def _spring(self, halves, why):
        old, new = nominal(self.leaf, self.size), nominal(self.leaf, self.size + halves / 2)
        self.sweep.rescale(new.sweep / old.sweep)
        self.latch.rescale(new.latch / old.latch)
        self.size += halves / 2
        return Advice((Move('spring', 'stronger' if halves > 0 else 'weaker', abs(halves)),), False, False, why)

    def _force_at(self, r, size):
        a, b = nominal(self.leaf, self.size), nominal(self.leaf, size)
        return r.force + b.force - a.force

    def _weaker(self, r):
        size = self.size - .5
        if size < 1 : return Advice((), False, True, 'too heavy at weakest')
        while size > 1 and self._force_at(r, size) > self.p['fmargin'] * self.limit: size -= .5
        failed = [s for s, _ in self.fails if s >= size]
        # do not go below where it is known to fail with everything tried
        return self._spring(round((size - self.size) * 2), 'too heavy')

    def _room(self, r):
        size, best = self.size, 0
        while size + .5 <= 7:
            size += .5
            if size >= self.too_heavy: break
            if self.limit is not None and r.force is not None and self._force_at(r, size) > self.p['fmargin'] * self.limit: break
            best += 1
        return best

    def _not_latched(self, r, sw, lw, n):
        room = self._room(r)
        slammed = any(s == self.size and at <= self.latch.at + .3 for s, at in self.slams)
        if room and (not self.p['latchfirst'] or slammed or sum(1 for s, _ in self.fails if s == self.size) > self.p['latchfirst'] or r.s_90_12 is None):
            return self._spring(min(room, self.p['step_up']), 'no latch')
        if r.s_90_12 is None: return Advice((), False, True, 'stalls above 12')
        if slammed: return Advice((), False, True, 'slams or fails')
        return self._valves(r, sw, lw, n, open_latch=True)

    def _valves(self, r, sw, lw, n, slower=False, open_latch=False):
        caps = self.caps
        at = self.latch.at
        if open_latch:
            step = caps.latch if caps.latch == 1 else self._free_open(lw)
        elif slower:
            step = -1 if caps.latch == 1 else round(4 * (lw.nearest(1.5 * lw.seconds(at), [at - q / 4 for q in range(1, caps.latch + 1)]) - at))
            if any(s == self.size and f >= at + step/4 for s, f in self.fails):
                room = self._room(r)
                if room: return self._spring(1, 'slams or fails')
                if step < -1: step = -1
                else: return Advice((), False, True, 'slams or fails')
        else:
            step = 0
            t2 = lw.seconds(at)
            if t2 > self.p['lslow']: step = 1
        aim2 = lw.seconds(at + step / 4)
        want = max(2.0, self.p['aim1'] - n.shared * aim2)
        x = self.sweep.at
        best = sw.nearest(want, [x + q / 4 for q in range(-caps.sweep, caps.sweep + 1) if abs(x + q / 4) <= 4])
        q = round(4 * (best - x))
        if q == 0 and step == 0:
            # the reading is out but the fit says stay: move a quarter the way the reading says
            if r.s_90_12 is not None:
                if r.s_90_12 > self.p['aim1']: q = 1
                else: q = -1
        moves = []
        if q: moves.append(Move('sweep', 'faster' if q > 0 else 'slower', abs(q)))
        if step: moves.append(Move('latch', 'faster' if step > 0 else 'slower', abs(step)))
        self.sweep.at += q / 4
        self.latch.at += step / 4
        return Advice(tuple(moves), False, False, 'valves')

    def _free_open(self, lw):
        at = self.latch.at
        tries = sum(1 for s, _ in self.fails if s == self.size)
        aim = 1.0 if tries <= 1 else 0.7 * self.leaf.width
        return max(1, round(4 * (lw.nearest(aim, [at + q / 4 for q in range(1, 11)]) - at)))
