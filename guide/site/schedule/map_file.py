"""A map of columns: what the headings of one exporting program mean, kept as YAML and used again.

schedule_map: school-office
columns:
  Türbreite: width mm
  Finish: left-out
"""

from collections.abc import Mapping
from pathlib import Path

from guide.files.source import need_shape, read_source
from guide.procedure import schema
from guide.site.schedule.columns import Column
from guide.site.schedule.headings import COLUMNS, Heading, folded
from guide.site.schedule.sizes import BARE_UNITS
from guide.text import unknown

UNITS = (*BARE_UNITS, "kg", "lb", "deg")


class MapShape(schema.Shape):
    """A map of columns."""

    schedule_map: schema.Line
    """What it is called, such as the office whose schedules it reads."""
    columns: dict[str, schema.Line]
    """Heading to its meaning, with the unit of bare numbers after it."""


def load_map(path: Path) -> dict[str, Heading]:
    """The meanings by folded heading. Raises BadFile with every fault."""
    source = read_source(path, MapShape, "A map of columns")
    shape: MapShape = need_shape(source)
    found: dict[str, Heading] = {}
    for heading, said in shape.columns.items():
        means, _, unit = said.strip().partition(" ")
        if means not in COLUMNS:
            source.fault(("columns", heading), "shape", unknown("a column", means, COLUMNS))
        elif unit and unit.strip() not in UNITS:
            source.fault(
                ("columns", heading), "shape", unknown("a unit of a column", unit.strip(), UNITS)
            )
        else:
            found[folded(heading)] = Heading(means, unit.strip())
    if source.findings:
        from guide.files.findings import BadFile

        raise BadFile(source.findings)
    return found


def map_text(name: str, columns: Mapping[str, Heading] | tuple[Column, ...]) -> str:
    """A map of these columns, as a file to be completed: what is not understood is marked left-out."""
    import yaml  # to write it; reading a schedule needs no YAML

    if isinstance(columns, Mapping):
        said = {heading: f"{one.column} {one.unit}".strip() for heading, one in columns.items()}
    else:
        said = {
            one.heading: f"{one.means} {one.unit}".strip() or "left-out"
            for one in columns
            if one.heading
        }
    lines = [
        "# Heading to what it means; a unit may follow, as in: width mm. The meanings there are:"
    ]
    lines += [f"#   {column:<13} {about}" for column, about in COLUMNS.items()]
    body = yaml.safe_dump(
        {"schedule_map": name, "columns": said}, allow_unicode=True, sort_keys=False, width=1000
    )
    return "\n".join(lines) + "\n" + body
