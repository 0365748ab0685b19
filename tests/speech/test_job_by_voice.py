"""The whole of the shipped fitting job by recordings alone: spoken, heard, read back, confirmed."""

import pytest

from guide.checker.graph_cache import graph_of
from guide.files.library import find
from guide.procedure.facts import NOT_GIVEN
from guide.procedure.scenario_file import AnswerShape, ScenarioShape, load_scenario
from guide.run.events import Event
from guide.run.rehearse import Rehearsal, rehearse
from guide.speech.pocketsphinx_engine import PocketSphinx
from guide.speech.rehearse_voice import Sayings, rehearse_aloud
from tests.trade.shipped_sheets import load_sheet

pytestmark = [pytest.mark.needs("flite"), pytest.mark.whole]

FEW_BY_KEYS = 4
"""Steps, of 86, that the keys may take over because the ear is not sure enough."""


@pytest.fixture(scope="module")
def demo() -> ScenarioShape:
    """The library's reading room door."""
    return load_scenario(find("scenario", "demo"))


@pytest.fixture(scope="module")
def by_keys(demo: ScenarioShape) -> Rehearsal:
    sheet = load_sheet(find("sheet", demo.sheet)).to_json()
    return rehearse(demo, graph_of(find("procedure", demo.procedure)), sheet)


@pytest.fixture(scope="module")
def by_voice(demo: ScenarioShape, tmp_path_factory: pytest.TempPathFactory) -> Rehearsal:
    """The same by voice; but the opening angle is first heard as 115 degrees, five more than it is."""
    folder = tmp_path_factory.mktemp("said")
    sayings = Sayings(folder, "rms")
    wrong = AnswerShape(
        at="how-far/opening-angle", wav=str(sayings.wav("one hundred fifteen degrees"))
    )
    place = next(n for n, one in enumerate(demo.answers) if one.at == wrong.at)
    answers = [*demo.answers[:place], wrong, *demo.answers[place:]]
    found = rehearse_aloud(
        demo.model_copy(update={"answers": answers}),
        graph_of(find("procedure", demo.procedure)),
        load_sheet(find("sheet", demo.sheet)).to_json(),
        PocketSphinx(),
        folder=folder,
        every=True,
        sayings=sayings,
    )
    assert len(list(folder.glob("*.wav"))) > 20
    return found


def journal(found: Rehearsal) -> list[Event]:
    assert found.session is not None
    return found.session.journal.events()


def test_it_ends_finished_by_the_same_route(by_voice: Rehearsal, by_keys: Rehearsal) -> None:
    assert by_voice.differences == []
    assert by_voice.end == by_keys.end == "finished"
    assert by_voice.route == by_keys.route


def test_every_fact_is_what_the_keys_gave(by_voice: Rehearsal, by_keys: Rehearsal) -> None:
    assert by_voice.facts == by_keys.facts


def test_nothing_heard_is_stored_without_its_own_yes(by_voice: Rehearsal) -> None:
    waiting: Event | None = None
    confirmed: dict[str, str] = {}
    for event in journal(by_voice):
        if event.kind == "heard":
            waiting = event
        elif event.kind == "confirmed":
            assert waiting is not None
            assert waiting.body["at"] == event.body["at"]
            if event.body["yes"]:
                confirmed[event.body["at"]] = waiting.body["value"]
            waiting = None
    unheard = [event for event in journal(by_voice) if event.kind in ("answered", "timed")]
    left_out = [event for event in unheard if event.body["value"] == NOT_GIVEN]
    assert by_voice.heard is not None
    assert len(unheard) - len(left_out) <= by_voice.heard["by_keys"] <= FEW_BY_KEYS
    assert by_voice.session is not None
    assert len(confirmed) + len(unheard) == len(by_voice.session.state.answers)


def test_what_was_heard_wrong_was_denied_and_said_again(by_voice: Rehearsal) -> None:
    at_angle = [
        (event.kind, event.body.get("value", event.body.get("yes")))
        for event in journal(by_voice)
        if event.body.get("at") == "how-far/opening-angle"
    ]
    assert at_angle[:2] == [("heard", "115 deg"), ("confirmed", False)]
    assert at_angle[-2:] == [("heard", "110 deg"), ("confirmed", True)]


def test_the_words_are_kept_with_how_surely_they_were_heard(by_voice: Rehearsal) -> None:
    spoken = [event.body for event in journal(by_voice) if event.kind == "heard"]
    assert len(spoken) > 30
    assert all(body["words"] and 0 < body["confidence"] <= 1 for body in spoken)


def test_cuts_and_holds_were_passed_by_their_own_phrases(by_voice: Rehearsal) -> None:
    kinds = [event.kind for event in journal(by_voice)]
    assert kinds.count("hold passed") == 1
    assert kinds.count("cut begun") == 3
