"""The registry: finding, reading typed inputs, refusing what cannot be worked."""

import json
import shlex
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest

from guide.measures import KINDS, Quantity, parse
from guide.trade import registry
from guide.trade.answer import Answer, BadInput, OutOfDomain, result_json
from guide.trade.computation import Given
from guide.trade.registry import COMPUTATIONS, Computation, find, read_inputs, run
from guide.trade.sheet.sheet import Sheet


@pytest.mark.parametrize("computation", COMPUTATIONS.values(), ids=list(COMPUTATIONS))
def test_every_row_is_complete(computation: Computation) -> None:
    assert computation.about.endswith(".")
    assert computation.source
    names = [one.name for one in computation.inputs]
    assert len(names) == len(set(names))
    required = {one.name for one in computation.inputs if one.required}
    assert required <= {word.partition("=")[0] for word in shlex.split(computation.example)}
    assert computation.output.kind in (
        *KINDS,
        "choice",
        "yesno",
        "count",
        "number",
        "mapping",
        "rows",
    )
    for name, at in computation.thresholds:
        wanted = computation.input(name)
        assert wanted is not None
        assert wanted.kind == at.kind
        assert isinstance(wanted.low, Quantity)
        assert isinstance(wanted.high, Quantity)
        assert wanted.low <= at <= wanted.high


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("spring-sise", "spring-size"), ("Handing", "handing"), ("cord", "chord")],
)
def test_a_misspelt_name_gets_the_nearest(typed: str, meant: str) -> None:
    with pytest.raises(BadInput, match=f"did you mean {meant}"):
        find(typed)


def test_a_name_like_no_other_gets_the_list() -> None:
    with pytest.raises(BadInput, match=r"known: handing, .*, chord\b.*\."):
        find("xyzzy")


def test_typed_inputs_are_read_in_the_units_a_person_writes() -> None:
    read = read_inputs(
        find("spring-size"),
        {"width": "35-7/8", "mass": "110", "mount": "Parallel", "fire": "Y", "exterior": "False"},
    )
    assert read == {
        "width": parse("35 7/8 in"),
        "mass": parse("110 lb", "mass"),
        "mount": "parallel",
        "fire": True,
        "exterior": False,
    }
    metric = read_inputs(find("spring-size"), {"width": "911", "mass": "50"}, system="metric")
    assert metric == {"width": parse("911 mm"), "mass": parse("50 kg")}


def test_every_problem_is_told_at_once() -> None:
    with pytest.raises(BadInput) as caught:
        read_inputs(
            find("spring-size"),
            {"widht": "36", "mass": "heavy", "fire": "perhaps", "mount": "paralel"},
        )
    told = str(caught.value)
    for part in (
        "“widht” is not an input of spring-size; did you mean width?",
        "spring-size needs width= (width of the leaf).",
        "mass: ",
        "fire: “perhaps” is neither yes nor no.",
        "mount: “paralel” is not one of the choices; did you mean parallel?",
    ):
        assert part in told


def test_a_sheet_is_opened_by_whoever_reads_files(harbour: Sheet) -> None:
    opened = read_inputs(
        find("spring-turns"),
        {"sheet": "harbour", "from": "2", "to": "3"},
        open_sheet={"harbour": harbour}.__getitem__,
    )
    assert opened == {"sheet": harbour, "from": 2, "to": 3}
    with pytest.raises(BadInput, match="cannot be opened from here"):
        read_inputs(find("spring-turns"), {"sheet": "harbour", "from": "2", "to": "3"})


@pytest.mark.parametrize("typed", ["", "three", "3.5", "-1", "٣", "1e3", "9" * 5000])
def test_a_count_is_plain_digits(harbour: Sheet, typed: str) -> None:
    with pytest.raises(BadInput, match=r"size: .*whole number"):
        read_inputs(
            find("sheet-size-fits"),
            {"sheet": "harbour", "size": typed},
            open_sheet=lambda _: harbour,
        )


@pytest.mark.parametrize(
    ("name", "inputs", "says"),
    [
        ("chord", {"width": parse("36 in")}, "chord needs angle="),
        (
            "chord",
            {"width": parse("36 in"), "angle": parse("12 in")},
            "angle needs a unit of angle, which 12 in",
        ),
        (
            "chord",
            {"width": 36, "angle": parse("12 deg")},
            "width must be written with a unit of length",
        ),
        ("spring-size", {"width": parse("36 in"), "fire": 1}, "fire must be yes or no"),
        ("spring-size", {"width": parse("36 in"), "sheet": "x"}, "must be the sheet of a closer"),
        ("hand", {"knuckles": True, "outside": "push"}, "must be left or right"),
    ],
)
def test_a_value_of_the_wrong_kind_is_refused(
    name: str, inputs: dict[str, Given], says: str
) -> None:
    with pytest.raises(BadInput, match=says):
        run(name, inputs)


def test_limits_are_inclusive() -> None:
    assert run("chord", {"width": parse("12 in"), "angle": parse("180 deg")}).value == parse("2 ft")
    with pytest.raises(OutOfDomain, match="outside what is worked here: 12 in to 10 ft"):
        run("chord", {"width": parse("11 15/16 in"), "angle": parse("180 deg")})


def test_results_go_into_json() -> None:
    hand = run("handing", {"knuckles": "left"})
    assert json.loads(json.dumps(result_json(hand.value))) == {"hand": None, "din": "left"}
    mark = run("chord", {"width": parse("36 in"), "angle": parse("12 deg")})
    assert json.loads(json.dumps(result_json(mark.value))) == {
        "magnitude": 7.5,
        "unit": "in",
        "text": "7 1/2 in",
    }


def test_an_answer_cannot_be_changed_afterwards() -> None:
    parts: dict[str, str | None] = {"hand": "LH"}
    answer = Answer(parts)
    parts["hand"] = "RH"
    assert answer.value == {"hand": "LH"}


def test_the_trade_starts_without_yaml_or_models() -> None:
    """A fresh process, so that nothing another test imported hides a heavy import."""
    code = (
        "import sys, guide.trade.registry;"
        "print(sorted({'yaml', 'pydantic', 'textual', 'difflib'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("name", list(COMPUTATIONS))
def test_a_computation_is_in_the_file_of_its_name(name: str) -> None:
    folder = Path(registry.__file__).parent
    (path,) = folder.glob(f"*/{name.replace('-', '_')}.py")
    module = import_module(f"guide.trade.{path.parent.name}.{path.stem}")
    assert module.COMPUTATION is COMPUTATIONS[name]
    assert module.COMPUTATION.name == name


def test_every_file_with_a_computation_is_in_the_table() -> None:
    folder = Path(registry.__file__).parent
    holders = {
        path.stem.replace("_", "-")
        for path in folder.glob("*/*.py")
        if "\nCOMPUTATION = " in path.read_text("utf-8")
    }
    assert holders == set(COMPUTATIONS)


def test_a_computation_imports_its_own_module_alone() -> None:
    code = (
        "import sys; from guide.trade.registry import find; find('chord');"
        "print(*[name for name in ('door.chord', 'holes.holes', 'door.pressure', 'fastening.fasteners')"
        " if f'guide.trade.{name}' in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.split() == ["door.chord"]
