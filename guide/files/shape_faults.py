"""A validator's complaint in a trainer's words, at the place in the file."""

from types import UnionType
from typing import Any, Union, get_args, get_origin

from pydantic import BaseModel

from guide.files.findings import ERROR, MOST, Finding
from guide.files.marks import Map, Node, Seq, mark_at
from guide.text import meant, nearest, short

Path_ = tuple[str | int, ...]

NAME_RULE = "small letters, digits and underscores, beginning with a letter"
ID_RULE = "small letters and digits joined by hyphens, beginning with a letter"

FORMER_KEYS = {
    "by_case": "by_case",
    "cases": "cases",
    "tries": "at_most",
    "given": "counts_on",
    "expect": "must_show",
}
"""Keys that earlier drafts of the language had, and what each is called now."""


def shape_fault(tree: Node, file: str, model: type[BaseModel], fault: Any) -> Finding:
    """The finding for one entry of `ValidationError.errors()`."""
    loc: Path_ = tuple(fault["loc"])
    kind: str = fault["type"]
    if kind == "extra_forbidden":
        mark = mark_at(tree, loc, key=True)
        return Finding(file, *mark, "key-unknown", ERROR, _unknown(model, loc))
    if kind == "missing":
        owner = _named(_within(tree, loc[:-1]))
        message = f"“{loc[-1]}” is missing {owner or 'at the top of the file'}; write it."
        return Finding(file, *mark_at(tree, loc), "key-missing", ERROR, message)
    mark = mark_at(tree, loc, key="[key]" in loc)
    return Finding(file, *mark, "shape", ERROR, _message(kind, _within(tree, loc), fault))


def misspelt_keys(model: type[BaseModel], faults: list[Any]) -> set[Path_]:
    """Where the keys belong that unknown ones were probably meant for: those are not missing too."""
    unknown = [tuple(fault["loc"]) for fault in faults if fault["type"] == "extra_forbidden"]
    return {(*loc[:-1], _meant_key(str(loc[-1]), _keys(model, loc))) for loc in unknown[:MOST]}


def _meant_key(name: str, known: list[str]) -> str:
    now = FORMER_KEYS.get(name, "")
    return now if now in known else nearest(name, known)


def _keys(model: type[BaseModel], loc: Path_) -> list[str]:
    """The keys known beside the one at `loc`."""
    owner = _model_at(model, loc[:-1])
    return [found.alias or key for key, found in owner.model_fields.items()] if owner else []


def _unknown(model: type[BaseModel], loc: Path_) -> str:
    name = str(loc[-1])
    known = _keys(model, loc)
    now = FORMER_KEYS.get(name)
    if now in known:
        return f"“{name}” is called “{now}” now; write “{now}”."
    hint = meant(name, known, f"write a key known here: {', '.join(known)}.")
    return f"The key “{short(name)}” is not known; {hint}"


def _message(kind: str, path: Path_, fault: Any) -> str:
    given = fault["input"]
    context = fault.get("ctx", {})
    what = f"“{short(path[-1])}”" if path and isinstance(path[-1], str) else _entry(path)
    if kind == "string_pattern_mismatch":
        rule = NAME_RULE if "_" in context["pattern"] else ID_RULE
        return f"“{short(given)}” is not a name here; use {rule}."
    if kind == "value_error":
        problem = fault["msg"].removeprefix("Value error, ")
        if isinstance(given, str):
            return f"{what} is “{short(given)}”; {problem}."
        where = _named(path)
        return f"{where[0].upper()}{where[1:]}, {problem}." if where else f"Here {problem}."
    if kind == "literal_error":
        words = context["expected"].replace("'", "")
        said = f"“{short(given)}”" if isinstance(given, str) else "This"
        return f"{said} is not one of {words}; write one of them."
    if kind in ("greater_than_equal", "less_than_equal"):
        bound = f"at least {context['ge']}" if "ge" in context else f"at most {context['le']}"
        return f"{what} is {given}; it must be {bound}."
    return what + _PLAIN.get(kind, " is not right here; see how it is written.").format(**context)


_PLAIN = {
    "string_type": " takes a line of text, and this is a list or a mapping.",
    "model_type": " takes a mapping of keys to values, and this is not one.",
    "model_attributes_type": " takes a mapping of keys to values, and this is not one.",
    "dict_type": " takes a mapping of keys to values, and this is not one.",
    "list_type": " takes a list; write each entry on its own line behind “- ”.",
    "string_too_short": " is empty; write it, or take the key out.",
    "string_too_long": " is too long; at most {max_length} characters fit.",
    "too_short": " has too few entries; at least {min_length} must stand here.",
}


def _entry(path: Path_) -> str:
    owner = next((part for part in reversed(path) if isinstance(part, str)), "")
    return f"An entry of “{short(owner)}”" if owner else "This"


def _named(path: Path_) -> str:
    """Where in the file, in words: the last key, or the entry of a list."""
    if not path:
        return ""
    last = path[-1]
    return f"in “{short(last)}”" if isinstance(last, str) else f"in {_entry(path).lower()}"


def _within(tree: Node, loc: Path_) -> Path_:
    """The path without the parts that only the validator knows, such as which of two shapes it tried."""
    found: list[str | int] = []
    for part in loc:
        if isinstance(tree, Map) and isinstance(part, str) and part in tree.entries:
            tree = tree.entries[part]
        elif isinstance(tree, Seq) and isinstance(part, int) and part < len(tree.items):
            tree = tree.items[part]
        else:
            continue
        found.append(part)
    return tuple(found)


def _model_at(model: type[BaseModel], loc: Path_) -> type[BaseModel] | None:
    """The model that validates the part at `loc`."""
    kind: Any = model
    for part in loc:
        kind = _inside(kind, part)
    return next((one for one in _ways(kind) if _is_model(one)), None)


def _inside(kind: Any, part: str | int) -> Any:
    """The annotation of one part of a thing annotated with `kind`."""
    for one in _ways(kind):
        if _is_model(one):
            for key, found in one.model_fields.items():
                if part == (found.alias or key):
                    return found.annotation
        elif get_origin(one) is dict:
            return get_args(one)[1]
        elif get_origin(one) is list and isinstance(part, int):
            return get_args(one)[0]
    return kind


def _ways(kind: Any) -> list[Any]:
    """The annotations that a union or an Annotated stands for."""
    if get_origin(kind) in (Union, UnionType):
        return [one for inner in get_args(kind) for one in _ways(inner)]
    if hasattr(kind, "__metadata__"):
        return _ways(get_args(kind)[0])
    return [kind]


def _is_model(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, BaseModel)
