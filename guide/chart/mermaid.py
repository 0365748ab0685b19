"""A chart as Mermaid text, which many viewers of Markdown draw."""

import re

from guide.chart.picture import Box, Picture

_UNSAFE = re.compile(r"[^\w .,:?!'“”’…≤≥°/+-]")
"""Characters written as numeric entities: each would end a label, begin markup, or be an entity itself."""

_SHAPES = {
    "ask": ("[/", "/]"),
    "time": ("[/", "/]"),
    "work": ("[[", "]]"),
    "hold": ("{{", "}}"),
    "end": ("([", "])"),
    "by_case": ("{", "}"),
    "when": ("{", "}"),
    "repeat": ("{", "}"),
    "check": ("{", "}"),
}
"""The brackets of each kind's shape; a step is a plain box."""


def mermaid(picture: Picture) -> str:
    """The chart as a Mermaid flowchart, one subgraph an included part."""
    lines = ["---", f'title: "{_safe(picture.title)}"', "---", "flowchart TD"]
    lines += _group(picture.boxes, "")
    for arrow in picture.arrows:
        label = f'|"{_safe(arrow.label)}"|' if arrow.label else ""
        line = "-.->" if arrow.back else "-->"
        lines.append(f"  n{arrow.source} {line}{label} n{arrow.target}")
    cuts = [f"n{box.index}" for box in picture.boxes if box.cuts]
    if cuts:
        lines += ["  classDef cuts stroke-width:4px", f"  class {','.join(cuts)} cuts"]
    return "\n".join(lines) + "\n"


def _group(boxes: list[Box], prefix: str) -> list[str]:
    """The boxes of one group and the groups inside it, in the order of the file."""
    lines: list[str] = []
    inner: dict[str, list[Box]] = {}
    for box in boxes:
        if box.group == prefix:
            lines.append(f"  {_box(box)}")
            continue
        rest = box.group.removeprefix(f"{prefix}/") if prefix else box.group
        name = f"{prefix}/{rest.partition('/')[0]}" if prefix else rest.partition("/")[0]
        inner.setdefault(name, []).append(box)
    for name, members in inner.items():
        title = _safe(name.rpartition("/")[2])
        lines.append(f'  subgraph g{members[0].index}_{name.count("/")}["{title}"]')
        lines += _group(members, name)
        lines.append("  end")
    return lines


def _box(box: Box) -> str:
    left, right = _SHAPES.get(box.kind, ("[", "]"))
    cut = "CUTS " if box.cuts else ""
    text = f"<br/>{_safe(box.text)}" if box.text else ""
    return f'n{box.index}{left}"{cut}<b>{_safe(box.name)}</b>{text}"{right}'


def _safe(text: str) -> str:
    return _UNSAFE.sub(lambda found: f"#{ord(found[0])};", text)
