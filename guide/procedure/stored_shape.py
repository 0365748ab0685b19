"""The exact shape of a compiled graph as JSON, key by key; what its parts say of each other is in `stored_graph.py`."""

from typing import Any

from guide import measures
from guide.files.plain_data import (
    Shape,
    each,
    either,
    flag,
    keyed,
    mapping,
    nothing,
    one_of,
    row,
    text,
    whole,
)
from guide.procedure.arithmetic import OPERATIONS
from guide.procedure.conditions import OPERATORS
from guide.procedure.hazards import GRAVITY
from guide.procedure.outcomes import INSPECTION, OUTCOMES

MOST_NODES = 50_000
MOST_FACTS = 2_000
MOST_LOOPS = 120
CONDITIONS_DEEP = 40
PARTS_OF_A_CONDITION = 400
LONGEST_PATH = 5000

_ID, _NAME, _LINE, _WORDS = text(2000), text(60), text(), text(2000)
_NAMES = each(_NAME, 400)
_GROUP = one_of("leaf", "head", "frame", "soffit", "body", "shoe")
_MARK = whole(0, 10**9)
_INDEX = whole(0, MOST_NODES)
_KINDS = ("choice", "yesno", "count", "text", "worked", *measures.KINDS)
_USING = mapping(_NAME, _LINE, 60)
_FACT = keyed(
    {"name": _NAME, "kind": one_of(*_KINDS)},
    {
        **dict.fromkeys(("ask", "say", "computation", "gives", "part"), _LINE),
        "find_out": _WORDS,
        "operation": one_of(*OPERATIONS),
        "options": each(row(_LINE, _LINE, _LINE, each(_LINE, 100)), 400),
        "unsure": flag,
        "schedule": flag,
        "once_a_visit": flag,
        "range": row(_LINE, _LINE),
        "step": _LINE,
        "usual": row(_LINE, _LINE),
        "longest": whole(1, 2000),
        "may_be_left_out": flag,
        "gives_labels": each(_LINE, 400),
        "optional": each(_NAME, 60),
        "using": _USING,
        "rounds": mapping(_NAME, each(_NAME, 60), 60),
        "offer": row(_LINE, _USING),
    },
)
_CAUTION = mapping(one_of(*GRAVITY), _LINE, len(GRAVITY))
_TOLD: dict[str, Shape] = {
    **dict.fromkeys(("say", "text", "card", "photo"), _LINE),
    **dict.fromkeys(("why", "watch", "looks_right"), _WORDS),
    "caution": each(_CAUTION, 40),
    "hazards": each(_NAME, 40),
    "tools": each(_LINE, 100),
    "parts": each(_LINE, 100),
    "picture": keyed({"drawing": text(4000), "says": _WORDS}),
    "draws": one_of("plan", "elevation"),
    "minutes": _MARK,
}
_BARE = keyed({"id": _ID})
_BODIES: dict[str, Shape] = {
    "do": keyed(
        {"id": _ID},
        {**_TOLD, "cuts": flag, "reads": _NAMES, "depends_on": _NAMES, "holes": _GROUP},
    ),
    "ask": keyed(
        {"id": _ID, "fact": _NAME},
        {**_TOLD, "depends_on": _NAMES, "blind": _NAMES, "expects": _LINE},
    ),
    "work": keyed({"id": _ID, "fact": _NAME}, _TOLD),
    "time": keyed({"id": _ID, "fact": _NAME}, {**_TOLD, "same_swing": _ID}),
    "check": keyed(
        {"id": _ID, "fact": _NAME, "limit": either(_LINE, each(_LINE, 400))},
        {**_TOLD, "expects": _LINE},
    ),
    "hold": keyed({"id": _ID, "reads_back": _NAMES}, {**_TOLD, "holes": _GROUP}),
    "end": keyed(
        {"id": _ID, "outcome": one_of(*OUTCOMES)},
        {**_TOLD, "leads_to": _NAME, "next_title": _LINE},
    ),
    **dict.fromkeys(("by_case", "when", "repeat", "go"), _BARE),
    "turn": keyed({"id": _ID, "turn": _NAME, "suggests": _NAMES, "forgets": _NAMES}),
}


def _condition(data: Any, deep: int = CONDITIONS_DEEP) -> bool:
    if not (isinstance(data, list) and data and isinstance(data[0], str) and deep):
        return False
    if data[0] == "not":
        return len(data) == 2 and _condition(data[1], deep - 1)
    if data[0] in ("all", "any"):
        parts: Any = data[1] if len(data) == 2 else None
        return each(lambda _: True, PARTS_OF_A_CONDITION)(parts) and all(
            _condition(part, deep - 1) for part in parts
        )
    test = _TESTS.get(data[0])
    return test is not None and test(data)


_OPERATOR = one_of(*OPERATORS)
_TESTS: dict[str, Shape] = {
    "is": row(_LINE, _NAME, each(_LINE, 400)),
    "compare": row(_LINE, _NAME, _OPERATOR, _LINE),
    "between": row(_LINE, _NAME, _LINE, _LINE),
    "against": either(
        row(_LINE, _NAME, _OPERATOR, _NAME), row(_LINE, _NAME, _OPERATOR, _NAME, _LINE)
    ),
    "known": row(_LINE, _NAME),
}
_EDGE = row(
    *(_INDEX, _LINE, either(nothing, _condition), row(_INDEX, _INDEX), whole(-1, MOST_LOOPS)),
)


def _node(data: Any) -> bool:
    return (
        isinstance(data, list)
        and len(data) > 2
        and data[1] in _BODIES
        and _NODE(data)
        and (_BODIES[data[1]](data[2]))
    )


def _path(data: Any) -> bool:
    """The path of a file, whatever its folders are called."""
    return isinstance(data, str) and len(data) <= LONGEST_PATH


_NODE = row(
    *(_ID, _NAME, mapping(_NAME, lambda _: True), each(_EDGE), each(_INDEX, MOST_LOOPS)),
    *(each(_NAME, 400), _path, _MARK, _MARK),
)
_NUMBERED = each(row(_INDEX, _condition), MOST_NODES)
GRAPH: Shape = keyed(
    {
        "format": whole(0, 10**9),
        "name": _LINE,
        "edition": _MARK,
        "title": _LINE,
        "about": _WORDS,
        "digest": text(64),
        "facts": each(_FACT, MOST_FACTS),
        "nodes": each(_node, MOST_NODES),
        "loops": each(row(_INDEX, _INDEX, _MARK), MOST_LOOPS),
        "limits": _NUMBERED,
        "untils": _NUMBERED,
        "hazards": mapping(_NAME, each(row(one_of(*GRAVITY), _LINE), 40), 400),
        "stages": each(row(_INDEX, _LINE), 100),
    },
    {"purpose": one_of(INSPECTION)},
)
