"""What `hingeside voice` says of libraries that are not here, and what the package brings where."""

import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement

from guide.speech.what_works import NEWEST_THAT_HEARS, PARTS, Part, missing

CHECKOUT = Path(__file__).parents[2]
PYTHONS = [(3, minor) for minor in range(11, 15)]
MACHINES = (
    *("linux x86_64", "linux aarch64", "linux armv7l"),
    *("darwin arm64", "darwin x86_64", "win32 AMD64", "win32 ARM64"),
)
BY_NAME = {part.package: part for part in PARTS}


def brought(package: str, python: tuple[int, int], machine: str) -> bool:
    """Whether the extra brings a package to a machine, by the markers in pyproject.toml."""
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]
    system, processor = machine.split()
    version = f"{python[0]}.{python[1]}"
    here = {
        "python_version": version,
        "python_full_version": f"{version}.0",
        "sys_platform": system,
        "platform_machine": processor,
    }
    found = map(Requirement, project["optional-dependencies"]["voice"])
    return any(
        one.name == package and (one.marker is None or one.marker.evaluate(here)) for one in found
    )


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.package)
def test_what_is_said_to_be_built_is_what_the_package_brings(part: Part) -> None:
    for python in PYTHONS:
        for machine in MACHINES:
            told = part.why_not(python, machine)
            assert brought(part.package, python, machine) == (told == ""), (python, machine)


@pytest.mark.parametrize("python", PYTHONS)
def test_no_part_needs_a_compiler(python: tuple[int, int]) -> None:
    """The builds of the package index: what has only sources for a Python or a machine is not asked for there."""
    for machine in MACHINES:
        arm_linux, other = machine == "linux aarch64", machine in ("linux armv7l", "win32 ARM64")
        usual = not other and not arm_linux
        assert brought("pocketsphinx", python, machine) == (usual and python < (3, 14))
        assert brought("miniaudio", python, machine) == usual
        assert brought("espeakng-loader", python, machine) == (not other)
        assert brought("webrtc-noise-gain", python, machine) == (
            machine in ("linux x86_64", "linux aarch64")
        )
        assert brought("pyrnnoise", python, machine) == (machine in ("linux x86_64", "win32 AMD64"))


def test_on_a_newer_python_it_names_one_that_the_recogniser_is_built_for() -> None:
    told = BY_NAME["pocketsphinx"].why_not((3, 14), "win32 AMD64")
    assert told == "is not built for Python 3.14; install Hingeside with Python 3.13."
    assert BY_NAME["pocketsphinx"].why_not(NEWEST_THAT_HEARS, "win32 AMD64") == ""


def test_on_another_processor_it_names_it() -> None:
    told = BY_NAME["miniaudio"].why_not((3, 12), "linux aarch64")
    assert told == "is not built for this kind of machine (linux aarch64); use the keys."


def test_each_library_that_is_not_here_is_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    assert list(missing()) == []
    monkeypatch.setattr("guide.speech.what_works.util.find_spec", lambda name: None)
    found = list(missing())
    assert [one.name for one in found] == [part.package for part in PARTS]
    assert not any(one.works for one in found)
    assert found[3].told == (
        "The library that a voice is learned with (numpy) is not installed; one command brings it."
    )
