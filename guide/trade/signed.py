"""A measure that may lie on either side of its line: `-2 3/4 in` is behind it.

People type lengths and angles without a sign, and `measures.parse` refuses one, since a minus
before a door's width is a slip. Only inputs declared `signed`, such as a pivot's offset from the
door edge, are read here.
"""

from guide.measures import Quantity, parse

_MINUS = ("-", "−", "minus ")


def parse_signed(text: str, kind: str | None, system: str = "inch") -> Quantity:
    """The measure a person wrote, below zero where a minus sign or the word minus stands first.

    `kind` and `system` as for `measures.parse`. The sign belongs to the whole number: -2 3/4 in is
    two and three quarters below zero. MeasureError as there.
    """
    bare = text.strip()
    for sign in _MINUS:
        if bare.lower().startswith(sign):
            size = parse(bare[len(sign) :], kind, system)
            return Quantity(-size.magnitude, size.unit)
    return parse(bare, kind, system)
