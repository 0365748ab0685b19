"""The score of a practice door: its end state, the cause named, swings, time, and care."""

from dataclasses import dataclass

from guide.practice.door import CAUSES, PracticeDoor
from guide.practice.experienced_fitter import Demonstration, demonstration
from guide.practice.practice import RIGHT, STARTS, Practice
from guide.practice.push import HARD, SOFT, feels_of
from guide.practice.wording import force
from guide.trade.swing.model import SLAM_SPEED, SwingingDoor, close, opening_force
from guide.trade.tuning.readings import LONGEST, LONGEST_LAST, SHORTEST
from guide.translation import _

END, CAUSE, SWINGS, TIME, CARE = 40, 15, 15, 10, 20
"""The most points for each row of the table; 100 in all. All figures here are ours."""

A_LIMIT_MISSED = 15
"""Points lost of END for each thing that is not within its limits."""

NOT_PROVED = 10
"""Points lost of END if the door is called right and was not seen to be since the last change: let go
without a hand from all three places, and the force measured if there is a limit."""

SPARE_SWINGS, A_SWING = 4, 1
"""Swings more than the experienced fitter's that cost nothing, and the points each one after them costs."""

SPARE_TIME, A_MINUTE = 5, 1
"""Minutes more than the experienced fitter's that cost nothing, and the points each one after them costs."""

A_SLAM, A_FORCING, NO_HAND = 5, 5, 2
"""Points lost for a slam, for a screw forced past its end, and for a first swing after a change without a hand."""

STOPPED_SHORT = 25
"""Points of END for the right cause named, if it could have been put right here."""

GAUGE = 1.03
"""A force above the limit by no more than this share counts as met: no gauge tells them apart."""

GRADES = (
    (90, _("As an experienced fitter does it")),
    (75, _("Sound work")),
    (55, _("Getting there")),
    (0, _("Do this door again")),
)
"""The least points of each grade, and its words."""

_BACKCHECK = {
    HARD: _("pushed briskly open it meets its backcheck like a wall"),
    SOFT: _("pushed briskly open it bangs into its stop"),
}
"""The words for a backcheck that feels hard or soft."""


@dataclass(frozen=True, slots=True)
class ScoreRow:
    """One row of the table."""

    what: str
    points: int
    most: int
    why: str

    @property
    def told(self) -> str:
        """What the apprentice is shown: whether it is right or not yet, and why. The points are for the kept result."""
        verdict = _("Right") if self.points == self.most else _("Not yet")
        return f"{verdict}: {self.what[:1].lower()}{self.what[1:]} ({self.why})"


@dataclass(frozen=True, slots=True)
class Score:
    """The table."""

    rows: tuple[ScoreRow, ...]

    @property
    def points(self) -> int:
        """0 to 100."""
        return sum(row.points for row in self.rows)

    @property
    def grade(self) -> str:
        """The points in words."""
        return next(words for least, words in GRADES if self.points >= least)


def past_limits(door: SwingingDoor, at: PracticeDoor) -> tuple[str, ...]:
    """Everything about a door that is not within its limits, a few words each; empty if all is well."""
    found = []
    wide = close(door)
    if wide.s_90_12 is None:
        found.append(_("it stops before 12 degrees"))
    elif not SHORTEST <= wide.s_90_12 <= LONGEST:
        found.append(
            _("90 to 12 degrees takes {seconds:.1f} s, not {shortest:g} to {longest:g}").format(
                seconds=wide.s_90_12, shortest=SHORTEST, longest=LONGEST
            )
        )
    if wide.s_12_0 is not None and wide.s_12_0 > LONGEST_LAST:
        found.append(
            _("the last 12 degrees take {seconds:.1f} s, more than {longest_last:g}").format(
                seconds=wide.s_12_0, longest_last=LONGEST_LAST
            )
        )
    short = [start for start in STARTS if not close(door, start).latched]
    if short:
        found.append(
            _("it does not latch from {places} degrees").format(
                places=" and ".join(f"{start:g}" for start in short)
            )
        )
    if any(close(door, start).edge_speed > SLAM_SPEED for start in STARTS):
        found.append(_("it slams"))
    push = opening_force(door)
    if at.limit is not None and push > at.limit * GAUGE:
        limit = force(at.limit, at.units)
        found.append(
            _("it needs {force} to open, more than {limit}").format(
                force=force(push, at.units), limit=limit
            )
        )
    backcheck = _BACKCHECK.get(feels_of(door, at.opens_to))
    if backcheck:
        found.append(backcheck)
    return tuple(found)


