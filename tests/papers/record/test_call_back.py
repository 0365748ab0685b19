"""What a record tells the person who is called back to a door."""

from guide.handbook.pages import page_text
from guide.papers.record.call_back import call_back_data, rounds
from guide.papers.record.inspection import BLANK, items
from guide.papers.record.record import record_data
from guide.papers.record.record_forms import record_text
from guide.papers.record.times import local
from guide.run.found_and_left import found_and_left
from tests.papers.carried import carried_through


def test_the_tea_room_door_has_every_test_and_turn() -> None:
    """Scenario adjust-force-left-to-do: 7 lbf as found, a size of the spring less, 5.4 lbf as left."""
    state = carried_through("adjust-force-left-to-do").state
    tests = [one for one in rounds(state) if one.read[0][0] == "What does it do"]
    assert [one.number for one in tests] == [1, 2]
    assert tests[0].turned == ()
    assert dict(tests[0].read)["Force to open"] == "7 lbf"
    assert tests[1].turned[0].startswith("Spring screw")
    assert tests[1].done == ()  # the two swings after a turn are no work of their own
    assert dict(tests[1].read)["Seconds to the mark"] == "6.2 s"


CALL_BACK = {
    "The closer": ("Mount: Regular arm", "Size the leaf needs: 3", "Turns on the bench"),
    "As found, and as left": ("Seconds to the mark: ", "Force to open: "),
    "Tests and turns": ("Test 1. Read: What does it do", "Test 2. Turned: "),
    "Where the holes go": ("Body: 7 in along", "Shoe: ", "Leaf: 4 holes"),
    "What remains": ("Nothing.",),
    "Rules": ("Clear width: NOT MEASURED.",),
}
"""The door is called back to in March: what the fitter needs, by the part of the record that the handbook sends to."""


def test_a_call_back_is_answered_from_the_record_alone() -> None:
    """The demo's wood door on the regular arm: 36 in wide, so EN size 3 (EN 1154 table 1)."""
    session = carried_through("demo")
    parts = record_text(session.state, session.journal.events()).split("\n\n")
    sections = {
        title.strip(): lines for title, _, lines in (part.partition("\n") for part in parts)
    }
    table = page_text("user", "reading-a-record").partition("## On a call-back")[2]
    for title, needed in CALL_BACK.items():
        assert f"| {title}" in table
        for words in needed:
            assert words in sections[title], title


def test_what_was_put_right_between_two_tests_is_done_and_not_turned() -> None:
    state = carried_through("school-classroom").state
    hinges = next(one for one in rounds(state) if one.read[0][0] == "Does it swing free")
    assert hinges.turned == ()
    assert hinges.done[0].startswith("Tighten the hinge screws")


def test_tests_are_numbered_where_they_were_done_again() -> None:
    """Wood, continuous hinge, top jamb: the marks were measured once, the spring was let down three times."""
    session = carried_through("seminar-room-continuous")
    text = record_text(session.state, session.journal.events())
    turns = text.partition("Tests and turns")[2].partition("\n\n")[0].splitlines()
    assert "  Read: Does it swing free: Free and even" in turns
    assert "  Test 3. Turned: Spring screw: 2 and a half turns by the label (stronger)." in turns
    assert any(line.startswith("  Test 3. Read: What does it do: Latches") for line in turns)
    assert not [line for line in turns if "Done: Open the leaf" in line]


def test_no_piece_of_the_setting_out_is_listed_by_the_name_of_its_fact() -> None:
    """The fire pair with a coordinator: its bracket and holes stand in words; what the program passes on does not."""
    session = carried_through("archive-fire-pair")
    text = record_text(session.state, session.journal.events())
    computed = text.partition("What was computed")[2].partition("\n\n")[0]
    assert "  Plate or bracket: bracket" in computed.splitlines()
    for name in ("Accessory name", "Carried:", "Along line", "Body across", "BS 8214"):
        assert name not in computed


def test_what_the_authority_decides_is_on_the_first_page() -> None:
    lines = first_page("archive-fire-pair").splitlines()
    (decides,) = [one for one in lines if "AUTHORITY DECIDES" in one]
    assert decides.endswith("A fire door: the least force that the authority allows.")


def test_what_is_computed_is_told_once() -> None:
    """The rules have a part of their own; notes of what they say are of every door, and none of this one."""
    session = carried_through("school-classroom")
    text = record_text(session.state, session.journal.events())
    computed = text.partition("What was computed")[2].partition("\n\n")[0]
    assert "  EN size the leaf needs: 5" in computed.splitlines()
    for told in ("asked", "verdict", "in short", "turn:"):
        assert told not in computed.replace("Gaps asked for", "").replace("Gap asked for", "")


def test_as_found_and_as_left_stand_side_by_side() -> None:
    rows = {
        asked: (first, last)
        for asked, first, last in found_and_left(carried_through("adjust-force-left-to-do").state)
    }
    assert rows["Force to open"] == ("7 lbf", "5.4 lbf")
    assert rows["Seconds to the mark"] == ("2.9 s", "6.2 s")
    assert rows["Last timing, seconds"] == ("6.2 s", "6.2 s")


