"""Reduced ordered multi-valued decision diagrams (MDD): sets of cases, with their set operations memoized.

A case gives every variable one of its values, 0 to size - 1. A set is a number: 0 holds no case, 1 holds
all, any other is a node that branches on one variable. Equal sets have equal numbers, so that comparing
two is comparing numbers. Lee 1959 and Bryant 1986 for the idea; Kam et al. 1998 for many values.
"""

from collections.abc import Iterable, Mapping

NOTHING = 0
EVERYTHING = 1
_BOTTOM = 1 << 30
"""The level of the two sets that branch on nothing: below every variable."""


class SetsTooLarge(Exception):
    """The diagrams have grown past the stated bound; what was proved before remains proved."""


class Diagrams:
    """The manager of all diagrams over one ordered list of variables: one table of unique nodes."""

    def __init__(self, sizes: Iterable[int], bound: int) -> None:
        self.sizes = list(sizes)
        self.bound = bound
        """The most nodes; past it SetsTooLarge is raised."""
        self.levels = [_BOTTOM, _BOTTOM]
        self.kids: list[tuple[int, ...]] = [(), ()]
        self._unique: dict[tuple[int, tuple[int, ...]], int] = {}
        self._both: dict[tuple[int, int], int] = {}
        self._either: dict[tuple[int, int], int] = {}
        self._less: dict[tuple[int, int], int] = {}
        self._forget: dict[tuple[int, int], int] = {}

    def node(self, level: int, kids: tuple[int, ...]) -> int:
        """The unique node that branches on a variable, each value leading to its own set."""
        first = kids[0]
        if kids.count(first) == len(kids):
            return first
        key = (level, kids)
        found = self._unique.get(key)
        if found is None:
            found = len(self.levels)
            if found >= self.bound:
                raise SetsTooLarge
            self.levels.append(level)
            self.kids.append(kids)
            self._unique[key] = found
        return found

    def values(self, level: int, values: Iterable[int]) -> int:
        """The cases in which a variable has one of these values."""
        wanted = set(values)
        return self.node(
            level, tuple(EVERYTHING if v in wanted else NOTHING for v in range(self.sizes[level]))
        )

    def both(self, a: int, b: int) -> int:
        """The intersection of two sets."""
        if b in (a, EVERYTHING):
            return a
        if a == EVERYTHING:
            return b
        if NOTHING in (a, b):
            return NOTHING
        if a > b:
            a, b = b, a
        key = (a, b)
        found = self._both.get(key)
        if found is None:
            la, lb = self.levels[a], self.levels[b]
            both = self.both
            if la == lb:
                found = self.node(la, tuple(map(both, self.kids[a], self.kids[b])))
            else:
                if la > lb:
                    a, b, la = b, a, lb
                # Most ways lead to NOTHING or EVERYTHING: no call for those, here and below.
                kids = [both(kid, b) if kid > EVERYTHING else kid and b for kid in self.kids[a]]
                found = self.node(la, tuple(kids))
            self._both[key] = found
        return found

    def either(self, a: int, b: int) -> int:
        """The union of two sets."""
        if b in (a, NOTHING):
            return a
        if a == NOTHING:
            return b
        if EVERYTHING in (a, b):
            return EVERYTHING
        if a > b:
            a, b = b, a
        key = (a, b)
        found = self._either.get(key)
        if found is None:
            la, lb = self.levels[a], self.levels[b]
            either = self.either
            if la == lb:
                found = self.node(la, tuple(map(either, self.kids[a], self.kids[b])))
            else:
                if la > lb:
                    a, b, la = b, a, lb
                kids = [either(kid, b) if kid > EVERYTHING else kid or b for kid in self.kids[a]]
                found = self.node(la, tuple(kids))
            self._either[key] = found
        return found

    def less(self, a: int, b: int) -> int:
        """The difference: cases in the first set and not in the second."""
        if a in (NOTHING, b) or b == EVERYTHING:
            return NOTHING
        if b == NOTHING:
            return a
        key = (a, b)
        found = self._less.get(key)
        if found is None:
            la, lb = self.levels[a], self.levels[b]
            less = self.less
            if la == lb:
                found = self.node(la, tuple(map(less, self.kids[a], self.kids[b])))
            elif la < lb:
                found = self.node(la, tuple([kid and less(kid, b) for kid in self.kids[a]]))
            else:
                found = self.node(lb, tuple([less(a, kid) for kid in self.kids[b]]))
            self._less[key] = found
        return found

    def forget(self, a: int, mask: int) -> int:
        """Existential quantification: cases in the set for some values of the variables in the mask (bit = level)."""
        level = self.levels[a]
        if level == _BOTTOM or not mask >> level:
            return a
        key = (a, mask)
        found = self._forget.get(key)
        if found is None:
            forget = self.forget
            kids = [forget(kid, mask) if kid > EVERYTHING else kid for kid in self.kids[a]]
            if mask >> level & 1:
                found = NOTHING
                for kid in kids:
                    found = self.either(found, kid)
            else:
                found = self.node(level, tuple(kids))
            self._forget[key] = found
        return found

    def assign(self, a: int, level: int, values: Iterable[int]) -> int:
        """The set after a variable has been given any of these values, whatever it was before."""
        return self.both(self.forget(a, 1 << level), self.values(level, values))

    def moved(self, a: int, level: int, moves: Mapping[int, int]) -> int:
        """The set after a variable's values have been renamed; values not named are dropped."""
        memo: dict[int, int] = {}

        def move(b: int) -> int:
            its = self.levels[b]
            if its > level:
                kids = [NOTHING] * self.sizes[level]
                for old, new in moves.items():
                    kids[new] = self.either(kids[new], b)
                    del old
                return self.node(level, tuple(kids))
            found = memo.get(b)
            if found is None:
                if its == level:
                    kids = [NOTHING] * self.sizes[level]
                    for old, new in moves.items():
                        kids[new] = self.either(kids[new], self.kids[b][old])
                    found = self.node(level, tuple(kids))
                else:
                    found = self.node(its, tuple(move(kid) for kid in self.kids[b]))
                memo[b] = found
            return found

        return move(a)

    def fix(self, a: int, case: Mapping[int, int]) -> int:
        """The cofactor (restriction): the set over the other variables when some have these values."""
        memo: dict[int, int] = {}

        def cut(b: int) -> int:
            level = self.levels[b]
            if level == _BOTTOM:
                return b
            found = memo.get(b)
            if found is None:
                if level in case:
                    found = cut(self.kids[b][case[level]])
                else:
                    found = self.node(level, tuple(cut(kid) for kid in self.kids[b]))
                memo[b] = found
            return found

        return cut(a)

    def one(self, a: int, wanted: Mapping[int, int] | None = None) -> dict[int, int]:
        """One case of a set that holds some: the variables that matter to it, with their values.

        Where `wanted` names a value for a variable and the set allows it, the case has it.
        """
        case: dict[int, int] = {}
        while self.levels[a] != _BOTTOM:
            level = self.levels[a]
            kids = self.kids[a]
            preferred = wanted.get(level) if wanted else None
            if preferred is None or kids[preferred] == NOTHING:
                preferred = next(v for v, kid in enumerate(kids) if kid != NOTHING)
            case[level] = preferred
            a = kids[preferred]
        return case

    def holds(self, a: int, case: Mapping[int, int]) -> bool:
        """Whether a case is in the set; variables it leaves out must not matter."""
        while self.levels[a] != _BOTTOM:
            a = self.kids[a][case[self.levels[a]]]
        return a == EVERYTHING

    def tidy(self) -> None:
        """Drop the memoized results; the diagrams themselves stay."""
        for memo in (self._both, self._either, self._less, self._forget):
            memo.clear()