def score(practice: Practice, guide: Demonstration | None = None) -> Score:
    """The table of a practice whose verdict is given; `guide` is the experienced fitter at the same door."""
    guide = guide or demonstration(practice.at)
    end = _end(practice)
    return Score(
        (
            end,
            _cause(practice),
            _saved(_swings(practice, guide), end),
            _saved(_time(practice, guide), end),
            _care(practice),
        )
    )


def _end(practice: Practice) -> ScoreRow:
    at, verdict = practice.at, practice.verdict
    what = _("The door as it is left")
    if verdict != RIGHT:
        named = next((one for one in practice.faults if one.cause == verdict), None)
        if named is None:
            return ScoreRow(
                what,
                0,
                END,
                _("given up for {cause}, which is not there").format(cause=CAUSES[verdict]),
            )
        if named.put_right is None:
            return ScoreRow(what, END, END, _("rightly given up: no screw cures it"))
        return ScoreRow(
            what, STOPPED_SHORT, END, _("the cause is right, and it could have been put right here")
        )
    left, unseen = past_limits(practice.door, at), _unseen(practice)
    points = max(0, END - A_LIMIT_MISSED * len(left) - NOT_PROVED * bool(unseen))
    return ScoreRow(what, points, END, "; ".join((*(left or ("all within limits",)), *unseen)))


def _saved(row: ScoreRow, end: ScoreRow) -> ScoreRow:
    """Swings and time saved count in proportion to the end state: doing nothing at all saves nothing."""
    if end.points == END:
        return row
    why = _("{why}; this counts only as far as the door is right").format(why=row.why)
    return ScoreRow(row.what, row.points * end.points // END, row.most, why)


def _unseen(practice: Practice) -> tuple[str, ...]:
    """Everything not seen before the door was called right."""
    missing = [start for start in STARTS if start not in practice.proved]
    found = []
    if missing:
        places = " and ".join(f"{start:g}" for start in missing)
        found.append(
            _("not seen to latch from {places} degrees since the last change").format(places=places)
        )
    if practice.at.limit is not None and not practice.weighed:
        found.append(_("its force not measured since the last change"))
    if practice.untried:
        found.append(_("not pushed open since the backcheck was turned"))
    return tuple(found)


def _cause(practice: Practice) -> ScoreRow:
    what = _("The hidden cause")
    faults = practice.at.faults
    found = {fault.cause for fault in practice.remedied} | {practice.verdict}
    if not faults:
        wrong = practice.verdict != RIGHT
        return ScoreRow(what, 0 if wrong else CAUSE, CAUSE, _("there was none to find"))
    hit = [fault for fault in faults if fault.cause in found]
    told = " and ".join(CAUSES[fault.cause] for fault in faults)
    return ScoreRow(what, CAUSE * len(hit) // len(faults), CAUSE, told)


def _swings(practice: Practice, guide: Demonstration) -> ScoreRow:
    made, fair = len(practice.swings), len(guide.practice.swings)
    points = max(0, SWINGS - A_SWING * max(0, made - fair - SPARE_SWINGS))
    return ScoreRow(
        _("Swings"),
        points,
        SWINGS,
        _("{made}; an experienced fitter needs {fair}").format(made=made, fair=fair),
    )


def _time(practice: Practice, guide: Demonstration) -> ScoreRow:
    took, fair = practice.spent / 60, guide.practice.spent / 60
    over = max(0, round(took - fair - SPARE_TIME))
    points = max(0, TIME - A_MINUTE * over)
    return ScoreRow(
        _("Time at the door"),
        points,
        TIME,
        _("{took:.0f} min; an experienced fitter needs {fair:.0f}").format(took=took, fair=fair),
    )


def _care(practice: Practice) -> ScoreRow:
    slams = sum(swung.slammed for swung in practice.swings)
    bare = sum(swung.unproved and not swung.hand for swung in practice.swings)
    lost = A_SLAM * slams + A_FORCING * practice.forced + NO_HAND * bare
    told = [
        f"{many} {words}" if many > 1 else words.removeprefix("times ")
        for many, words in (
            (slams, _("times it slammed")),
            (practice.forced, _("times a screw was forced")),
            (bare, _("times no hand on the first swing after a change")),
        )
        if many
    ]
    return ScoreRow(
        _("Care"), max(0, CARE - lost), CARE, ", ".join(told) or _("no slam, nothing forced")
    )
