"""`hingeside practice`: the list, a door by name, number and seed, and the line that is kept."""

import json
from pathlib import Path

import pytest

from guide.cli.main import main
from tests.cli.program import hingeside, started


def test_the_list_is_told_and_given_as_json() -> None:
    told = hingeside("practice", "--list")
    assert told.status == 0
    assert "01-lending-library     grade 1  Lending library, reading room" in told.out
    made = hingeside("practice", "--json")
    doors = json.loads(made.out)["doors"]
    assert len(doors) == 12
    assert set(doors[0]) == {"name", "title", "grade", "about"}


@pytest.mark.parametrize("name", ["9", "09", "bus-depot", "09-bus-depot"])
def test_a_door_goes_by_its_number_or_its_name(name: str) -> None:
    done = hingeside("practice", name, lines=["inspect closer"])
    assert done.status == 0
    assert "Practice: Bus depot, canteen" in done.out
    assert "Oil hangs under the body" in done.out


def test_the_same_seed_gives_the_same_door_and_readings() -> None:
    lines = ["swing 90", "swing 45", "leave"]
    first, again = (hingeside("practice", "--seed", "41", lines=lines) for _ in range(2))
    other = hingeside("practice", "--seed", "42", lines=lines)
    assert first.out == again.out
    assert first.out != other.out
    assert "seed 41" in first.out


def test_a_verdict_is_kept_in_a_line_for_the_trainer(own_home: Path) -> None:
    assert started("practice", "12", lines=["inspect air", "cannot air"]).status == 0
    (line,) = (own_home / "practice.jsonl").read_text("utf-8").splitlines()
    kept = json.loads(line)
    assert kept["door"] == "lift-lobby"
    assert kept["verdict"] == "air"
    assert kept["points"] == 100


def test_a_result_that_cannot_be_kept_is_told_with_the_debrief(own_home: Path) -> None:
    (own_home / "practice.jsonl").mkdir()
    done = hingeside("practice", "12", lines=["cannot air"])
    assert done.status == 0
    assert "! The result could not be kept" in done.out


def test_a_trainers_own_door_is_found_beside_the_shipped_ones(own_home: Path) -> None:
    own = own_home / "procedures" / "practice"
    own.mkdir(parents=True)
    text = (Path(__file__).parents[2] / "procedures/practice/07-pottery.yaml").read_text("utf-8")
    (own / "13-toolroom.yaml").write_text(
        text.replace("practice: pottery", "practice: toolroom"), "utf-8"
    )
    assert "13-toolroom" in hingeside("practice", "--list").out
    assert hingeside("practice", "13", lines=["leave"]).status == 0
    (own / "13-toolroom.yaml").write_text(text.replace("grade: 3", "grade: 9"), "utf-8")
    wrong = hingeside("practice", "13")
    assert wrong.status == 1
    assert "9 is not a grade; write 1 to 4." in wrong.err


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("99",), "There is no practice door “99”"),
        (("--seed", "-4"), "A seed is a whole number"),
        (("--seed", "x"), "see “hingeside practice --help”"),
        (("3", "--json"), "--list shows all doors"),
    ],
)
def test_a_call_that_is_off_says_what_to_write(arguments: tuple[str, ...], says: str) -> None:
    done = hingeside("practice", *arguments)
    assert done.status == 2
    assert says in done.err
    assert done.out == ""


def test_a_trainer_gets_every_result_as_a_table(
    own_home: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = {"utc": "2027-03-01T08:00:00+00:00", "name": "=1+1", "door": "lift-lobby", "points": 100}
    (own_home / "practice.jsonl").write_text(json.dumps(kept) + "\n", "utf-8")
    table = [
        "utc,name,door,verdict,points,swings,slams,minutes",
        "2027-03-01T08:00:00+00:00,'=1+1,lift-lobby,,100,,,",
    ]
    assert main(["practice", "--results"]) == 0
    assert capsys.readouterr().out.splitlines() == table
    out = tmp_path / "class.csv"
    assert main(["practice", "--results", "-o", str(out)]) == 0
    assert out.read_text("utf-8-sig").splitlines() == table
    assert main(["practice", "--list"]) == 0
    assert "floor 9  (best so far: 100 points)" in capsys.readouterr().out
    assert main(["practice", "3", "--results"]) == 2
