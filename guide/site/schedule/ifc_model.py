"""The doors of a building model (IFC, ISO 16739), as the table of a schedule. Needs ifcopenshell (the extra `ifc`).

IfcDoor says its overall size, which is that of the opening and not of the leaf, so leaf sizes stay questions. Of how it
swings ISO 16739-1 says: SINGLE_SWING_LEFT opens toward the positive y axis with its hinges on the left as seen along
that axis, thus from the push side.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from guide.errors import NO_DEVICE, HingesideError
from guide.site.schedule.cells import MOST_ROWS, BadSchedule, Cell, Row, Table, too_long
from guide.text import tidy

HEADINGS = (
    *("Mark", "Storey", "Opening width [mm]", "Opening height [mm]", "Hand", "Fire rating"),
    *("Exterior", "Accessible", "Smoke", "Closer", "Notes"),
)
_PSET = "Pset_DoorCommon"
_MM = 1000
_END = b"END-ISO-10303-21;"
"""With it every file ends (ISO 10303-21)."""
_TAIL = 1_000


class NoReader(HingesideError):
    """The library that reads building models is not installed."""

    status = NO_DEVICE


def ifc_table(name: str, path: Path) -> Table:
    """The table of a model's doors. Raises BadSchedule for a file that is not one, NoReader without the library."""
    if _END not in path.read_bytes()[-_TAIL:]:
        raise _cut_off(name)
    try:
        import ifcopenshell  # an extra, and slow to load
        from ifcopenshell.util import element, unit
    except ImportError as error:
        raise NoReader(
            f"{name} is a building model; to read it, install the extra: pip install 'hingeside[ifc]'."
        ) from error
    try:
        model: Any = ifcopenshell.open(str(path))
        doors = model.by_type("IfcDoor")
        metres = unit.calculate_unit_scale(model)
    except (RuntimeError, OSError, ValueError, AttributeError, ifcopenshell.Error) as error:
        raise _cut_off(name) from error
    if len(doors) >= MOST_ROWS:
        raise too_long(name)
    rows: list[Row] = [{n: Cell(text, f"heading {n + 1}", n) for n, text in enumerate(HEADINGS)}]
    for door in doors:
        texts = _texts(door, metres, element)
        rows.append(
            {
                n: Cell(line, f"#{door.id()} {HEADINGS[n]}", n)
                for n, text in enumerate(texts)
                if (line := tidy(text))
            }
        )
    return Table("", tuple(rows), notes=(f"A building model ({model.schema}).",))


def _cut_off(name: str) -> BadSchedule:
    return BadSchedule(f"{name} is cut off or is not a building model: export it again.")


def _texts(door: Any, metres: float, element: Any) -> Iterator[str]:
    """What the model says of a door, in the order of `HEADINGS`; an empty text where it says nothing."""
    psets: dict[str, Any] = element.get_psets(door)
    common: dict[str, Any] = psets.get(_PSET, {})
    kind: dict[str, Any] = (
        element.get_psets(element.get_type(door)) if element.get_type(door) else {}
    )
    common = {**kind.get(_PSET, {}), **common}
    storey = element.get_container(door)
    yield door.Tag or door.Name or f"#{door.id()}"
    yield "" if storey is None else storey.Name or ""
    for size in (door.OverallWidth, door.OverallHeight):
        yield "" if size is None else f"{round(size * metres * _MM, 1):g}"
    yield _operation(door, element)
    yield str(common.get("FireRating") or "")
    for name in ("IsExternal", "HandicapAccessible", "SmokeStop", "SelfClosing"):
        yield _said(common.get(name))
    yield "fire exit" if common.get("FireExit") is True else ""


def _operation(door: Any, element: Any) -> str:
    """How it swings, as the door or its type says."""
    for one in (door, element.get_type(door)):
        said = getattr(one, "OperationType", None)
        if said and said != "NOTDEFINED":
            return str(said)
    return ""


def _said(value: object) -> str:
    return {True: "yes", False: "no"}.get(value, "") if isinstance(value, bool) else ""
