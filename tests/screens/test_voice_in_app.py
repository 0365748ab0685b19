"""A run carried on by voice in the app: heard, read back, confirmed, and never in the way of a key."""

from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager

import pytest
from rich.cells import cell_len
from textual.pilot import Pilot

from guide.run.session import Session
from guide.run.settings import Settings
from guide.screens.hingeside_app import HingesideApp
from guide.screens.voice_line import VOICE_IS_OFF, VoiceLine
from tests.screens.back_door import slow_clock
from tests.screens.said_voice import NOT_CAUGHT, SaidVoice
from tests.screens.seen import lines_seen, seen

GONE = "The microphone has gone; plug it in again, or use the keys."


class Fitter:
    """Somebody at the app who speaks and presses keys."""

    def __init__(self, app: HingesideApp, voice: SaidVoice, pilot: Pilot[int]) -> None:
        self.app, self.voice, self.pilot = app, voice, pilot

    async def says(self, *sayings: str) -> str:
        """Say these, one after another; what the screen shows then."""
        for words in sayings:
            self.voice.hear(words)
            await self.pilot.pause()
        return self.screen

    async def press(self, *keys: str) -> str:
        """Press keys; what the screen shows then."""
        await self.pilot.press(*keys)
        await self.pilot.pause()
        return self.screen

    @property
    def screen(self) -> str:
        return seen(self.app)

    @property
    def row(self) -> str:
        """The voice's line, above the keys."""
        return self.line.text

    @property
    def line(self) -> VoiceLine:
        return self.app.screen.query_one(VoiceLine)


@asynccontextmanager
async def fitter(
    session: Session,
    voice: SaidVoice | None = None,
    size: tuple[int, int] = (80, 24),
    **settings: str,
) -> AsyncIterator[Fitter]:
    """The app with a voice, at the back door."""
    voice = voice or SaidVoice()
    ticks: Iterator[float] = slow_clock()
    app = HingesideApp(
        session, Settings(**settings), clock=lambda: next(ticks), open_voice=lambda: voice
    )
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        yield Fitter(app, voice, pilot)


async def test_the_step_is_said_and_what_listens_is_shown(session: Session) -> None:
    async with fitter(session) as at:
        assert at.voice.said == ["Wedge it."]
        assert "LISTENING" in at.row
        assert "Wedge the leaf" in at.screen


async def test_next_goes_on_and_says_the_step_that_follows(session: Session) -> None:
    async with fitter(session) as at:
        shown = await at.says("next")
        assert "dust sheet" in shown
        assert at.voice.said[-1] == "Dust sheet."


