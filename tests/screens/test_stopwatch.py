"""The stopwatch by itself, and in the step of a run: one start for both parts of a swing, median, slips."""

from collections.abc import Iterator
from fractions import Fraction

import pytest

from guide.measures import Quantity
from guide.papers.record.record_forms import record_text
from guide.procedure.facts import Fact
from guide.run.stopwatch import ENOUGH, TWICE, Stopwatch
from guide.run.swings import sifted, timed
from guide.screens.figures import in_five_rows, in_three_rows
from guide.screens.hingeside_app import HingesideApp
from tests.screens.back_door import Hand
from tests.screens.door_to_tune import tuning_run
from tests.screens.seen import lines_seen, words_seen

SWEEP = Fact("sweep_time", "time", step=Quantity(Fraction(1, 10), "s"))
TO_MARK, TO_SHUT = "sweep-now", "latch-now"


class Clock:
    """A clock that stands until it is moved on."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


def pressed(*after: float, blocks: tuple[str, ...] = (TO_MARK,)) -> tuple[Stopwatch, str]:
    """A watch pressed so many seconds after the press before; and what the last press said."""
    clock = Clock()
    watch, said = Stopwatch(clock), ""
    for seconds in after:
        clock.now += seconds
        said = watch.press(*blocks)
    return watch, said


def test_the_time_is_that_between_the_presses() -> None:
    watch, _ = pressed(0, 5.93)
    assert not watch.running
    assert watch.text(SWEEP) == "5.9 s"


def test_one_start_gives_both_parts_of_a_swing() -> None:
    watch, _ = pressed(0, 6.1, 1.48, blocks=(TO_MARK, TO_SHUT))
    assert not watch.running
    assert watch.text(SWEEP) == "6.1 s"
    watch.stand_at(TO_SHUT)
    assert watch.text(SWEEP) == "1.5 s"


def test_a_swing_that_stops_short_counts_as_far_as_it_was_marked() -> None:
    watch, _ = pressed(0, 6.1, blocks=(TO_MARK, TO_SHUT))
    assert watch.running
    watch.end_swing()
    assert watch.text(SWEEP) == "6.1 s"
    watch.stand_at(TO_SHUT)
    assert watch.text(SWEEP) == ""


def test_another_block_begins_anew() -> None:
    watch, _ = pressed(0, 5.9)
    watch.stand_at("force-now")
    assert watch.swings == []


def test_a_press_right_after_the_start_is_not_counted_and_is_said() -> None:
    watch, said = pressed(0, 0.2)
    assert watch.running
    assert said == TWICE
    found = pressed(0, 0.2, 5.8)[0].taken(SWEEP)
    assert found is not None
    assert found.body() == {"swings": ["6 s"], "dropped": ["0.2 s"]}


def test_after_five_swings_it_does_not_start_again() -> None:
    watch, said = pressed(*[0, 6] * 5, 1)
    assert not watch.running
    assert said == ENOUGH


@pytest.mark.parametrize(
    ("seconds", "median", "dropped"),
    [
        ([5.8, 6.2, 5.9], "5.9 s", []),
        ([5.8, 6.2], "6 s", []),
        ([5.8, 1.1, 6.2], "6 s", ["1.1 s"]),
        ([5.8, 19.0, 6.2, 5.9], "5.9 s", ["19 s"]),
        ([2.0, 6.5], "4.3 s", []),
    ],
)
def test_the_median_without_what_is_more_than_three_times_off(
    seconds: list[float], median: str, dropped: list[str]
) -> None:
    """Of two alone nobody can tell which is wrong; both count."""
    found = timed(seconds, SWEEP)
    assert str(found.value) == median
    assert [str(one) for one in found.dropped] == dropped


def test_all_count_where_no_two_agree() -> None:
    assert sifted([1.0, 10.0, 100.0]) == ([1.0, 10.0, 100.0], [])


def test_the_time_stands_in_large_figures() -> None:
    rows = in_five_rows("5.8")
    assert len(rows) == 5
    assert "".join(rows).count("█") > 40
    assert [len(row) for row in in_three_rows("5.8")] == [12] * 3


# In the run


@pytest.fixture
def at_the_sweep() -> Iterator[tuple[Hand, Clock]]:
    """The office door, let go once, at the step that times it."""
    clock = Clock()
    hand = tuning_run(clock)
    hand.press("1")
    assert hand.at == "sweep-now"
    yield hand, clock
    hand.view.session.close()


def swing(hand: Hand, clock: Clock, *parts: float) -> str:
    """One swing under the watch."""
    seen = hand.press("t")
    for part in parts:
        clock.now += part
        seen = hand.press("t")
    clock.now += 5
    return seen


def test_three_presses_fill_both_steps(at_the_sweep: tuple[Hand, Clock]) -> None:
    hand, clock = at_the_sweep
    assert "7 1/2 in from shut" in hand.look()
    assert "as the edge passes the mark" in hand.press("t")
    clock.now += 5.96
    assert "T stops it" in hand.press("t")
    clock.now += 1.52
    assert "6 s" in hand.press("t")
    hand.press("enter")
    assert hand.at == "latch-now"
    assert hand.view.text == "1.5 s"
    clock.now += 2
    hand.press("enter")
    assert hand.at == "force-now"
    assert hand.view.watch.swings == []


def test_the_median_of_three_swings_is_kept_with_them(at_the_sweep: tuple[Hand, Clock]) -> None:
    hand, clock = at_the_sweep
    swing(hand, clock, 5.8, 1.4)
    assert "One swing more" in hand.look()
    swing(hand, clock, 6.2, 1.5)
    swing(hand, clock, 6.0, 1.6)
    assert hand.view.watch.swings == pytest.approx([5.8, 6.2, 6.0])
    for _ in range(2):
        clock.now += 2
        hand.press("enter")
    bodies = [e.body for e in hand.view.session.journal.events() if e.kind == "timed"]
    assert [body["value"] for body in bodies] == ["6 s", "1.5 s"]
    assert bodies[0]["swings"] == ["5.8 s", "6.2 s", "6 s"]
    assert bodies[1] == {
        "at": "latch-now",
        "value": "1.5 s",
        "swings": ["1.4 s", "1.5 s", "1.6 s"],
        "dropped": [],
    }
    record = record_text(hand.view.session.state, hand.view.session.journal.events())
    assert "sweep-now: 6 s, median of 5.8 s, 6.2 s, 6 s" in record


def test_a_typed_time_has_no_swings(at_the_sweep: tuple[Hand, Clock]) -> None:
    hand, clock = at_the_sweep
    swing(hand, clock, 5.8, 1.4)
    hand.press(*["backspace"] * 6)
    hand.type("6.1")
    bodies = [e.body for e in hand.view.session.journal.events() if e.kind == "timed"]
    assert bodies[0] == {"at": "sweep-now", "value": "6.1 s"}


def test_enter_takes_a_swing_that_stopped_short(at_the_sweep: tuple[Hand, Clock]) -> None:
    hand, clock = at_the_sweep
    hand.press("t")
    clock.now += 6.1
    hand.press("t")
    clock.now += 4
    hand.press("enter")
    assert hand.at == "latch-now"
    assert hand.view.text == ""
    assert str(hand.view.session.state.env["sweep_time"]) == "6.1 s"


def test_the_word_for_the_key_does_the_same(at_the_sweep: tuple[Hand, Clock]) -> None:
    hand, clock = at_the_sweep
    hand.view.take(hand.view.desk.command("watch"))
    clock.now += 6.0
    hand.view.take(hand.view.desk.command("watch"))
    clock.now += 1.5
    hand.view.take(hand.view.desk.command("watch"))
    hand.view.enter_line()
    hand.view.enter_line()
    assert hand.at == "force-now"


@pytest.mark.parametrize(("size", "rows"), [((80, 24), 5), ((40, 12), 3)])
async def test_the_large_time_and_the_swings_are_in_sight(
    at_the_sweep: tuple[Hand, Clock], size: tuple[int, int], rows: int
) -> None:
    hand, clock = at_the_sweep
    app = HingesideApp(hand.view.session, clock=clock)
    async with app.run_test(size=size) as pilot:
        for after in (0.0, 5.8, 1.4, 3.0, 1.2, 1.0, 3.0, 6.2, 1.5):
            clock.now += after
            await pilot.press("t")
        clock.now += 3.4
        await pilot.press("t")
        clock.now += 3.4
        await pilot.pause(0.3)
        assert sum(bool(set(line) & set("█▀▄")) for line in lines_seen(app)) >= rows
        assert "5.8 s" in words_seen(app)
        assert size == (40, 12) or "Not counted, a slip of the thumb: 1.2 s." in words_seen(app)
