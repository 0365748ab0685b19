"""Why the adviser says what it says: one reason for each advice, in a foreman's words."""

from guide.trade.tuning.readings import GUARD, LONGEST, SHORTEST

_FIND = "Find the fault: hinges, strike, seal, air pressure, a leaking closer, or the wrong size."


def done(seconds: float) -> str:
    """All is within limits; 90 to 12 deg took that long [s]."""
    if seconds > LONGEST:
        return f"{seconds:.1f} s is over {LONGEST:g} s by no more than a watch can tell, so leave it alone."
    return "All is within limits, so leave it alone."


def left_to_do() -> str:
    """Only the force is over, by little, and the spring has no less to give."""
    return (
        "All is right but the force: it is a little over the limit at the weakest spring that latches. Finish, hand"
        " over, and record the force and its limit. A lighter seal, an eased strike, balanced air, another mount or a"
        " power operator would cure it; the authority decides."
    )


def too_many(tests: int) -> str:
    """The tests have run out, or bring nothing any more."""
    return f"{tests} tests and still not right: stop turning. {_FIND}"


def too_heavy() -> str:
    """Over the limit by more than a hair at the weakest spring."""
    return f"Far too heavy to open with no weaker spring that latches. {_FIND}"


def stops_high() -> str:
    """It stops before the latch valve has any say, and the spring has no more to give."""
    return f"The leaf stops before 12 degrees and the spring may be no stronger. {_FIND}"


def slams_or_stops() -> str:
    """Open it slams, closed it does not latch."""
    return (
        "It slams with the latch valve a touch further open, does not latch with it a touch further closed, and the"
        f" spring may be no stronger. {_FIND}"
    )


def will_not_latch() -> str:
    """The latch valve is open and the spring has no more to give."""
    return f"The latch valve has no more to give, and the spring may be no stronger. {_FIND}"


def no_turns_left() -> str:
    """The sheet's turns are used up."""
    return f"The valve has no turns left by the sheet and the time is still wrong. {_FIND}"


def lighten(*, along: bool) -> str:
    """A weaker spring, and `along` with it a valve."""
    if along:
        return "It takes more than the limit to open, and the spring alone would leave it closing wrongly."
    return "It takes more than the limit to open, and only the spring changes that."


def back() -> str:
    """The weaker spring does not latch it."""
    return "The weaker spring does not latch it, so back to the one that did."


def more_spring() -> str:
    """The latch valve alone does not do."""
    return "The latch valve alone does not bring it home, so now the spring."


def spring_before_mark() -> str:
    """It stops where the latch valve has no say."""
    return "It stops before the latch valve has any say, so the spring."


def open_latch() -> str:
    """It stops short of the latch."""
    return "It stops short of the latch: more speed there first, the spring last."


def slammed() -> str:
    """It slams."""
    return "It slams: less speed at the latch."


def near_slam() -> str:
    """It slammed a moment ago, a little further open."""
    return "It slammed a moment ago and now only just does not: a touch less speed there, as warm oil quickens it."


def sweep_along() -> str:
    """The sweep valve is turned beside the latch valve."""
    return "The sweep goes with it, since the latch valve has a share in that time."


def slow_last(seconds: float) -> str:
    """The last 12 deg [s] drag."""
    return f"The last 12 degrees took {seconds:.1f} s: a draught or the cold would stop it."


def time(seconds: float, in_all: float) -> str:
    """90 to 12 deg is wrong: as last timed, or by all tests together, `in_all` [s]."""
    took = f"90 to 12 degrees took {seconds:.1f} s"
    if seconds > LONGEST:
        return f"{took}, and people wait for it."
    if seconds < SHORTEST:
        return f"{took}, and {SHORTEST:g} s is the least we aim at."
    if seconds < SHORTEST + GUARD:
        return f"{took}, too near {SHORTEST:g} s, the least we aim at, for a watch in a hand."
    return f"By all tests together 90 to 12 degrees takes about {in_all:.1f} s, too near a limit."


def measure_again() -> str:
    """Only the force is in doubt."""
    return (
        "All is right but the force, which is over by less than a gauge can tell: measure it again."
    )


def time_again() -> str:
    """Within the limits by one time, and near one of them."""
    return "Within the limits, but so near one of them that a single time by hand cannot tell: time it once more."


def from_near() -> str:
    """It was let go from 90 deg alone."""
    return "From 90 degrees it is right; let it go from 45 and from 10 degrees too, where it has less run."
