"""The shape of a procedure file as JSON Schema (draft 2020-12), for editors.

Made from schema.py alone: a shape's docstring describes the mapping, the string below a field its key, and
what follows “E.g.” there are the key's examples. A value may be written as text or as the number or
boolean that YAML would make of it, since the tool itself reads every value as the text that is written.
"""

import inspect
import json
import re
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, BeforeValidator
from pydantic.fields import FieldInfo

from guide.files.marks import plain, read_marked
from guide.procedure import schema
from guide.procedure.conditions import RESERVED

DIALECT = "https://json-schema.org/draft/2020-12/schema"
Json = dict[str, Any]

_EXAMPLES = re.compile(r"\s*E\.g\.\s+(?P<all>`.*)", re.DOTALL)
_ONE_EXAMPLE = re.compile(r"`([^`]+)`")

CONDITION: Json = {
    "title": "Condition",
    "description": (
        "What must hold: a mapping from facts to a label, a list of labels, a comparison "
        "(> >= < <= =) or a range (A to B, ends included), measures with their unit. Several facts must "
        "all hold. `all` and `any` take a list of conditions, `not` one condition, `known` a fact's name."
    ),
    "type": "object",
    "minProperties": 1,
    "properties": {
        "all": {
            "description": "Every one of these conditions holds.",
            "type": "array",
            "minItems": 1,
            "items": {"$ref": "#/$defs/Condition"},
            "examples": [[{"leaf": "wood"}, {"fire": "yes"}]],
        },
        "any": {
            "description": "At least one of these conditions holds.",
            "type": "array",
            "minItems": 1,
            "items": {"$ref": "#/$defs/Condition"},
            "examples": [[{"leaf": "wood"}, {"width": "> 36 in"}]],
        },
        "not": {
            "description": "This condition does not hold.",
            "$ref": "#/$defs/Condition",
            "examples": [{"leaf": "wood"}],
        },
        "known": {
            "description": "This fact has been answered; “I don't know” counts as an answer.",
            "type": "string",
            "examples": ["width"],
        },
    },
    "additionalProperties": {
        "description": "A label, a list of labels, a comparison or a range.",
        "anyOf": [
            {"type": ["string", "number", "boolean"]},
            {"type": "array", "minItems": 1, "items": {"type": ["string", "number", "boolean"]}},
        ],
        "examples": ["wood", ["wood", "unsure"], "> 36 in", "5 s to 7 s"],
    },
    "examples": [
        {"leaf": "wood"},
        {"leaf": ["wood", "unsure"]},
        {"width": "> 36 in"},
        {"any": [{"fire": "yes"}, {"width": "> 48 in"}]},
    ],
}


def procedure_schema() -> Json:
    """The schema of a procedure file, or of a file of shared facts."""
    assert set(CONDITION["properties"]) == set(RESERVED)
    defs: Json = {}
    tops = [_ref(model, defs) for model in (schema.ProcedureShape, schema.FactsFileShape)]
    defs["Condition"] = CONDITION
    return {
        "$schema": DIALECT,
        "title": "Hingeside procedure",
        "description": "A procedure, or a file of facts that several procedures share.",
        "type": "object",
        "anyOf": tops,
        "$defs": defs,
    }


def written_schema(made: Json) -> str:
    """The schema as the shipped file holds it."""
    return json.dumps(made, ensure_ascii=False, indent=2) + "\n"


def _ref(model: type[BaseModel], defs: Json) -> Json:
    name = model.__name__.removesuffix("Shape").removeprefix("Any")
    if name not in defs:
        defs[name] = {}  # in its place before what it refers to, itself too
        defs[name] = _object(model, name, defs)
    return {"$ref": f"#/$defs/{name}"}


def _object(model: type[BaseModel], name: str, defs: Json) -> Json:
    hints = get_type_hints(model, include_extras=True)
    properties: Json = {}
    for key, field in model.model_fields.items():
        text, examples = _note(field.description or "")
        made = _of(hints[key], field, defs)
        properties[field.alias or key] = {
            "description": text,
            **made,
            **({"examples": [_typed(one, made) for one in examples]} if examples else {}),
        }
    found: Json = {
        "title": name,
        "description": inspect.getdoc(model) or "",
        "type": "object",
        "properties": properties,
        "required": [f.alias or key for key, f in model.model_fields.items() if f.is_required()],
        "additionalProperties": False,
    }
    return {**found, **_beyond_keys(model)}


