"""`screw-pull`: the pull on the screws of a closer's body, and the margin of what they hold.

Statics, moment = force x arm. The arm's moment M tries to turn the body in plan: at one end the n screws of a row pull,
at the other the body bears on the leaf, a distance p along the body away:

    F = M / (p n)

p is the distance between the two end rows of screws. The body bears a little further out, so the pull is
calculated too large, not too small. The arm's own push, wind and slamming are not included: the margin is for them.
Common practice.
"""

from collections.abc import Mapping
from fractions import Fraction

from guide.measures import Quantity, write
from guide.trade.answer import Answer, Result, decimal
from guide.trade.computation import Computation, Given, Input, Output, given, needed
from guide.trade.shown import rounded

WANTED_MARGIN = 4
"""What a screw holds over what pulls on it, at least; a figure of ours."""


def pull_on_each(moment: Quantity, pattern: Quantity, screws: int) -> Quantity:
    """Pull on each screw of the pulled row [N]; exact.

    `moment` is the greatest at the pinion [moment], `pattern` the distance between the end rows of
    screws [length], `screws` how many stand in the pulled row.
    """
    return Quantity(moment.base / pattern.to("m").magnitude / screws, "N")


def _screw_pull(inputs: Mapping[str, Given]) -> Answer:
    moment = needed(inputs, "moment", Quantity)
    pattern = needed(inputs, "pattern", Quantity)
    screws = given(inputs, "screws", int) or 2
    holds = given(inputs, "holds", Quantity)
    unit = "lbf" if moment.unit == "lbf ft" else "N"
    pull = pull_on_each(moment, pattern, screws).to(unit)
    working = [
        (
            f"{write(moment)} over {write(pattern)}, shared by {screws}:"
            f" {rounded(pull)} on each screw."
        )
    ]
    cautions = ["The arm's own push, wind and slamming come on top."]
    margin = None
    if holds is not None:
        ratio = holds.base / pull.base
        margin = float(round(ratio, 2))
        working.append(f"A screw holds {write(holds)}: {decimal(ratio, 1)} times the pull.")
        if ratio < WANTED_MARGIN:
            cautions.insert(
                0,
                f"Less than {WANTED_MARGIN} times: use through-bolts, or longer screws in solid"
                " material.",
            )
    value: dict[str, Result] = {"pull": pull, "margin": margin}
    return Answer(value, tuple(working), tuple(cautions))


COMPUTATION = Computation(
    name="screw-pull",
    about="The pull on each screw of a closer's body, and how many times over it is held.",
    inputs=(
        Input(
            "moment",
            "moment",
            True,
            "the closer's greatest moment at the pinion",
            low=Quantity(Fraction(1), "N m"),
            high=Quantity(Fraction(300), "N m"),
        ),
        Input(
            "pattern",
            "length",
            True,
            "along the body, between its end rows of screws",
            low=Quantity(Fraction(2), "in"),
            high=Quantity(Fraction(18), "in"),
        ),
        Input("screws", "count", False, "screws in one end row; 2 if left out", low=1, high=4),
        Input(
            "holds",
            "force",
            False,
            "what one screw holds, as from screw-withdrawal",
            low=Quantity(Fraction(1), "N"),
            high=Quantity(Fraction(50000), "N"),
        ),
    ),
    output=Output("mapping", ("pull", "margin")),
    compute=_screw_pull,
    source="statics; common practice",
    example="moment='18 lbf ft' pattern='7 1/2 in'",
)
