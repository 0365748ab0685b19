"""The tests of the tuning beside their limits: values, the judgement of each, and the plot."""

from guide.drawing.plot import text_plot
from guide.run.pages.readings import NO_TEST, plot_of, readings_page, readings_so_far
from tests.run.stands import standing_at


def test_every_test_is_judged_by_its_limit() -> None:
    found = readings_so_far(standing_at("adjust-office-door", "tune/sweep-now#3").state)
    sweep, latch, force = found
    assert [(test, value) for test, value, _ in sweep.values] == [(1, 3.4), (2, 4.7)]
    assert (sweep.low, sweep.high, latch.low, latch.high) == (5.0, 7.0, None, 3.0)
    assert "Test 1: 3.4 s, too little; test 2: 4.7 s, too little." in sweep.says
    assert "0.6 s, within" in latch.says
    assert (force.unit, force.high) == ("lbf", 5.0)


def test_the_limit_of_the_force_is_that_of_the_rules_of_the_job() -> None:
    found = readings_so_far(standing_at("adjust-garden-door-uk", "tune/sweep-now").state)
    assert found == []
    found = readings_so_far(standing_at("adjust-sea-front", "tune/latch-now").state)
    assert [one.fact for one in found] == ["sweep_time"]


def test_the_plot_has_the_limits_at_its_side_and_as_many_rows_as_it_is_given() -> None:
    plot = plot_of(readings_so_far(standing_at("adjust-office-door", "tune/sweep-now#3").state)[0])
    lines = text_plot(plot, 50, 12)
    assert len(lines) <= 12
    assert max(map(len, lines)) <= 50
    sides = [line.split()[0] for line in lines if line.strip()]
    assert {"7", "5", "0"} <= set(sides)
    assert all(line.isascii() for line in text_plot(plot, 50, 12, ascii_only=True))
    assert text_plot(plot, 12, 4) == []


def test_before_the_first_test_the_page_says_so() -> None:
    page = readings_page(standing_at("adjust-office-door", "tune/let-go").state)
    assert page.sections[0].lines == (NO_TEST,)