def _beyond_keys(model: type[BaseModel]) -> Json:
    """The conditions of a shape on its keys together."""
    if model is schema.AnyBlock:
        return {"oneOf": [{"required": [kind]} for kind in schema.BLOCK_KINDS]}
    if model is schema.FactShape:
        return {"oneOf": [_fact_of(kind) for kind in schema.FACT_KINDS]}
    if model in (schema.CautionShape, schema.OtherwiseShape):
        return {"minProperties": 1}
    return {}


def _fact_of(kind: str) -> Json:
    computed = kind in schema.COMPUTED_KINDS
    others: tuple[str, ...] = (
        ("ask", "unsure", "schedule", "once_a_visit", "sheet") if computed else ()
    )
    others += () if kind == "worked" else ("using", "rounds", "part")
    return {
        "required": [kind] if computed else [kind, "ask"],
        "not": {"anyOf": [{"required": [other]} for other in others]},
    }


# --- kinds of value ---


def _of(kind: Any, field: FieldInfo | None, defs: Json) -> Json:
    """The schema of one annotation; `field` carries limits that are written on the field itself."""
    limits: Json = _limits(field.metadata) if field is not None else {}
    wrapped: list[Any] = []
    while get_origin(kind) is Annotated:
        kind, *extras = get_args(kind)
        limits = {**_limits(extras), **limits}
        wrapped += [one.func for one in extras if isinstance(one, BeforeValidator)]
    made = _bare(kind, limits, defs)
    if schema._as_list in wrapped:
        return {"anyOf": [made["items"], made]}
    if schema._option in wrapped:
        return {"anyOf": [_text({"min_length": 1}), made]}
    return made


def _bare(kind: Any, limits: Json, defs: Json) -> Json:
    origin = get_origin(kind)
    if origin in (Union, UnionType):
        ways = [_of(one, None, defs) for one in get_args(kind) if one is not type(None)]
        return ways[0] if len(ways) == 1 else {"anyOf": ways}
    if origin is Literal:
        return {"type": "string", "enum": list(get_args(kind))}
    if origin is list:
        names = {"min_length": "minItems", "max_length": "maxItems"}
        counts = {names[key]: value for key, value in limits.items() if key in names}
        return {"type": "array", "items": _of(get_args(kind)[0], None, defs), **counts}
    if origin is dict:
        return _mapping(kind, limits, defs)
    if kind is bool:
        return {"enum": [True, False, "yes", "no", "true", "false"]}
    if kind is int:
        return _whole(limits)
    if kind is str:
        return _text(limits)
    return _ref(kind, defs)


def _mapping(kind: Any, limits: Json, defs: Json) -> Json:
    name, value = get_args(kind)
    if value is Any:
        return {"$ref": "#/$defs/Condition"}
    least = {"minProperties": limits["min_length"]} if "min_length" in limits else {}
    return {
        "type": "object",
        "propertyNames": _of(name, None, defs),
        "additionalProperties": _of(value, None, defs),
        **least,
    }


def _text(limits: Json) -> Json:
    names = {"pattern": "pattern", "min_length": "minLength", "max_length": "maxLength"}
    found = {names[key]: value for key, value in limits.items() if key in names}
    return {"type": "string", **found}


def _whole(limits: Json) -> Json:
    low, high = limits.get("ge", 0), limits.get("le")
    number = {"type": "integer", "minimum": low, **({"maximum": high} if high else {})}
    return {"anyOf": [number, {"type": "string", "pattern": "^[0-9]{1,9}$"}]}


def _limits(extras: Any) -> Json:
    """The limits among the extras of an annotation, by pydantic's own names for them."""
    found: Json = {}
    for one in extras:
        if isinstance(one, FieldInfo):
            found.update(_limits(one.metadata))
            continue
        for key in ("ge", "le", "min_length", "max_length", "pattern"):
            value = getattr(one, key, None)
            if value is not None:
                found[key] = value
    return found


# --- what is written below a field ---


def _note(text: str) -> tuple[str, list[Any]]:
    text = " ".join(text.split())
    match = _EXAMPLES.search(text)
    if match is None:
        return text, []
    examples = [_example(one) for one in _ONE_EXAMPLE.findall(match["all"])]
    return text[: match.start()], examples


def _example(text: str) -> Any:
    """An example as a procedure file would be read: every scalar as text."""
    tree, _ = read_marked(text, "an example in schema.py")
    return plain(tree)


def _typed(example: Any, made: Json) -> Any:
    """An example as an editor would insert it: a number or a boolean where the key takes one."""
    if True in made.get("enum", ()) and example in ("true", "false"):
        return example == "true"
    whole = any(way.get("type") == "integer" for way in made.get("anyOf", ()))
    return int(example) if whole and isinstance(example, str) else example
