"""Every error of the program has one base and one meaning, and no module imports itself by a detour."""

import inspect
import pkgutil
from graphlib import TopologicalSorter
from importlib import import_module
from importlib.util import find_spec
from types import ModuleType

import grimp
import pytest

import guide
from guide.errors import FOUND, NO_DEVICE, UNKNOWN, HingesideError

NEVER_TOLD = {
    "BadLine": "makes a run damaged from there on",
    "Ended": "ends the questions about a sheet, whose draft stays",
    "_DoNotAgree": "is asked about again, with the sentence it carries",
    "_Missing": "asks the question it carries",
    "CutUnheld": "ends the walk before a cut; the run then says which fact was not read back",
    "FieldError": "is made a fault of the sheet, at its key",
    "NoCommand": "is said at the line it was typed at",
    "NeedsWork": "asks the session for a computation",
    "RefusedError": "is made a MeasureError, once what was written is known as a whole",
    "SetsTooLarge": "ends a proof, which is then told as a finding",
    "UnknownFact": "says that a condition has no truth yet, as a mapping without the key",
    "UnreadableError": "is made a fault of the sheet, at its line",
    "WrongCondition": "is made a finding, with its code and its place in the file",
}
"""Exceptions that are caught where they are meant, each with what it does. They have no words for a person."""


NEEDS = {"guide.web.server": "aiohttp"}
"""Modules that an extra's package is imported in."""


def modules() -> list[ModuleType]:
    """Every module of the program, but those of an extra that is not installed."""
    return [
        import_module(one.name)
        for one in pkgutil.walk_packages(guide.__path__, "guide.")
        if one.name not in NEEDS or find_spec(NEEDS[one.name])
    ]


def classes() -> list[type]:
    """Every class that a module of the program defines."""
    return [
        one
        for module in modules()
        for one in vars(module).values()
        if inspect.isclass(one) and one.__module__ == module.__name__
    ]


def exceptions() -> list[type[BaseException]]:
    return [one for one in classes() if issubclass(one, BaseException)]


def test_every_exception_has_the_base_or_a_reason_not_to() -> None:
    without = {one.__name__ for one in exceptions() if not issubclass(one, HingesideError)}
    assert without == set(NEVER_TOLD)


def test_every_error_says_its_status() -> None:
    told = [one for one in exceptions() if issubclass(one, HingesideError)]
    silent = [
        one.__name__ for one in told if getattr(one, "status", 0) not in (FOUND, UNKNOWN, NO_DEVICE)
    ]
    # The base has none, and a faulty file has the one of its first finding.
    assert sorted(silent) == ["BadFile", "HingesideError"]
    assert len(told) > 20


def test_the_name_of_an_error_means_nothing_else() -> None:
    names = [one.__name__ for one in classes()]
    assert [one.__name__ for one in exceptions() if names.count(one.__name__) > 1] == []


def circles(imports: dict[str, set[str]]) -> None:
    """Raises CycleError, with the modules in a row, where one comes to import itself."""
    TopologicalSorter(imports).prepare()


def test_no_module_of_the_tree_imports_itself_by_a_detour() -> None:
    """What is imported inside a function or for types only counts too."""
    graph = grimp.build_graph("guide", cache_dir=None)
    imports = {one: graph.find_modules_directly_imported_by(one) for one in graph.modules}
    assert imports["guide.cli.main"] >= {"guide.errors", "guide.cli.home", "guide.cli.options"}
    assert imports["guide.errors"] == set()
    circles(imports)


def test_a_circle_would_be_found() -> None:
    with pytest.raises(ValueError, match="cycle"):
        circles({"guide.cli.main": {"guide.cli.home"}, "guide.cli.home": {"guide.cli.main"}})
