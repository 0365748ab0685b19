"""What contradicts: something typed, scheduled or answered against the closer's sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from guide.measures import write
from guide.trade.holes.inputs import knuckles_of_hand
from guide.trade.holes.layout import to_mark
from guide.trade.holes.opening import NUMBERS, Opening, Typed
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.parts import OpeningRange
from guide.trade.sheet.sheet import Sheet

SAME = Fraction(1, 32)
"""How far a typed number may be from the sheet's and still be the same [in]: what a mark is given to."""

NUMBER_WORDS = {
    "body_along": "the body along the door",
    "body_across": "the body up or down",
    "shoe_along": "the shoe along the door",
    "shoe_across": "the shoe up, down or out",
}


@dataclass(frozen=True, slots=True)
class Clash:
    """One contradiction. It stops the job until it is known which is right."""

    input: str
    """The name of what was typed or answered."""
    said: str
    sheet_says: str
    """What the sheet, or the other answer, says."""
    sentence: str


def _clash(name: str, said: str, says: str, sentence: str) -> Clash:
    find = "Find out which is right before anything is marked."
    return Clash(name, said, says, f"{sentence} {find}")


def opening_clashes(opening: Opening, typed: Typed) -> Iterator[Clash]:
    """What of the opening contradicts itself, or the paper or schedule."""
    hand, knuckles = opening.hand, opening.knuckles
    if hand is not None and knuckles is not None and knuckles_of_hand(hand) != knuckles:
        shows = knuckles_of_hand(hand)
        yield _clash(
            "hand",
            hand,
            shows,
            f"The hand {hand} has its knuckles on the {shows} from the pull side, and {knuckles} was answered.",
        )
    if typed.mount is not None and opening.mount not in (None, typed.mount):
        said, says = MOUNT_WORDS[opening.mount or ""], MOUNT_WORDS[typed.mount]
        yield _clash(
            "mount",
            said,
            says,
            f"The mount is {said} here, and schedule or paper is for {says}.",
        )


def sheet_clashes(
    sheet: Sheet, mount: str, row: OpeningRange, typed: Typed, units: str
) -> Iterator[Clash]:
    """What was typed against the sheet's row."""
    on = sheet.mount(mount)
    where = f"for {MOUNT_WORDS[mount]}, opening to {row.up_to}"
    words = {
        "along_from": ("Along was typed as measured from the", on.along_from),
        "datum": ("Up and down was typed as measured from the", on.datum),
        "valves_toward": ("The valves were said to point to the", on.valves_toward),
    }
    for name, (start, says) in words.items():
        said = getattr(typed, name)
        if said is not None and said != says:
            yield _clash(
                f"typed_{name}",
                said,
                says,
                f"{start} {said}, and the sheet {sheet.sheet} says {says}.",
            )
    by_sheet = (row.body_along, row.body_datum, row.shoe_along, row.shoe_datum)
    for name, number in zip(NUMBERS, by_sheet, strict=True):
        given = typed.numbers[name]
        if given is not None and abs(given.base - number.base) > SAME:
            said, says = (write(to_mark(one.base, units)) for one in (given, number))
            yield _clash(
                f"typed_{name}",
                said,
                says,
                f"{said} was typed for {NUMBER_WORDS[name]}, and the sheet {sheet.sheet} says {says} {where}.",
            )
