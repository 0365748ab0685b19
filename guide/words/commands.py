"""The command lexicon: each command has words to say or type and a key to press.

Every front end and every help page is made from this table, so that none can leave a command out. The words are
in the language file. They are chosen to sound different (`sounds.py`) and not to be heard in noise. Measured:
four minutes of pink noise, drill, hammer and wind through PocketSphinx with all of these words and nothing to
reject them. The drill became “wrong” and “no”, the wind “help” and “photo”; nothing became “mute”. So “wrong”
alone is typed only, and so is “note”, which is too near “no”.
"""

from typing import NamedTuple

from guide.words.language_file import sayings


class Command(NamedTuple):
    """One thing a person can tell the guide to do."""

    name: str
    word: str
    """The word to say, and to type in a line."""
    also: tuple[str, ...]
    """Other words to say or type that mean the same."""
    key: str
    """The key in the app, as Textual names it."""
    key_shown: str
    """The key as a person reads it."""
    meaning: str
    changes: bool
    """Whether it changes the run, so that a voice needs the higher confidence."""
    typed: tuple[str, ...] = ()
    """Short forms for a typed line only: too short, or too similar to another word, to be recognised."""


_SAYINGS = sayings("english")


def _command(
    name: str, key: str, shown: str, meaning: str, *typed: str, changes: bool = False
) -> Command:
    said = _SAYINGS[name]
    return Command(name, said.word, said.also, key, shown, meaning, changes, typed)


COMMANDS = (
    _command("done", "enter", "Enter", "The step is done; go on", "ok", changes=True),
    _command("yes", "y", "Y", "The value read back is right", "y", "right", changes=True),
    _command("no", "n", "N", "The value read back is wrong", "n", "wrong", changes=True),
    _command("back", "left", "←", "Show the step before", "b"),
    _command("forward", "right", "→", "Show the step after", "f"),
    _command("change", "c", "C", "Change the answer shown", "revise", changes=True),
    _command("why", "w", "W", "Show or hide why, what to watch for"),
    _command("detail", "d", "D", "Full, cards or spoken words only"),
    _command("status", "s", "S", "What is known and what was done", "known"),
    _command("draw", "g", "G", "Draw this opening; again for its other view", "drawing"),
    _command("swing open", "o", "O", "In the drawing, swing the leaf open by 15 degrees"),
    _command("swing shut", "i", "I", "In the drawing, swing the leaf shut by 15 degrees"),
    _command("note", "m", "M", "Add a note to the record", "note", changes=True),
    _command("photo", "k", "K", "Add a photo to this step", changes=True),
    _command("papers", "l", "L", "Write record and template; show where they are", "papers"),
    _command("pause", "p", "P", "Pause the job; nothing is lost", changes=True),
    _command("safe", "x", "X", "Stop, make safe, call the foreman", "safe", changes=True),
    _command("next job", "j", "J", "At an end, begin the job that follows", changes=True),
    _command("take up", "a", "A", "Take up again a job that was not done", "take up", changes=True),
    _command("repeat", "r", "R", "Show or say this step again"),
    _command("help", "question_mark", "?", "Every key and word", "?", "keys"),
)

ANSWERS = (
    _command("begin", "y", "Y", "Begin work that cannot be undone", changes=True),
    _command("unsure", "u", "U", "You do not know; show how to find out", "unsure", changes=True),
    _command(
        "watch", "t", "T", "Start or stop the stopwatch of a timed step", "clock", changes=True
    ),
)
"""Answers with a key of their own. They are accepted only at a step that needs them, so `by_word` does
not find them.

“Now” is not a word of the stopwatch, because it is misheard for “no”. Four voices of a synthesiser said it at a
timed step to PocketSphinx with “now” among its words: two were understood, and the “no” of another started the
stopwatch."""

PAGES = (
    _command("words", "h", "H", "What the trade's words in this step mean", "words"),
    _command("tools", "b", "B", "Tools and parts for what is left", "tools", "parts"),
    _command("sheet", "e", "E", "The closer's sheet that is loaded", "sheet"),
    _command("tests", "f", "F", "The tests so far and their limits", "tests"),
)
"""Pages to look something up on."""

VOICE = (
    _command("listen", "v", "V", "Listen to what is said"),
    _command("deaf", "v", "V", "Mute: accept only “listen” or the key"),
    _command("hush", "z", "Z", "Stop what is being said aloud"),
    _command("cancel", "escape", "Esc", "Drop what was heard or is being written"),
    _command("resume", "enter", "Enter", "Continue a paused job", changes=True),
    _command("cut", "y", "Y", "Begin work that cannot be undone, by voice", changes=True),
    _command("hold", "y", "Y", "Every value read back at a hold is right", changes=True),
)
"""Commands that need words only by voice. Before the work cuts, “yes” or “begin” alone is not enough by
voice: a hold needs the words of `hold`, a cut those of `cut`."""


class Declined(NamedTuple):
    """A request that the guide understands and answers, but cannot do."""

    name: str
    word: str
    also: tuple[str, ...]
    says: str
    """One sentence: why not, and what to say instead."""


DECLINED = tuple(
    Declined(name, said.word, said.also, said.says)
    for name, said in sayings("english", "declined").items()
)


def by_name(name: str) -> Command:
    """The command of this name."""
    return next(
        command for command in (*COMMANDS, *ANSWERS, *PAGES, *VOICE) if command.name == name
    )


def by_word(text: str) -> Command | None:
    """The command that a typed or spoken word means; None if it is not one."""
    wanted = " ".join(text.casefold().split())
    for command in (*COMMANDS, *PAGES):
        if wanted == command.word or wanted in (*command.also, *command.typed):
            return command
    return None
