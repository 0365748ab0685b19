"""A chart as text for Graphviz (the DOT language)."""

import textwrap

from guide.chart.picture import Box, Picture

_SHAPES = {
    "ask": "parallelogram",
    "time": "parallelogram",
    "work": "component",
    "hold": "octagon",
    "end": "ellipse",
    "by_case": "diamond",
    "when": "diamond",
    "repeat": "diamond",
    "check": "diamond",
}
"""Graphviz's name of each kind's shape; a step is a box."""
WIDTH = 28
"""Characters of a line in a box."""


def dot(picture: Picture) -> str:
    """The chart as a directed graph, one cluster an included part."""
    lines = [
        "digraph procedure {",
        f"  label={_quoted(picture.title)};",
        "  labelloc=t;",
        "  node [shape=box];",
    ]
    lines += _group(picture.boxes, "", 1)
    for arrow in picture.arrows:
        more = ["style=dashed"] if arrow.back else []
        more += [f"label={_quoted(arrow.label)}"] if arrow.label else []
        lines.append(f"  n{arrow.source} -> n{arrow.target} [{', '.join(more)}];")
    return "\n".join([*lines, "}"]) + "\n"


def _group(boxes: list[Box], prefix: str, depth: int) -> list[str]:
    """The boxes of one group and the groups inside it, in the order of the file."""
    lines: list[str] = []
    inner: dict[str, list[Box]] = {}
    margin = "  " * depth
    for box in boxes:
        if box.group == prefix:
            lines.append(margin + _box(box))
            continue
        rest = box.group.removeprefix(f"{prefix}/") if prefix else box.group
        name = f"{prefix}/{rest.partition('/')[0]}" if prefix else rest.partition("/")[0]
        inner.setdefault(name, []).append(box)
    for name, members in inner.items():
        lines.append(f"{margin}subgraph cluster_{members[0].index}_{depth} {{")
        lines.append(f"{margin}  label={_quoted(name.rpartition('/')[2])};")
        lines += _group(members, name, depth + 1)
        lines.append(f"{margin}}}")
    return lines


def _box(box: Box) -> str:
    name = f"CUTS {box.name}" if box.cuts else box.name
    label = _quoted("\n".join([name, *textwrap.wrap(box.text, WIDTH)]))
    wide = ", penwidth=4" if box.cuts else ""
    return f"n{box.index} [shape={_SHAPES.get(box.kind, 'box')}, label={label}{wide}];"


def _quoted(text: str) -> str:
    """A quoted string of DOT: a backslash would begin an escape, a quotation mark end it."""
    text = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{text}"'
