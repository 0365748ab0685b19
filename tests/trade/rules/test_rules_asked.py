"""What the rules ask of a swing, in the words of the country; and what counts as a fire door."""

from collections.abc import Mapping

import pytest

from guide.run import settings
from guide.trade import inputs, registry


def asked(**texts: str) -> Mapping[str, object]:
    computation = registry.find("rules-asked")
    value = registry.run("rules-asked", registry.read_inputs(computation, texts)).value
    assert isinstance(value, Mapping)
    return value


@pytest.mark.parametrize(
    ("door", "timed", "closing"),
    [
        # 2010 ADA Standards 404.2.8.1, on an accessible route
        (
            {"accessible": "yes"},
            "five",
            "At least 5 s from 90 to 12 degrees (2010 ADA Standards 404.2.8.1).",
        ),
        # common practice: no rule sets a time
        ({"accessible": "no"}, "three", "At least 3 s from 90 to 12 degrees"),
        ({"rules": "uk", "accessible": "yes"}, "three", "At least 3 s from 90 to 12 degrees"),
        ({"rules": "eu"}, "three", "At least 3 s from 90 to 12 degrees"),
    ],
)
def test_the_closing_time_of_a_clinic_door(door: dict[str, str], timed: str, closing: str) -> None:
    found = asked(**door)
    assert found["timed"] == timed
    assert str(found["closing"]).startswith(closing)


def test_the_force_is_told_in_the_units_of_the_job() -> None:
    """BS 8300-2:2018: 30 N, which is 6.74 lbf; the pounds are never past it."""
    found = asked(rules="uk", accessible="yes", fire="no", exterior="no")
    assert (
        found["opening"]
        == "At most 30 N (6.7 lbf) to 30 degrees (BS 8300 and Approved Document M)."
    )


def test_every_edition_of_the_settings_is_one_of_the_rules() -> None:
    assert tuple(inputs.NFPA_80_EDITIONS) == settings.NFPA_80
    assert tuple(inputs.IBC_EDITIONS) == settings.IBC
    usual = settings.Settings()
    assert (usual.nfpa_80, usual.ibc) == (inputs.USUAL_NFPA_80, inputs.USUAL_IBC)
    assert asked(nfpa_80="2010", ibc="2018")["nfpa_80"] == "2010"


@pytest.mark.parametrize(("rated", "treated"), [("yes", "yes"), ("no", "no"), ("doubt", "yes")])
def test_a_door_in_doubt_is_treated_as_a_fire_door(rated: str, treated: str) -> None:
    """Common practice: a painted or missing label is no proof of an ordinary door."""
    computation = registry.find("fire-door")
    read = registry.read_inputs(computation, {"rated": rated})
    assert registry.run("fire-door", read).value == treated
