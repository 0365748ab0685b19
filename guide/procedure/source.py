"""One file, read and given its shape, with the place of every part of it."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from guide.procedure.findings import ERROR, BadFile, Finding, Mark, shown_path
from guide.procedure.marks import Map, Node, mark_at, plain, read_marked, read_text
from guide.procedure.spelling import nearest

Path_ = tuple[str | int, ...]


@dataclass(slots=True)
class Source:
    """A file that was read, whether or not it could be understood."""

    path: Path
    shown: str
    text: str
    tree: Node
    shape: Any = None
    """The validated model; None where the shape was wrong."""
    findings: list[Finding] = field(default_factory=list)

    def mark(self, path: Path_, *, key: bool = False) -> Mark:
        """The place of the part at `path`."""
        return mark_at(self.tree, path, key=key)

    def fault(
        self, path: Path_, code: str, message: str, *, key: bool = False, level: str = ERROR
    ) -> None:
        """Note a finding at the part at `path`."""
        mark = self.mark(path, key=key)
        self.findings.append(Finding(self.shown, *mark, code, level, message))


def read_source(path: Path, model: type[BaseModel], what: str, text: str | None = None) -> Source:
    """Read a file and validate it against `model`.

    Raises BadFile where it cannot be read as YAML at all; faults of shape are left in `findings`.
    """
    shown = shown_path(path)
    text = read_text(path) if text is None else text
    tree = read_marked(text, shown)
    source = Source(path, shown, text, tree)
    if not isinstance(tree, Map):
        source.fault((), "shape", f"{what} is a mapping of keys to values; this is not.")
        return source
    try:
        source.shape = model.model_validate(plain(tree))
    except ValidationError as error:
        for fault in error.errors(include_url=False):
            source.findings.append(_shape_finding(source, model, fault))
    return source


def _shape_finding(source: Source, model: type[BaseModel], fault: Any) -> Finding:
    """A validator's complaint in a fitter's words, at the place in the file."""
    path: Path_ = tuple(fault["loc"])
    kind: str = fault["type"]
    name = next((str(part) for part in reversed(path) if isinstance(part, str)), "")
    context = fault.get("ctx", {})
    code = "shape"
    if kind == "extra_forbidden":
        code = "key-unknown"
        owner = _model_at(model, path[:-1])
        known = [f.alias or key for key, f in owner.model_fields.items()] if owner else []
        near = nearest(name, known)
        hint = f"did you mean “{near}”?" if near else f"known here: {', '.join(known)}."
        mark = source.mark(path, key=True)
        return Finding(source.shown, *mark, code, ERROR, f"The key “{name}” is not known; {hint}")
    if kind == "missing":
        code = "key-missing"
        message = f"“{name}” is missing here; write it."
        return Finding(source.shown, *source.mark(path[:-1]), code, ERROR, message)
    if kind in ("string_pattern_mismatch",):
        example = "letter-then-letters-digits-hyphens" if "-" in context["pattern"] else "like_this"
        if "_]*" in context["pattern"]:
            rule = "small letters, digits and underscores, beginning with a letter"
        else:
            rule = "small letters and digits joined by hyphens, beginning with a letter"
        del example
        message = f"“{str(fault['input'])[:40]}” is not a name here; use {rule}."
    elif kind == "value_error":
        message = f"Here {fault['msg'].removeprefix('Value error, ')}."
        if name in ("unsure", "cuts", "schedule", "edition", "tries", "minutes"):
            message = f"“{name}” is “{str(fault['input'])[:40]}”; {message[5:]}"
    elif kind == "literal_error":
        message = f"“{str(fault['input'])[:40]}” is not one of {context['expected']}."
    elif kind in ("string_type",):
        message = f"“{name}” takes a line of text; this is a list or a mapping."
    elif kind in ("model_type", "dict_type", "model_attributes_type"):
        message = f"“{name}” takes a mapping of keys to values; this is not one."
    elif kind == "list_type":
        message = f"“{name}” takes a list; this is not one."
    elif kind == "string_too_short":
        message = f"“{name}” is empty; write it or take the key out."
    elif kind == "string_too_long":
        message = f"“{name}” is too long; at most {context['max_length']} characters fit."
    elif kind == "too_short":
        message = f"“{name}” needs at least {context['min_length']} entries."
    else:
        message = f"“{name}” is not right here: {fault['msg'].lower()}."
    return Finding(source.shown, *source.mark(path), code, ERROR, message)


def _model_at(model: type[BaseModel], path: Path_) -> type[BaseModel] | None:
    """The model that validates the part at `path`."""
    found: Any = model
    for part in path:
        if not isinstance(part, str):
            continue
        fields = {f.alias or key: f for key, f in found.model_fields.items()}
        if part in fields:
            inner = _model_in(fields[part].annotation)
            if inner is None:
                return None
            found = inner
    return found if isinstance(found, type) and issubclass(found, BaseModel) else None


def _model_in(annotation: Any) -> Any:
    """The model within an annotation such as `dict[str, Model] | None`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _model_in(inner)
        if found is not None:
            return found
    return None


def need_shape(source: Source) -> Any:
    """The validated model. Raises BadFile where the shape was wrong."""
    if source.shape is None or source.findings:
        raise BadFile(source.findings)
    return source.shape
