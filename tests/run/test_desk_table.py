"""What every command does in every state, the same whether it is a key, a line or a word said.

Differences that are meant: a voice listens for few words in each state, so that they stay apart by ear, and what is
not listened for is `unheard` where the others refuse it; an answer that was heard waits for a yes; the reason for
making safe is not dictated. There is no stopwatch line by line.
"""

import pytest

from guide.run.desk import Desk
from guide.run.desk_words import BY_VOICE, KEYS, LINES, WAITS, Way
from guide.run.outcomes import Refusal
from guide.words import PAGES, by_name
from tests.run.desk_hands import STATES, TYPED, by_keys, by_line, by_voice
from tests.run.small_procedures import begin, give

REFUSED, STAYS = "refused", "stays"
EVERYWHERE = {
    "done": REFUSED,
    "yes": REFUSED,
    "no": REFUSED,
    "forward": REFUSED,
    "change": REFUSED,
    "why": STAYS,
    "detail": STAYS,
    "status": STAYS,
    "papers": STAYS,
    "draw": REFUSED,  # neither mount nor hinge side is known of this door
    "note": "wants note",
    "photo": "wants photo",
    "pause": "paused; leaves",
    "safe": "wants safe",
    "repeat": STAYS,
    "help": STAYS,
    "unsure": REFUSED,
    "watch": REFUSED,
    "hold": REFUSED,
    "next job": REFUSED,  # no other job follows from this one
    "take up": REFUSED,  # it has not ended
    "cut": REFUSED,
}
"""What comes of a command where the table below says nothing else."""
LOOKED = dict.fromkeys(
    ("why", "detail", "status", "papers", "repeat", "help"), "looks at what-leaf"
)
CHANGED = dict.fromkeys(
    ("why", "detail", "status", "papers", "repeat", "help"), "changes what-leaf"
)
TABLE: dict[str, dict[str, str]] = {
    "card": {"done": "done done done", "back": REFUSED},
    "choice": {"back": "looks at sheet", "unsure": "answered"},
    "number": {"back": "looks at what-leaf"},
    "step": {"done": "done", "back": "looks at how-wide"},
    "hold": {"hold": "hold passed", "back": "looks at mark"},
    "cut": {"cut": "cut begun", "back": "looks at before-drilling"},
    "cut begun": {"done": "done", "back": "looks at before-drilling"},
    "stopwatch": {"watch": STAYS, "back": "looks at drill"},
    "check": {"yes": "answered", "no": "answered", "back": "looks at let-it-close"},
    "end": {"yes": "ended", "back": "looks at lies-flat"},
    "read back": {"yes": "confirmed", "no": "confirmed", "back": "looks at what-leaf"},
    "interrupted": {"back": "looks at before-drilling"},
    "stopped": {"back": "looks at mark"},
    "looking": {
        **LOOKED,
        "done": STAYS,  # on, to where the run stands
        "back": "looks at sheet",
        "forward": STAYS,
        "change": "changes what-leaf",
        "note": "wants note; looks at what-leaf",
        "photo": "wants photo; looks at what-leaf",
        "safe": "wants safe; looks at what-leaf",
    },
    "changing": {
        **CHANGED,
        "back": "looks at sheet",
        "forward": STAYS,
        "change": "changes what-leaf",
        "note": "wants note; changes what-leaf",
        "photo": "wants photo; changes what-leaf",
        "safe": "wants safe; changes what-leaf",
        "unsure": "revised",
    },
}
COMMANDS = (*EVERYWHERE, "back")
YES_KEY = {"hold": "hold", "cut": "cut"}
"""Where the key and the line of yes mean another command."""


def expected(state: str, command: str) -> str:
    return TABLE[state].get(command) or EVERYWHERE[command]


def given_at(front: str, state: str) -> list[str]:
    """The commands that a front end has in this state."""
    return [one for one in COMMANDS if front == "voice" or _given_by_hand(front, state, one)]


