"""A measure that was probably written in the wrong unit."""

from guide.measures.quantity import Quantity
from guide.measures.units import units_of


def misread(q: Quantity, usual: tuple[Quantity, Quantity]) -> Quantity | None:
    """The same number in another unit of its kind that would be usual, as 3 ft for 3 in.

    `usual` is the lowest and highest usual measure, both included. Of several readings the one
    nearest to the middle is given. None when `q` is itself usual, or when no reading is.
    TypeError when `usual` is of another kind.
    """
    low, high = usual
    if low <= q <= high:
        return None
    others = (Quantity(q.magnitude, unit) for unit in units_of(q.kind) if unit != q.unit)
    middle = (low.base + high.base) / 2
    return min(
        (other for other in others if low <= other <= high),
        key=lambda other: abs(other.base - middle),
        default=None,
    )
