"""What a job at a door of a site begins with: what its schedule and its earlier jobs know, and never a reading."""

from guide.measures import parse
from guide.run.run_list import list_runs
from guide.run.settings import Settings
from guide.run.store import read_run
from guide.site.begin import begin_at, to_go_on_with
from guide.site.door_state import DoorState, door_states
from guide.site.schedule.reading import Question
from guide.site.site import Site, SiteDoor
from tests.run.kept_runs import path_of
from tests.site.site_jobs import CLASSROOM, SOUND, job

FIT, CHECK = "fit-surface-closer", "inspect-a-closing-door"
SITE = Site(
    "Clinic",
    "2026-11-30T08:00:00.000Z",
    sheet="generic-a",
    doors=(
        SiteDoor(
            "7",
            "Ward",
            facts={"width": "36 in", "rated": "yes", "leaf": "steel", "old_name": "x"},
            questions=(
                Question("Where do the rods run?", "N6"),
                Question("Which hand?", "D6", "knuckles"),
            ),
        ),
    ),
)
A_FITTER = Settings(name="A. Fitter", firm="Doors & Co", rules="uk")


def ward() -> DoorState:
    (only,) = door_states(SITE, list_runs())
    return only


def test_the_schedule_s_facts_are_offered_and_the_rest_is_asked() -> None:
    session = begin_at(SITE, ward(), FIT, A_FITTER)
    state = session.state
    assert state.supplied == {"width": parse("36 in", "length"), "rated": "yes", "leaf": "steel"}
    assert state.sheet is not None
    assert (state.about["site"], state.about["door"]) == ("Clinic", "7")
    assert (state.about["firm"], state.about["rules"]) == ("Doors & Co", "uk")
    assert session.told == (
        "Answers offered: 3 from the schedule. Confirm each at the door. "
        "The schedule leaves open (1 of 2): Where do the rods run?"
    )
    assert state.answers == {}, "nothing counts before somebody stands at the door"
    session.close()
    assert ward().state == "in-work"


def test_what_an_earlier_job_found_comes_before_the_schedule_and_readings_are_never_offered() -> (
    None
):
    path = job("Clinic", "7", "2026-03-01T09:00", SOUND)
    before, _ = read_run(path)
    assert (before.known("leaf"), before.known("open_force")) != (None, None)
    session = begin_at(SITE, ward(), CHECK, A_FITTER)
    offered = session.state.supplied
    session.close()
    facts = session.state.graph.facts
    assert offered["leaf"] == before.known("leaf")
    assert all(facts[name].schedule for name in offered)
    assert "open_force" not in offered
    assert "sweep_found" not in offered
    assert session.state.carried == frozenset(), "a year later nothing is used unasked"
    assert session.state.sheet is None, "the sheet is that of the closer to be fitted"
    assert session.told.startswith("Answers offered: ")
    assert "from earlier jobs" in session.told


def test_of_several_jobs_the_latest_is_believed() -> None:
    job("Clinic", "7", "2026-03-01T09:00", SOUND)
    job("Clinic", "7", "2026-05-01T09:00", CLASSROOM)
    latest, _ = read_run(ward().jobs[0].path)
    session = begin_at(SITE, ward(), CHECK, A_FITTER)
    assert session.state.supplied["leaf"] == latest.known("leaf")
    session.close()


def test_a_job_that_cannot_be_read_is_said() -> None:
    path = job("Clinic", "7", "2026-03-01T09:00", SOUND)
    one = ward()
    path.write_bytes(path.read_bytes()[:400])
    session = begin_at(SITE, one, CHECK, A_FITTER)
    session.close()
    assert "Earlier jobs that cannot be read: 1." in session.told


def test_an_open_job_and_one_made_safe_are_gone_on_with() -> None:
    assert to_go_on_with(ward(), FIT) is None
    job("Clinic", "7", "2026-03-01T09:00", SOUND)
    assert to_go_on_with(ward(), CHECK) is None
    job("Clinic", "7", "2026-04-01T09:00", CLASSROOM, answers=8, end="Rain.")
    safe = to_go_on_with(ward(), FIT)
    assert safe is not None
    assert safe.outcome == "made-safe"
    session = begin_at(SITE, ward(), CHECK, A_FITTER)
    session.close()
    open_ = to_go_on_with(ward(), CHECK)
    assert open_ is not None
    assert open_.path == path_of(session)