def test_what_remains_is_what_the_end_says() -> None:
    session = carried_through("adjust-force-left-to-do")
    (line,) = call_back_data(session.state, session.journal.events())["remains"]
    assert line.startswith("Handed over. Left to do: the force to open")
    done = carried_through("school-classroom")
    follows = "Next: Yearly check of a self-closing fire door"
    assert call_back_data(done.state, done.journal.events())["remains"] == [follows]
    done = carried_through("adjust-office-door")
    assert call_back_data(done.state, done.journal.events())["remains"] == []


def test_a_door_made_safe_remains_with_what_is_safe_and_what_follows() -> None:
    session = carried_through("adjust-dead-sweep")
    lines = call_back_data(session.state, session.journal.events())["remains"]
    assert any(line.startswith("Safe: The ladder") for line in lines)
    assert lines[-1] == "Next: Find the fault of a door that closes badly"


def test_the_serial_number_is_on_the_record_and_may_be_left_out() -> None:
    text = record_text((one := carried_through("adjust-office-door")).state, one.journal.events())
    assert "  Serial: LN 20731" in text
    text = record_text((one := carried_through("adjust-sea-front")).state, one.journal.events())
    assert "  Serial: not given" in text


def test_no_size_is_printed_that_nobody_measured_or_was_shown() -> None:
    session = carried_through("adjust-office-door")
    text = record_text(session.state, session.journal.events())
    assert "\n  size: " not in text


def test_the_time_is_that_of_the_clock_on_the_wall() -> None:
    assert local("2026-03-02T04:30:00.000Z", "-05:00") == "2026-03-01 23:30 -05:00"
    assert local("2026-03-02T04:30:00.000Z", "+05:30") == "2026-03-02 10:00 +05:30"


def test_a_fire_door_has_the_eleven_items_of_an_inspection() -> None:
    """NFPA 80 (2013) 5.2.2.4."""
    state = carried_through("inspect-stair-door").state
    found = dict(items(state, "2026-03-02 10:00 +00:00"))
    assert len(found) == 11
    assert found["Date"] == "2026-03-02 10:00 +00:00"
    assert found["Signature"] == BLANK
    assert found["Opening and where it is"] == "inspect-stair-door"
    assert record_data(state, [])["inspection"]["Signature"] == BLANK
    assert items(carried_through("adjust-office-door").state, "") == []


def test_an_old_leaf_is_named_for_the_next_fitter() -> None:
    old, usual = (
        dict(items(carried_through(name).state, ""))["Type and description"]
        for name in ("replace-by-hand-on-an-old-leaf", "school-classroom")
    )
    assert old.startswith("fire door; Old fire door that may hold asbestos; Surface body")
    assert usual.startswith("fire door; Single leaf; Steel faces")


def first_page(name: str) -> str:
    """The first page of a record, as plain lines."""
    session = carried_through(name)
    return record_text(session.state, session.journal.events()).partition("\nDETAIL\n")[0]


def test_a_call_back_to_the_office_door_is_answered_by_the_first_page() -> None:
    """The fitter stands at the door again: which closer it is, what it did, what was turned, how it was left."""
    lines = first_page("adjust-office-door").splitlines()
    for line in (
        "Finished",
        "  Door: adjust-office-door",
        "  Serial: LN 20731",
        "  Mount: Regular arm",
        "  Sweep valve: three eighths of a turn by the label (slower).",
        "  Seconds to the mark: 3.4 s, left at 5.9 s",
        "  Closing time: PASS. Closing time from 90 to 12 degrees: 5.6 s, to be at least 5 s.",
        "  Nothing.",
    ):
        assert line in lines, line


def test_a_call_back_to_a_new_closer_is_answered_by_the_first_page() -> None:
    """Model, spring size and turns, every cut, each test first and last, what was not measured."""
    lines = first_page("demo").splitlines()
    for line in (
        "  Model, by its sheet: generic-a",
        "  Size the leaf needs: 3",
        "  Size set on the bench: 1",
        "  Turns on the bench: 10 full turns weaker than the factory's EN size 3",
        "  Drill the pilot holes in the leaf: done.",
        "  Sweep valve: half a turn clockwise (slower).",
        "  Seconds to the mark: 3.4 s, left at 6.1 s",
        "  Force to open: 4.8 lbf",
        "  Clear width: NOT MEASURED. Clear width at 90 degrees: not measured, to be at least 32 in.",
    ):
        assert line in lines, line


def test_what_remains_is_on_the_first_page_of_a_door_left_with_a_fault() -> None:
    """The spring alone stands behind “Spring turned since”, though a valve was turned along with it."""
    lines = first_page("adjust-force-left-to-do").splitlines()
    assert "  Spring turned since: 1 size by the sheet (weaker)" in lines
    assert "  Force to open: 7 lbf, left at 5.4 lbf" in lines
    assert "  Opening force: FAIL. Opening force: 5.4 lbf, to be at most 5 lbf." in lines
    assert lines[lines.index("What remains") + 1].startswith("  Handed over. Left to do: the force")
