"""The page of licenses: no extra of pyproject.toml brings terms that it leaves out."""

import tomllib
from importlib.metadata import distribution

import pytest
from packaging.requirements import Requirement

from guide.cli.main import main
from guide.handbook.licenses import NOT_STATED, installed_packages, license_of
from guide.handbook.pages import USER, page_text
from tests.handbook.shown_commands import TOP

BINDING = ("GPL", "MPL", "EUPL", "General Public", "Mozilla")
"""Words in the names of licenses that bind a person who passes the package on."""


def needs() -> list[tuple[str, str]]:
    """Extra and package of every requirement in pyproject.toml; those without an extra first."""
    project = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
    extras = {"": project["dependencies"], **project["optional-dependencies"]}
    return [(extra, Requirement(one).name) for extra, rows in extras.items() for one in rows]


def test_what_binds_is_on_the_page_for_every_extra() -> None:
    page = page_text(USER, "licenses").casefold()
    binding = [
        one for one in installed_packages(needs()) if any(word in one.license for word in BINDING)
    ]
    assert {"fpdf2", "espeakng-loader"} <= {one.name for one in binding}
    assert [one for one in binding if f"**{one.name.casefold()}**" not in page] == []


def test_the_terms_of_what_is_always_installed_are_known() -> None:
    assert [
        one for one in installed_packages(needs()) if not one.extra and one.license == NOT_STATED
    ] == []


@pytest.mark.parametrize(
    ("package", "terms"),
    [
        ("fpdf2", "LGPL-3.0-only"),  # License-Expression
        ("textual", "MIT"),  # License
        ("pocketsphinx", "BSD License; carries an acoustic model, BSD"),  # a classifier
        ("pyrnnoise", "Apache License; carries RNNoise, BSD-3-Clause"),  # its text alone
        ("espeakng-loader", "not stated; carries libespeak-ng, GPL-3.0-or-later"),
    ],
)
def test_terms_are_read_from_where_a_package_states_them(package: str, terms: str) -> None:
    assert license_of(distribution(package)) == terms


def test_the_page_ends_with_what_is_installed_here(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["handbook", "licenses"]) == 0
    lines = capsys.readouterr().out.splitlines()
    at = next(number for number, line in enumerate(lines) if line.strip() == "Installed here")
    table = [line.split() for line in lines[at:]]
    assert ["fpdf2", distribution("fpdf2").version, "LGPL-3.0-only", "always"] in table
