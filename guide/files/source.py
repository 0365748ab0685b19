"""One file: its text, its parse tree with places, the validated model, and its findings."""

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, ValidationError

from guide.files.findings import ERROR, MOST, BadFile, Finding, Mark, shown_path
from guide.files.marks import Map, Node, Seq, mark_at, plain, read_marked, read_text
from guide.text import meant, nearest, short

__all__ = ["Path_", "Source", "need_shape", "read_source", "read_tree"]

LARGEST_KEPT = 200_000
"""Characters of a file that is kept for the next that includes it: a part of a procedure is far smaller."""

Path_ = tuple[str | int, ...]


@dataclass(slots=True)
class Source:
    """A file that was read, whether or not it could be understood."""

    path: Path
    shown: str
    text: str
    tree: Node = field(default_factory=lambda: Map((1, 1)))
    """Empty if the file is not YAML."""
    shape: Any = None
    """The validated model; None if the shape was wrong."""
    findings: list[Finding] = field(default_factory=list)

    @property
    def full(self) -> bool:
        """Whether so much is wrong that more would help nobody."""
        return len(self.findings) > MOST

    def mark(self, path: Path_, *, key: bool = False) -> Mark:
        """The place of the part at `path`."""
        return mark_at(self.tree, path, key=key)

    def fault(
        self, path: Path_, code: str, message: str, *, key: bool = False, level: str = ERROR
    ) -> None:
        """Note a finding at the part at `path`; after the first hundred, that there are more."""
        self.add(Finding(self.shown, *self.mark(path, key=key), code, level, message))

    def add(self, finding: Finding) -> None:
        """Note a finding, as `fault` does."""
        if finding in self.findings:
            return
        if len(self.findings) < MOST:
            self.findings.append(finding)
        elif len(self.findings) == MOST:
            message = f"More is wrong than these {MOST}; fix them and check again."
            last = max(self.findings, key=Finding.place)
            self.findings.append(
                Finding(self.shown, last.line, last.column, "too-many", ERROR, message)
            )


def read_tree(path: Path, what: str, text: str | None = None) -> Source:
    """Read a file that gets its shape elsewhere; what cannot be read of it is left in `findings`.

    Raises BadFile if it is not a mapping of keys to values.
    """
    source = Source(path, shown_path(path), read_text(path) if text is None else text)
    if not _grown(source, what):
        raise BadFile(source.findings)
    return source


def read_source(path: Path, model: type[BaseModel], what: str, text: str | None = None) -> Source:
    """Read a file and validate it against `model`; what is wrong in it is left in `findings`.

    Raises BadFile only if there is no text to be read.
    """
    shown = shown_path(path)
    source = Source(path, shown, read_text(path) if text is None else text)
    understand = _understood if len(source.text) <= LARGEST_KEPT else _understood.__wrapped__
    source.tree, source.shape, found = understand(source.text, shown, model, what)
    source.findings = list(found)
    return source


@lru_cache(maxsize=32)
def _understood(
    text: str, shown: str, model: type[BaseModel], what: str
) -> tuple[Node, Any, tuple[Finding, ...]]:
    """The tree, the validated model and the faults of a text. Kept, because one file is read again for each
    that includes it; nothing changes a tree or a model."""
    source = Source(Path(shown), shown, text)
    if _grown(source, what):
        _validate(source, model, what)
    return source.tree, source.shape, tuple(source.findings)


def _grown(source: Source, what: str) -> bool:
    """Read the tree from the text. Whether it is a mapping, as every file must be; what is wrong is noted."""
    try:
        source.tree, source.findings = read_marked(source.text, source.shown)
    except BadFile as error:
        source.findings = error.findings
        return False
    if not isinstance(source.tree, Map):
        source.fault((), "shape", f"{what} is a mapping of keys to values; this is not.")
        return False
    return True


def _validate(source: Source, model: type[BaseModel], what: str) -> None:
    """Give the source its shape, or note what keeps it from having one."""
    spoilt = {(finding.line, finding.column) for finding in source.findings}
    try:
        source.shape = model.model_validate(plain(source.tree))
    except ValidationError as error:
        faults = error.errors(include_url=False)
        misspelt = misspelt_keys(model, faults)
        for fault in faults:
            if source.full:
                break
            if fault["type"] == "missing" and fault["loc"] in misspelt:
                continue
            finding = shape_fault(source.tree, source.shown, model, fault)
            # One fault is reported once: a part that could not be read has no right shape either.
            if (finding.line, finding.column) in spoilt or "\ufffd" in str(fault["input"]):
                continue
            source.add(finding)
        if not source.findings:  # pragma: no cover - only what was told already is passed over
            source.fault((), "shape", f"{what} has another shape; see how one is written.")


def need_shape(source: Source) -> Any:
    """The validated model. Raises BadFile if the shape was wrong."""
    if source.shape is None or source.findings:
        raise BadFile(source.findings)
    return source.shape


# --- a validator's fault in a trainer's words ---

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
    """The paths of the keys that unknown keys are probably misspellings of: those are not reported as missing."""
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
    "string_type": " must be a line of text, and this is a list or a mapping.",
    "model_type": " must be a mapping of keys to values, and this is not one.",
    "model_attributes_type": " must be a mapping of keys to values, and this is not one.",
    "dict_type": " must be a mapping of keys to values, and this is not one.",
    "list_type": " must be a list; write each entry on its own line after “- ”.",
    "string_too_short": " is empty; write it, or take the key out.",
    "string_too_long": " is too long; at most {max_length} characters fit.",
    "too_long": " has too many entries; at most {max_length} may stand here.",
    "too_short": " has too few entries; at least {min_length} must stand here.",
}


def _entry(path: Path_) -> str:
    owner = next((part for part in reversed(path) if isinstance(part, str)), "")
    return f"An entry of “{short(owner)}”" if owner else "This"


def _named(path: Path_) -> str:
    """A path in words: the last key, or the entry of a list."""
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
                    # the field's own annotation keeps what is named before it is defined as a mere string
                    return get_type_hints(one, include_extras=True)[key]
        elif get_origin(one) is dict:
            return get_args(one)[1]
        elif get_origin(one) is list and isinstance(part, int):
            return get_args(one)[0]
    return kind


def _ways(kind: Any) -> list[Any]:
    """The members of a union, or the type within an Annotated; else the annotation itself."""
    if get_origin(kind) in (Union, UnionType):
        return [one for inner in get_args(kind) for one in _ways(inner)]
    if hasattr(kind, "__metadata__"):
        return _ways(get_args(kind)[0])
    return [kind]


def _is_model(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, BaseModel)
