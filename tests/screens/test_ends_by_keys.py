"""The end of a job by keys: the next job on one key, taking up again, and what is made safe."""

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.run.session import Session
from guide.run.store import begin_run
from guide.screens.hingeside_app import HingesideApp
from guide.site.new_job import NewJob
from tests.run.small_procedures import give
from tests.run.test_ends import WORN_HINGES
from tests.screens.back_door import Hand, app_of
from tests.screens.seen import seen


def began(name: str, *answers: str) -> Session:
    session = begin_run(graph_of(find("procedure", name)), units="inch", about={"door": "114"})
    give(session, *answers)
    return session


def test_the_next_job_is_one_key_away() -> None:
    hand = Hand(began("find-the-fault", *WORN_HINGES))
    assert hand.view.desk.shown.next_title == "Adjust a closer in service"
    assert "J Next job" in " ".join(hand.look().split())
    hand.press("j")
    assert hand.view.desk.left
    assert hand.view.desk.onward == "adjust-a-closer"


def test_it_is_still_offered_after_the_yes() -> None:
    hand = Hand(began("find-the-fault", *WORN_HINGES))
    assert "J begins: Adjust a closer" in " ".join(hand.press("y").split())
    assert not hand.view.desk.left
    hand.press("j")
    assert hand.view.desk.onward == "adjust-a-closer"


def test_a_job_is_taken_up_with_what_has_changed() -> None:
    hand = Hand(began("fit-surface-closer", "unsure", "done"))
    assert "A goes on with this job" in " ".join(hand.look().split())
    assert "what the foreman said" in hand.press("a")
    assert "Taken up again." in hand.type("The label was found.")
    assert hand.view.session.state.ended == ""
    hand.press("left", "c", "1")
    assert hand.at == "may-i-drill/right-closer"


def test_what_must_be_safe_is_all_on_a_small_screen() -> None:
    hand = Hand(began("find-the-fault", *WORN_HINGES))
    hand.press("x")
    shown = " ".join(hand.type("The ladder is cracked.").split())
    assert "The ladder: down and away." in shown
    assert "Press Y if all of it is safe, N to go on with the job." in shown


async def test_the_app_goes_on_with_the_next_job_at_the_same_door() -> None:
    app = app_of(began("find-the-fault", *WORN_HINGES))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("j")
        await pilot.pause()
        assert app.run_view is not None
        assert app.run_view.session.state.graph.name == "adjust-a-closer"
        assert "114 · Adjust a closer in service" in seen(app)
        assert "3 answers are carried over" in seen(app)


async def test_the_first_screen_lists_what_can_be_taken_up() -> None:
    began("fit-surface-closer", "unsure", "done").close()
    app = app_of(None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "A  Take up" in seen(app)
        await pilot.press("a")
        await pilot.pause()
        assert "goes on with this job" in seen(app)


async def test_a_job_named_on_the_command_line_asks_for_its_door_first() -> None:
    app = HingesideApp(job=NewJob(find("procedure", "adjust-a-closer"), "", None))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "Door number, and its place after a comma?" in seen(app)
        await pilot.press(*"114", "comma", "space", *"stair", "enter")
        await pilot.pause()
        assert app.run_view is not None
        about = app.run_view.session.state.about
        assert (about["door"], about["place"]) == ("114", "stair")
