"""The command lexicon: each command has a word to say or type and a key to press.

Every front end and every help page is made from this table, so that none can leave one out.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Command:
    """One thing a person can tell the guide to do at any step."""

    name: str
    word: str
    """The word to say, and to type in a line."""
    also: tuple[str, ...]
    """Other words that mean the same."""
    key: str
    """The key in the app, as Textual names it."""
    key_shown: str
    """The key as a person reads it."""
    meaning: str
    changes: bool
    """Whether it changes the run, so that a voice needs the higher confidence."""


COMMANDS = (
    Command("done", "done", ("next", "ok"), "enter", "Enter", "The step is done; go on", True),
    Command("yes", "yes", ("y", "right"), "y", "Y", "The value read back is right", True),
    Command("no", "no", ("n", "wrong"), "n", "N", "The value read back is wrong", True),
    Command("back", "back", ("b",), "left", "←", "Look at the step before", False),
    Command("forward", "forward", ("f",), "right", "→", "Look at the step after", False),
    Command("change", "change", ("revise",), "c", "C", "Change the answer you look at", True),
    Command("why", "why", ("explain",), "w", "W", "Show or hide why, what to watch for", False),
    Command("detail", "detail", (), "d", "D", "Full, brief or spoken words only", False),
    Command("status", "status", ("known",), "s", "S", "What is known and what was done", False),
    Command("note", "make a note", ("note",), "m", "M", "Add a note to the record", True),
    Command("pause", "pause", ("stop for now",), "p", "P", "Put the job by; it is kept", True),
    Command(
        "safe",
        "make it safe",
        ("make safe", "safe"),
        "x",
        "X",
        "Stop, make safe, call the foreman",
        True,
    ),
    Command("repeat", "repeat", ("again",), "r", "R", "Show or say this step again", False),
    Command("help", "help", ("?", "keys"), "question_mark", "?", "Every key and word", False),
)

ANSWERS = (
    Command("begin", "begin", ("start",), "y", "Y", "Begin work that cannot be undone", True),
    Command(
        "unsure",
        "I don't know",
        ("unsure",),
        "u",
        "U",
        "You do not know; see how to find out",
        True,
    ),
    Command(
        "watch",
        "stopwatch",
        ("clock",),
        "t",
        "T",
        "Start or stop the stopwatch of a timed step",
        True,
    ),
)
"""Answers with a key of their own. They are taken only where a step asks for them, so `by_word` does
not know them."""


def by_name(name: str) -> Command:
    """The command of this name."""
    return next(command for command in COMMANDS if command.name == name)


def by_word(text: str) -> Command | None:
    """The command a typed or spoken word means; None where it is none."""
    wanted = " ".join(text.casefold().split())
    for command in COMMANDS:
        if wanted == command.word or wanted in command.also:
            return command
    return None
