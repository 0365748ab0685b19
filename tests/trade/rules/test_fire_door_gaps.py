"""Gaps of real fire doors by country, edition, material, frame and rating; the source stands beside each."""

from collections.abc import Mapping

import pytest

from guide.trade import registry

CORRIDOR_OAK = {"leaf": "wood", "frame": "steel", "rating": "twenty"}
"""A 20-minute wood door in a hollow metal frame."""


def gaps(**texts: str) -> Mapping[str, object]:
    computation = registry.find("fire-door-gaps")
    value = registry.run("fire-door-gaps", registry.read_inputs(computation, texts)).value
    assert isinstance(value, Mapping)
    return value


def beside(**texts: str) -> object:
    return gaps(**texts)["sides"]


@pytest.mark.parametrize(
    ("door", "gap", "expected"),
    [
        # NFPA 80 6.3.1.7.1, 2007 on: hollow metal 1/8 in, give or take 1/16 in; both limits.
        ({"leaf": "steel", "frame": "steel"}, "3/16 in", "right"),
        ({"leaf": "steel", "frame": "steel"}, "13/64 in", "wrong"),
        ({"leaf": "steel", "frame": "steel"}, "1/16 in", "right"),
        ({"leaf": "steel", "frame": "steel"}, "1/32 in", "wrong"),
        # NFPA 80 6.3.1.7.1, 2007 to 2013: wood at most 1/8 in.
        ({**CORRIDOR_OAK, "nfpa_80": "2010"}, "1/8 in", "right"),
        ({**CORRIDOR_OAK, "nfpa_80": "2010"}, "3/16 in", "wrong"),
        # The same, 2016 and 2019: wood or laminate rated 20 min in a hollow metal frame as hollow metal.
        (CORRIDOR_OAK, "3/16 in", "right"),
        (CORRIDOR_OAK, "1/32 in", "wrong"),
        ({**CORRIDOR_OAK, "rating": "longer"}, "3/16 in", "wrong"),
        ({**CORRIDOR_OAK, "frame": "wood"}, "3/16 in", "wrong"),
        ({"leaf": "wood", "frame": "steel"}, "3/16 in", "wrong"),  # the rating is not known
        # The same, 2016 and 2019: any other material at most 1/8 in, so aluminium too.
        ({"leaf": "aluminium", "frame": "aluminium"}, "1/8 in", "right"),
        ({"leaf": "aluminium", "frame": "aluminium"}, "3/16 in", "wrong"),
        ({}, "3/16 in", "wrong"),  # a leaf nobody knows
        # BS 8214:2016 and Home Office guidance of 2022: 2 to 4 mm, never over 4 mm.
        ({"rules": "uk", "leaf": "wood"}, "4 mm", "right"),
        ({"rules": "uk", "leaf": "wood"}, "4.76 mm", "wrong"),
        ({"rules": "uk", "leaf": "wood"}, "2 mm", "right"),
        ({"rules": "uk", "leaf": "wood"}, "1.9 mm", "wrong"),
        # No published figure was found for the other countries of Europe: the door's papers decide.
        ({"rules": "eu", "leaf": "wood"}, "4.76 mm", "decide"),
    ],
)
def test_the_gap_at_head_and_jambs(door: dict[str, str], gap: str, expected: str) -> None:
    assert beside(**door, widest=gap) == expected


def test_the_narrowest_gap_counts_as_well_as_the_widest() -> None:
    """NFPA 80 6.3.1.7.1: a steel leaf that binds at the head and is right at the latch has a fault."""
    door = {"leaf": "steel", "frame": "steel", "widest": "1/8 in"}
    assert beside(**door, narrowest="1/16 in") == "right"
    assert beside(**door, narrowest="0 in") == "wrong"


@pytest.mark.parametrize(
    ("door", "gap", "expected"),
    [
        # NFPA 80 4.8.4: 3/4 in; over a sill more than 38 in above the floor 3/8 in.
        ({}, "3/4 in", "right"),
        ({}, "49/64 in", "wrong"),
        ({"high_sill": "yes"}, "3/8 in", "right"),
        ({"high_sill": "yes"}, "1/2 in", "wrong"),
        # BS 8214:2016 12.3: 3 mm against cold smoke, else 8 to 10 mm by the door's evidence.
        ({"rules": "uk", "smoke": "yes"}, "3 mm", "right"),
        ({"rules": "uk", "smoke": "yes"}, "3.5 mm", "wrong"),
        ({"rules": "uk", "smoke": "no"}, "8 mm", "right"),
        ({"rules": "uk", "smoke": "no"}, "9 mm", "decide"),
        ({"rules": "uk", "smoke": "no"}, "10.5 mm", "wrong"),
        ({"rules": "uk"}, "5 mm", "decide"),
        ({"rules": "uk"}, "19 mm", "wrong"),
        ({"rules": "eu"}, "19 mm", "decide"),
    ],
)
def test_the_gap_under_the_leaf(door: dict[str, str], gap: str, expected: str) -> None:
    assert gaps(**door, below=gap)["under"] == expected


@pytest.mark.parametrize("rules", ["uk", "eu"])
def test_no_american_figure_is_told_elsewhere(rules: str) -> None:
    found = gaps(rules=rules, leaf="wood", widest="3 mm", below="6 mm")
    assert "NFPA" not in f"{found['sides_told']}{found['under_told']}"


def test_what_was_not_read_is_left_open() -> None:
    assert gaps(leaf="steel")["sides"] == "decide"
    assert gaps(leaf="steel")["under"] == "decide"
