"""What to turn, in sentences: by the closer's sheet where there is one, else by the screw's label."""

from fractions import Fraction

from guide.trade.sheet.parts import Screw
from guide.trade.sheet.sheet import Sheet
from guide.trade.tuning.readings import Advice, Move

NAMES = {
    "sweep": "Sweep valve",
    "latch": "Latch valve",
    "backcheck": "Backcheck valve",
    "spring": "Spring screw",
}
"""What a fitter calls each screw."""

BY_LABEL = "by the label"

_PARTS = {
    Fraction(1, 16): "a sixteenth",
    Fraction(3, 16): "three sixteenths",
    Fraction(5, 16): "five sixteenths",
    Fraction(7, 16): "seven sixteenths",
    Fraction(1, 8): "an eighth",
    Fraction(1, 4): "a quarter",
    Fraction(3, 8): "three eighths",
    Fraction(1, 2): "a half",
    Fraction(5, 8): "five eighths",
    Fraction(3, 4): "three quarters",
    Fraction(7, 8): "seven eighths",
}
"""Parts of a turn in words: a voice does not read 1/2 as a half."""

_OTHER_WAY = {"clockwise": "anticlockwise", "anticlockwise": "clockwise"}


def screw_of(sheet: Sheet | None, part: str) -> Screw | None:
    """The sheet's own lines on a screw; None without a sheet, or if the sheet has none."""
    if sheet is None:
        return None
    return next((one for one in sheet.screws if one.name == part), None)


def way(screw: Screw | None, direction: str) -> str:
    """Which way to turn: `clockwise` or `anticlockwise` by the sheet, else `BY_LABEL`.

    `direction` is "slower", "firmer" or "weaker" for the turn that the sheet tells, else its opposite.
    """
    if screw is None or screw.slower == "read the label":
        return BY_LABEL
    told = direction in ("slower", "firmer", "weaker")
    return screw.slower if told else _OTHER_WAY[screw.slower]


def turn(move: Move, sheet: Sheet | None) -> str:
    """One move as a sentence: the screw, how far at most, and which way.

    A spring is given in turns of its screw; nobody with a screwdriver can turn EN sizes.
    """
    how = way(screw_of(sheet, move.part), move.direction)
    much = amount(Fraction(move.steps) / 4, "turn")
    if move.part == "spring":
        sizes = Fraction(move.steps) / 2
        if sheet is None or sheet.turns_per_size is None:
            much, how = amount(sizes, "size"), "by the sheet"
        else:
            much = amount(sizes * sheet.turns_per_size, "turn")
    return f"{NAMES[move.part]}: {much} {how} ({move.direction})."


def told(advice: Advice, sheet: Sheet | None) -> str:
    """What to do, short enough for a step."""
    if advice.moves:
        return " ".join(turn(move, sheet) for move in advice.moves)
    return _NO_TURN[advice.outcome or advice.again]


_NO_TURN = {
    "finished": "Turn nothing more: all is within limits.",
    "left-to-do": "Turn nothing more: only the force is over. Finish, hand over, and record the force.",
    "impossible": "Turn nothing more: no screw will cure this door.",
    "force": "Turn nothing, and measure the force again.",
    "time": "Turn nothing, and time it again.",
    "near": "Turn nothing, and let it go from 45 and from 10 degrees too.",
}


def place(part: str, sheet: Sheet | None) -> str:
    """Where a screw is, how many turns it has and whether it stops, as far as the sheet says."""
    screw = screw_of(sheet, part)
    if screw is None and part == "spring":
        return (
            f"{NAMES[part]}: the closer's own sheet or label tells its turns for one size. Count them, and never back"
            " it right out."
        )
    if screw is None:
        return (
            f"{NAMES[part]}: no sheet tells its turns. Read the label beside it, count your own turns,"
            " and stop where it turns stiff."
        )
    has = "the sheet does not say how many turns it has"
    if screw.turns is not None:
        has = f"{mixed(screw.turns)} turns in all by the sheet"
    stop = {
        True: "it stops at the end of them",
        False: "nothing stops it from coming out",
        None: "whether it has a stop the sheet does not say",
    }[screw.has_stop]
    return f"{NAMES[part]}: {screw.where}; {has}; {stop}."


def amount(number: Fraction, unit: str) -> str:
    """How much to turn, as it is said: half a turn, 2 and a quarter turns. In sixteenths, above nothing."""
    whole, rest = divmod(number, 1)
    if not rest:
        return f"{whole} {unit}{'' if whole == 1 else 's'}"
    part = _PARTS.get(rest, str(rest))
    if whole:
        return f"{whole} and {part} {unit}s"
    if rest == Fraction(1, 4):
        return f"a quarter {unit}"
    return f"half a {unit}" if rest == Fraction(1, 2) else f"{part} of a {unit}"


def mixed(number: Fraction) -> str:
    """A number as people write it: 1/4, 1, 2 1/2."""
    whole, rest = divmod(number, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
