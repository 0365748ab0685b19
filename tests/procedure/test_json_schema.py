"""The JSON Schema that editors use: every key described, and at one with what the tool itself reads."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from guide.checker.check import check
from guide.checker.manual import all_codes, page_of
from guide.cli.main import main
from guide.files.library import catalogue, find, shipped_folder
from guide.files.marks import plain, read_marked
from guide.procedure.json_schema import procedure_schema, written_schema
from tests.checker.snippets import ROOT, files_of

SCHEMA = procedure_schema()
VALIDATOR = Draft202012Validator(SCHEMA)
MODELINE = "# yaml-language-server: $schema=procedure.schema.json\n"
SHIPPED = [entry.name for entry in catalogue("procedure") if not entry.own]


def as_text(text: str) -> Any:
    """A file as the tool reads it: every value the text that is written."""
    return plain(read_marked(text, "a file")[0])


def described(schema: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every key of the schema, with its place."""
    for name, definition in schema["$defs"].items():
        for key, made in definition["properties"].items():
            yield f"{name}.{key}", made


KEYS = dict(described(SCHEMA))


def test_it_is_a_schema_of_its_draft() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert "$id" not in json.dumps(SCHEMA)


@pytest.mark.parametrize("definition", SCHEMA["$defs"])
def test_its_keys_are_described_and_their_examples_are_right(definition: str) -> None:
    for key, made in SCHEMA["$defs"][definition]["properties"].items():
        assert made["description"][0].isupper(), key
        assert made["description"][-1] in ".;", key
        assert "E.g." not in made["description"], key
        one = Draft202012Validator({**made, "$defs": SCHEMA["$defs"]})
        for example in made.get("examples", ()):
            assert one.is_valid(example), (key, example)


def test_nearly_every_key_has_an_example() -> None:
    without = {key.partition(".")[2] for key, made in KEYS.items() if "examples" not in made}
    kinds = set(SCHEMA["$defs"]["Block"]["properties"])
    assert without - kinds == {
        "accepted",
        "cases",
        "drawing",
        "facts",
        "otherwise",
        "picture",
        "sheet",
        "steps",
        "until",
        "when",
    }


def test_the_shipped_schema_is_what_the_verb_prints(capsys: pytest.CaptureFixture[str]) -> None:
    shipped = (shipped_folder() / "procedures" / "procedure.schema.json").read_text("utf-8")
    assert main(["schema"]) == 0
    assert capsys.readouterr().out == shipped == written_schema(SCHEMA)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_shipped_file_names_the_schema_and_keeps_it(name: str) -> None:
    text = find("procedure", name).read_text("utf-8")
    assert text.startswith(MODELINE)
    assert [error.message for error in VALIDATOR.iter_errors(as_text(text))] == []


@pytest.mark.parametrize("code", ["key-unknown", "key-missing", "shape"])
def test_a_file_of_wrong_shape_breaks_the_schema_and_its_twin_does_not(code: str) -> None:
    page = page_of(code)
    assert not VALIDATOR.is_valid(as_text(files_of(page.fails)[ROOT]))
    assert VALIDATOR.is_valid(as_text(files_of(page.passes)[ROOT]))


@pytest.mark.parametrize("code", [code for code in all_codes() if page_of(code).passes])
def test_what_the_tool_takes_the_schema_takes(tmp_path: Path, code: str) -> None:
    for name, text in files_of(page_of(code).passes).items():
        if not text.startswith(("sheet:", "practice:")):
            assert VALIDATOR.is_valid(as_text(text)), name


WIDTH = "facts:\n  width: {length: {from: 24 in, to: 48 in}, ask: How wide is the leaf?}\n"
SLIPS = {
    "two kinds": WIDTH.replace("length:", "yesno: {}, length:"),
    "no kind": WIDTH.replace("length: {from: 24 in, to: 48 in}, ", ""),
    "no question": WIDTH.replace(", ask: How wide is the leaf?", ""),
    "a computed fact that is asked": WIDTH + "  size: {worked: spring-size, ask: Which size?}\n",
    "inputs without a computation": WIDTH.replace("ask:", "using: {width: width}, ask:"),
    "one answer only": "facts:\n  hand: {choice: {left: Left}, ask: Which hand?}\n",
    "a name with a capital": WIDTH.replace("width:", "Width:"),
    "a caution without its word": "procedure: a\ntitle: A\nsteps:\n  - do: {id: a, text: A, caution: {}}\n",
    "two kinds of block": "procedure: a\ntitle: A\nsteps:\n  - {do: {id: a, text: A}, ask: {id: b, fact: c}}\n",
    "nothing otherwise": "procedure: a\ntitle: A\nsteps:\n  - check: {id: a, fact: b, limit: yes, otherwise: {}}\n",
    "no steps": "procedure: a\ntitle: A\nsteps: []\n",
    "an empty condition": "procedure: a\ntitle: A\nsteps:\n  - do: {id: a, text: A, when: {}}\n",
}


@pytest.mark.parametrize("slip", list(SLIPS))
def test_schema_and_tool_refuse_the_same_slip(tmp_path: Path, slip: str) -> None:
    path = tmp_path / "slip.yaml"
    path.write_text(SLIPS[slip])
    assert not VALIDATOR.is_valid(as_text(SLIPS[slip]))
    assert check(path).findings[0].level == "error"


def test_an_editor_that_types_values_is_served_too() -> None:
    typed = {
        "procedure": "cover",
        "edition": 2,
        "title": "The cover",
        "steps": [{"do": {"id": "fit", "text": "Fit it.", "minutes": 3, "cuts": False}}],
    }
    assert VALIDATOR.is_valid(typed)
