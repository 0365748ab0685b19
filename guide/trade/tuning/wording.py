"""Why the adviser says what it says, in sentences for a fitter."""

_CARE = "A hand on the leaf for the first swing, then two full swings before the watch counts."
_FIND = "Find the fault: hinges, strike, seal, air pressure, a leaking closer, or the wrong size."


def done(seconds: float) -> str:
    """All is within limits."""
    return (
        f"All is within limits: about {seconds:.1f} s from 90 to 12 degrees. Let it go from 45 and from"
        " 10 degrees once more: it must latch each time."
    )


def too_many() -> str:
    """The tests have run out."""
    return f"Eight tests and still not right: stop turning. {_FIND}"


def too_heavy() -> str:
    """The weakest spring is too strong."""
    return f"Too heavy to open with the spring at its weakest: no screw will cure it. {_FIND}"


def stops_high() -> str:
    """It stops before the latch valve has any say, and the spring has no more to give."""
    return f"The leaf stops before 12 degrees and the spring may be no stronger. {_FIND}"


def slams_or_stops(*, room: bool) -> str:
    """Open it slams, closed it does not latch; `room` says whether the spring might still be stronger."""
    spring = (
        "a stronger spring is not likely to cure it" if room else "the spring may be no stronger"
    )
    return (
        "It slams with the latch valve a touch further open and does not latch with it a touch"
        f" further closed, and {spring}. {_FIND}"
    )


def no_turns_left() -> str:
    """The sheet's turns are used up."""
    return f"The valve has no turns left by the sheet and the time is still wrong. {_FIND}"


def lighten() -> str:
    """A weaker spring."""
    return f"It takes more than the limit to open: weaken the spring, and test before any valve. {_CARE}"


def strengthen() -> str:
    """A stronger spring."""
    return f"It does not latch: strengthen the spring, and test before any valve. {_CARE}"


def open_latch() -> str:
    """The spring may be no stronger, or was not the cause."""
    return "It does not latch: open the latch valve so that it arrives faster."


def make_sure() -> str:
    """It latches from 90 deg, but perhaps by its speed alone."""
    return (
        "It latches, but by its times and its force perhaps by its speed alone: make it surer, for it must latch"
        " from 10 degrees too."
    )


def slammed() -> str:
    """It slams."""
    return "It slams: close the latch valve."


def near_slam() -> str:
    """It is close to a slam."""
    return "The last 12 degrees are near a slam: close the latch valve a little."


def measure_again() -> str:
    """Only the force is in doubt."""
    return (
        "All but the force is within limits, and that is only just over: turn nothing, test again."
    )


def turned(why: str, measured: float | None, expected: float | None) -> str:
    """Valves are turned; `expected` [s] only where the sweep valve is among them."""
    parts = [why] if why else []
    if expected is not None:
        took = "" if measured is None else f"90 to 12 degrees took {measured:.1f} s; "
        parts.append(f"{took}about {expected:.1f} s is expected after turning the sweep valve.")
    return " ".join((*parts, _CARE))
