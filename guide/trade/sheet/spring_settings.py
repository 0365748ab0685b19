"""A sheet's table of spring turns: whether its lines go together.

A table counts from the factory's setting, by EN size or by the width of the leaf, with a line for accessible doors
beside either. More turns are a stronger spring.
"""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.codec import FieldError
from guide.trade.sheet.kinds import written_turns
from guide.trade.sheet.parts import QUARTERS, SpringSetting

_KEY = "spring_settings"


def check_spring_settings(
    sheet: str,
    sizes: tuple[int, int],
    factory_size: int | None,
    settings: Sequence[SpringSetting],
) -> None:
    """Raise FieldError for a table that contradicts itself, the sizes, or the factory's size."""
    if sizes[0] == sizes[1]:
        raise FieldError(_KEY, f"The sheet {sheet} has a fixed spring, so it has no spring turns.")
    by_size = [row for row in settings if row.size is not None]
    by_width = [row for row in settings if row.max_width is not None]
    if by_size and by_width:
        raise FieldError(
            _KEY,
            f"The spring turns of {sheet} go by size on some lines and by width on others; write one"
            " table.",
        )
    for rows in (by_size, by_width, [row for row in settings if row.accessible]):
        if len({row.mount is None for row in rows}) > 1:
            raise FieldError(
                _KEY,
                f"The spring turns of {sheet} name a mount on some lines only; name it on every line"
                " or on none.",
            )
        for mount in dict.fromkeys(row.mount for row in rows):
            _check_rising(sheet, [row for row in rows if row.mount == mount])
    for row in by_size:
        _check_size(sheet, sizes, factory_size, row)


def _check_rising(sheet: str, rows: Sequence[SpringSetting]) -> None:
    for one, following in pairwise(rows):
        if following.accessible:
            mount = following.mount
            where = "" if mount is None else f" on a {MOUNT_WORDS[mount]}"
            raise FieldError(
                _KEY, f"The spring turns of {sheet} have two lines for accessible doors{where}."
            )
        if not _rises(one, following):
            raise FieldError(
                _KEY,
                f"The spring turns of {sheet} must rise, a quarter turn a size at least:"
                f" {_told(following)} comes after {_told(one)}.",
            )


def _rises(one: SpringSetting, following: SpringSetting) -> bool:
    more = following.turns - one.turns
    if one.size is not None and following.size is not None:
        sizes = following.size - one.size
        return sizes > 0 and more >= Fraction(sizes, QUARTERS)
    if one.max_width is not None and following.max_width is not None:
        return one.max_width < following.max_width and more > 0
    return False


def _told(row: SpringSetting) -> str:
    what = f"size {row.size}" if row.size is not None else f"a leaf to {row.max_width}"
    return f"{written_turns(row.turns)} for {what}"


def _check_size(
    sheet: str, sizes: tuple[int, int], factory_size: int | None, row: SpringSetting
) -> None:
    assert row.size is not None
    if not sizes[0] <= row.size <= sizes[1]:
        raise FieldError(
            _KEY,
            f"The spring turns of {sheet} have EN size {row.size}, outside its own"
            f" {sizes[0]} to {sizes[1]}.",
        )
    if factory_size is None:
        return
    more = row.turns - Fraction(row.size - factory_size, QUARTERS)
    if (row.size == factory_size and row.turns != 0) or (row.size - factory_size) * more < 0:
        raise FieldError(
            _KEY,
            f"The spring of {sheet} leaves the factory at EN size {factory_size}, and its table has"
            f" {written_turns(row.turns)} turns for size {row.size}; above that size turns are above zero, below it"
            " below.",
        )