def _given_by_hand(front: str, state: str, command: str) -> bool:
    """Whether key or line mean this command here: yes, hold and cut share a key, yes and hold a word."""
    if command in ("hold", "cut"):
        return YES_KEY.get(state) == command
    return command != "yes" or state not in YES_KEY or (front == "line" and state == "cut")


@pytest.mark.parametrize("state", STATES)
def test_by_a_key_of_the_app(state: str) -> None:
    given = given_at("keys", state)
    found = by_keys(state, COMMANDS)
    assert {one: found[one] for one in given} == {one: expected(state, one) for one in given}


@pytest.mark.parametrize("state", STATES)
def test_by_a_line(state: str) -> None:
    given = given_at("line", state)
    wanted = {one: REFUSED if one == "watch" else expected(state, one) for one in given}
    found = {one: by_line(state, TYPED.get(one, by_name(one).word)) for one in given}
    assert found == wanted


@pytest.mark.parametrize("state", STATES)
def test_by_voice(state: str) -> None:
    found = {one: by_voice(state, by_name(one).word) for one in given_at("voice", state)}
    for command, outcome in found.items():
        wanted = expected(state, command).replace("answered", "heard").replace("revised", "heard")
        wanted = wanted.replace("wants safe", "wants yes")
        if (state, command) == ("card", "done"):
            wanted = "done"  # only the step that was said aloud
        unheard_for_refused = (outcome, wanted) == ("unheard", REFUSED)
        not_listened_for = outcome == "unheard" and (state, command) in NOT_LISTENED_FOR
        assert outcome == wanted or unheard_for_refused or not_listened_for, (command, found)


@pytest.mark.parametrize("state", STATES)
def test_a_page_is_looked_up_anywhere_and_changes_nothing(state: str) -> None:
    stays = {"looking": "looks at what-leaf", "changing": "changes what-leaf"}.get(state, STAYS)
    names = tuple(one.name for one in PAGES)
    assert by_keys(state, names) == dict.fromkeys(names, stays)
    for page in PAGES:
        assert by_line(state, page.word) == by_voice(state, page.word) == stays, page.name


NOT_LISTENED_FOR = {("changing", "forward"), ("changing", "change")}
"""While a new answer is asked for, words for looking about are not listened for."""


WAYS = {"Enter": KEYS, "line": LINES, "voice": BY_VOICE}


@pytest.mark.parametrize("way", WAYS.values(), ids=WAYS)
@pytest.mark.parametrize(
    "state", ["choice", "number", "hold", "cut", "end", "read back", "stopped"]
)
def test_a_refusal_is_one_sentence_that_names_each_front_end_s_own_commands(
    state: str, way: Way
) -> None:
    session = begin("sports-hall")
    give(session, *STATES[state])
    desk = Desk(session)
    outcome = desk.command("done", by=way)
    assert outcome == Refusal(way.tell(WAITS[desk.accepts.kind], desk.accepts))


def test_each_front_end_names_its_own_words() -> None:
    session = begin("sports-hall")
    give(session, *STATES["hold"])
    told = [Desk(session).command("done", by=way).told for way in WAYS.values()]
    assert told == [
        "A hold is passed when every value is right: press Y.",
        "A hold is passed when every value is right: type “yes”.",
        "A hold is passed when every value is right: say “every value is right”.",
    ]


def test_a_line_may_be_the_letter_of_the_key() -> None:
    for state, letter, command in (
        ("looking", "c", "change"),
        ("number", "x", "safe"),
        ("number", "m", "note"),
        ("number", "p", "pause"),
        ("hold", "y", "hold"),
        ("number", "b", "back"),
    ):
        assert by_line(state, letter) == expected(state, command), letter


def test_a_line_may_be_the_number_that_is_listed() -> None:
    assert by_line("choice", "2") == by_line("choice", "3") == by_line("check", "1") == "answered"
    assert by_line("read back", "1") == by_line("read back", "2") == "confirmed"
    assert by_line("interrupted", "3") == "cut resolved"
    assert by_line("stopped", "2") == "wants resolve"