async def test_a_width_is_read_back_and_counts_after_a_yes(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("next", "next", "steel", "yes")
        shown = await at.says("thirty five and seven eighths inches")
        assert "width" not in session.state.env
        assert "Is that right?" in shown
        assert "“thirty five and seven eighths inches”: 35 7/8 in. Say yes or no." in at.row
        assert at.voice.said[-1].endswith("Yes or no?")
        await at.says("yes")
        assert str(session.state.env["width"]) == "35 7/8 in"
        kinds = [event.kind for event in session.journal.events()]
        assert kinds[-2:] == ["heard", "confirmed"]


async def test_no_asks_again_and_nothing_counts(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("next", "next", "steel", "no")
        assert "leaf" not in session.state.env
        assert "What is the leaf made of?" in at.screen
        await at.says("wood", "yes")
        assert session.state.env["leaf"] == "wood"


async def test_a_key_confirms_what_was_heard(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("next", "next", "steel")
        await at.press("y")
        assert session.state.env["leaf"] == "steel"
        assert at.voice.said[-1] == "How wide?"


async def test_a_lone_yes_never_passes_a_hold_or_begins_a_cut(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("next", "next", "steel", "yes", "thirty six inches", "yes")
        assert "leaf: Steel" in at.voice.said[-1] or "Which leaf: Steel" in at.voice.said[-1]
        await at.says("yes")
        assert session.state.node.id == "before-drilling"
        assert "A hold is passed when every value" in at.screen
        await at.says(phrase("hold"))
        assert session.state.node.id == "drill"
        await at.says("yes")
        assert not session.state.cuts
        await at.says(phrase("cut"))
        assert len(session.state.cuts) == 1
        await at.says("next")
        assert session.state.node.id == "let-it-close"


def phrase(name: str) -> str:
    """What is said for a command."""
    from guide.words import by_name

    return by_name(name).word


async def test_what_was_said_for_a_step_that_is_gone_does_not_count(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("next", "next", "steel", "yes")
        old = at.voice.turn
        await at.press(*"36", "enter")
        at.voice.hear_late(old)
        await at.pilot.pause()
        assert session.state.pending is None
        assert "came too late" in at.row


async def test_one_key_mutes_and_opens_the_ear_again(session: Session) -> None:
    async with fitter(session) as at:
        await at.press("v")
        assert "MUTED" in at.row
        await at.says("next")
        assert session.state.node.id == "wedge"
        await at.says("listen")
        assert "LISTENING" in at.row
        await at.says("mute")
        assert "MUTED" in at.row
        await at.press("v")
        await at.says("next")
        assert session.state.node.id == "sheet-the-floor"


async def test_push_to_talk_opens_the_ear_for_one_saying(session: Session) -> None:
    async with fitter(session, push_to_talk="yes") as at:
        assert "MICROPHONE OFF" in at.row
        await at.says("next")
        assert session.state.node.id == "wedge"
        await at.press("v")
        assert "LISTENING" in at.row
        await at.says("next", "next")
        assert session.state.node.id == "sheet-the-floor"
        assert "MICROPHONE OFF" in at.row


async def test_any_key_and_the_word_end_what_is_being_said(session: Session) -> None:
    async with fitter(session) as at:
        at.voice.speaking = True
        at.line.show()
        assert "SPEAKING" in at.row
        await at.press("z")
        assert "LISTENING" in at.row
        assert at.voice.hushed == 1
        assert session.state.node.id == "wedge"
        at.voice.speaking = True
        await at.press("enter")
        assert at.voice.hushed == 2
        assert session.state.node.id == "sheet-the-floor"
        at.voice.speaking = True
        await at.says(phrase("hush"))
        assert at.voice.hushed == 3


async def test_a_key_that_moves_the_run_says_the_step_and_others_say_nothing(
    session: Session,
) -> None:
    async with fitter(session) as at:
        await at.press("w", "s", "enter")
        assert at.voice.said == ["Wedge it."]
        await at.press("enter")
        assert at.voice.said == ["Wedge it.", "Dust sheet."]
        await at.press("left")
        assert at.voice.said[-1] == "Wedge it."


async def test_why_is_said_in_full(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("why")
        assert "A leaf that moves carries the drill with it." in at.voice.said[-1]
        assert "Use two." in at.voice.said[-1]


async def test_status_and_help_are_said_as_well_as_shown(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("status")
        assert at.voice.said[-1] == "Nothing is known yet."
        await at.says("next", "next", "steel", "yes", "thirty five and seven eighths inches", "yes")
        await at.says("status")
        assert at.voice.said[-1].endswith("How wide: thirty five and seven eighths inches.")
        await at.says("help")
        assert "“next”, “go back”, “why”" in at.voice.said[-1]


async def test_words_of_another_language_do_the_same(session: Session) -> None:
    async with fitter(session, language="es") as at:
        await at.says("siguiente")
        assert session.state.node.id == "sheet-the-floor"


@pytest.mark.parametrize("word", ["go back", "change it", "help", "status", "make a note", "pause"])
async def test_commands_are_carried_out_or_refused_in_a_sentence(
    session: Session, word: str
) -> None:
    async with fitter(session) as at:
        before = at.screen
        shown = await at.says("next", word)
        assert shown != before


async def test_a_note_being_typed_is_not_lost_to_a_word(session: Session) -> None:
    async with fitter(session) as at:
        await at.press("m", *"Old")
        assert "Old" in (await at.says("next"))
        assert "Finish the line first" in at.row
        assert session.state.node.id == "wedge"
        await at.press("enter")
        assert session.state.notes[-1][2] == "Old"


async def test_v_and_z_are_letters_where_words_are_typed(session: Session) -> None:
    async with fitter(session) as at:
        assert "vz" in await at.press("m", "v", "z")


async def test_without_a_microphone_a_sentence_stands_and_the_run_goes_on_by_keys(
    session: Session,
) -> None:
    voice = SaidVoice(broken=GONE)
    async with fitter(session, voice) as at:
        assert GONE in at.row
        await at.press("enter")
        assert session.state.node.id == "sheet-the-floor"
        assert at.voice.said[-1] == "Dust sheet."
        voice.broken = ""
        await at.press("v")
        assert voice.starts == 2
        assert "LISTENING" in at.row


async def test_a_microphone_that_goes_in_the_middle_of_a_word(session: Session) -> None:
    async with fitter(session) as at:
        assert at.voice.hears is not None
        at.voice.hears.begins()
        await at.pilot.pause()
        assert "HEARING" in at.row
        at.voice.hears.trouble(GONE)
        await at.pilot.pause()
        assert "VOICE OFF" in at.screen
        await at.press("enter", "enter", "1")
        assert session.state.env["leaf"] == "steel"


async def test_talk_among_people_is_not_answered_and_takes_nothing_away(session: Session) -> None:
    async with fitter(session) as at:
        said = len(at.voice.said)
        for _ in range(5):
            at.voice.hear("the truck is parked round the back", confidence=0.0)
            await at.pilot.pause()
        assert NOT_CAUGHT in at.row
        assert len(at.voice.said) == said
        await at.says("next")
        assert session.state.node.id == "sheet-the-floor"


async def test_after_three_misses_the_keys_take_over_until_the_next_step(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("next", "next", "stainless", "tin", "brass")
        assert "Use the keys for this one" in at.row
        await at.says("steel")
        assert session.state.pending is None
        await at.press("1")
        assert session.state.env["leaf"] == "steel"
        await at.says("thirty six inches", "yes")
        assert str(session.state.env["width"]) == "36 in"


async def test_what_the_machine_cannot_do_is_told_while_the_rest_goes_on(session: Session) -> None:
    async with fitter(session) as at:
        at.voice.deaf = "Nothing comes from the microphone; is it muted or not plugged in?"
        at.line.show()
        assert at.voice.deaf in at.row
        at.voice.deaf, at.voice.silent = (
            "",
            "Nothing can be said aloud: no loudspeaker found.",
        )
        at.line.show()
        assert at.voice.silent in at.row
        await at.says("next")
        assert "Next." in at.row


async def test_the_stopwatch_goes_by_the_same_words_as_by_its_key(session: Session) -> None:
    async with fitter(session) as at:
        await at.press("enter", "enter", "1", *"36", "enter", "y", "y", "enter")
        assert session.state.node.id == "let-it-close"
        said = len(at.voice.said)
        await at.says("start the clock")
        assert "the watch runs" in at.row
        assert len(at.voice.said) == said
        await at.press("t")
        assert "Swing:" in at.screen
        await at.says("next")
        assert "swing_time" in session.state.env


async def test_the_meter_moves_without_a_key_and_has_no_need_of_colour(session: Session) -> None:
    async with fitter(session) as at:
        assert "·····" in at.row
        at.voice.level = 0.6
        at.line.show()
        assert "███··" in at.row


@pytest.mark.parametrize("size", [(40, 12), (80, 24), (200, 60)])
async def test_the_line_stands_at_every_size_and_over_every_page(
    session: Session, size: tuple[int, int]
) -> None:
    async with fitter(session, size=size) as at:
        for key in ("question_mark", "enter", "s", "enter", "g", "w"):
            await at.press(key)
            assert "LISTENING" in at.screen
            assert {cell_len(line) for line in lines_seen(at.app)} == {size[0]}


async def test_the_voice_is_let_go_of_with_the_run(session: Session) -> None:
    async with fitter(session) as at:
        await at.says("pause")
        assert at.voice.closed
        assert "The job is paused" in at.screen


async def test_with_voice_off_its_keys_say_how_to_turn_it_on(session: Session) -> None:
    app = HingesideApp(session)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("v")
        await pilot.pause()
        assert app.run_view is not None
        assert app.run_view.message == VOICE_IS_OFF


async def test_the_help_tells_the_words_of_the_voice_only_where_it_is_on(session: Session) -> None:
    async with fitter(session, size=(80, 60)) as at:
        assert "By voice" in await at.press("question_mark")
        assert "all is right" in at.screen or phrase("hold") in at.screen
    app = HingesideApp(session)
    async with app.run_test(size=(80, 60)) as pilot:
        await pilot.press("question_mark")
        await pilot.pause()
        assert "By voice" not in seen(app)
