"""The keys of a run: their commands, the hints along the bottom, and the words beside the typed line."""

from guide.run.desk_words import KEYS, NUMBERED
from guide.run.prompt import Accepts
from guide.run.step_drawing import PLAN
from guide.screens.key_hint import KeyHint
from guide.screens.stopwatch import Stopwatch
from guide.words.commands import ANSWERS, COMMANDS, PAGES

_BY_KEY = {command.key: command.name for command in (*ANSWERS, *COMMANDS, *PAGES)}
_BY_KEY_HERE = {("hold", "y"): "hold", ("begin", "y"): "cut"}
"""Keys that mean another command at what the run waits for: a hold and a cut have the key of yes."""
YES_OR_NO = {"y": "yes", "n": "no"}
CUTTING = ("hold", "cut")
"""Commands that a key must be meant for."""
READ_FIRST = ("hold",)
"""Commands that count only after every value was on the screen."""
LOUD = ("hold", "stop")
"""The prompts that look like nothing else."""
DRAWING_KEYS = {
    **{key: name for key, name in _BY_KEY.items() if name in ("draw", "swing open", "swing shut")},
    "right": "swing open",
    "left": "swing shut",
}
"""Keys of the drawing that lies over a step; any other closes it."""

STEPS = (KeyHint("up", "↑", "More"), KeyHint("down", "↓", "Less"))
"""The keys that move a number by one step: two, so that each can be clicked."""
_FIRST = {
    "done": [KeyHint("enter", "Enter", "Done")],
    "end": [KeyHint("y", "Y", "End the job")],
    "begin": [KeyHint("y", "Y", "Begin")],
    "hold": [KeyHint("y", "Y", "All right")],
    "read-back": [KeyHint("y", "Y", "Right"), KeyHint("n", "N", "Wrong")],
    "measure": [KeyHint("enter", "Enter", "Accept"), *STEPS],
    "count": [KeyHint("enter", "Enter", "Accept"), *STEPS],
    "text": [KeyHint("enter", "Enter", "Accept")],
    "values": [KeyHint("enter", "Enter", "Accept"), KeyHint("n", "N", "One by one")],
}
WATCHED = (
    KeyHint("enter", "Enter", "Accept"),
    KeyHint("t", "T", "One swing more"),
    KeyHint("tab", "Tab", "Leave the line"),
)
"""The keys while the line holds what the stopwatch took."""
OVER_KEYS = (KeyHint("space", "Space", "More"), KeyHint("pageup", "PgUp", "Up"))
"""The keys of what lies over a screen, before the one that closes it."""
_BACK = KeyHint("left", "←", "Back")
_WHY = KeyHint("w", "W", "Why")
_KNOWN = KeyHint("s", "S", "Known")
_DRAW = KeyHint("g", "G", "Draw")
_SAFE = KeyHint("x", "X", "Safe")
_NOTE = KeyHint("m", "M", "Note")
_TOOLS = KeyHint("b", "B", "Tools")
_WORDS = KeyHint("h", "H", "Words")
_PAPERS = KeyHint("l", "L", "Papers")
_PAUSE = KeyHint("p", "P", "Pause")
_SHEET = KeyHint("e", "E", "Sheet")
_HELP = KeyHint("question_mark", "?", "Help")


_MORE = (_NOTE, _PAUSE, _WORDS, _TOOLS, _PAPERS, _SHEET)
"""Keys for which only a wide window has room."""


def key_hints(
    accepts: Accepts,
    *,
    typing: bool,
    ending: bool,
    looking: bool,
    changeable: bool,
    ended: bool,
    draws: bool,
    follows: bool = False,
    again: bool = False,
    tested: bool = False,
) -> list[KeyHint]:
    """The keys that apply now, the ones needed most first; the last is the one that leads to all the others."""
    if ending:
        return [KeyHint("y", "Y", "End the job"), KeyHint("tab", "Tab", "Go on with it")]
    if typing:
        moves = STEPS if accepts.kind in ("measure", "count") else ()
        return [
            KeyHint("enter", "Enter", "Accept"),
            *moves,
            KeyHint("tab", "Tab", "Leave the line"),
        ]
    onward = [KeyHint("j", "J", "Next job")] if follows else []
    if ended and not looking:
        onward += [KeyHint("a", "A", "Take it up")] if again else []
        return [
            KeyHint("enter", "Enter", "To the first screen"),
            *onward,
            _PAPERS,
            _BACK,
            _KNOWN,
            _HELP,
        ]
    if looking:
        change = [KeyHint("c", "C", "Change")] if changeable else []
        ahead = [KeyHint("enter", "Enter", "Go on"), *change, _BACK]
        return [*ahead, KeyHint("right", "→", "Forward"), _KNOWN, _HELP]
    first = [*_FIRST.get(accepts.kind, []), *onward]
    if accepts.measure == "time":
        first = [first[0], KeyHint("t", "T", "Stopwatch")]
    first += [KeyHint("f", "F", "Tests")] if tested else []
    if accepts.kind in ("choice", "report", "resolve"):
        many = len(accepts.choices)
        first = [KeyHint("down", f"1-{many}" if many <= NUMBERED else f"1-{NUMBERED} ↓", "Answer")]
    first += [_DRAW] if draws else []
    if len(first) > 1:
        steps = first[1:] if STEPS[0] in first else []
        ahead = first[:1] if steps else first
        return [*ahead, _BACK, *steps, _SAFE, _KNOWN, *_MORE, _HELP]
    if accepts.kind == "end":
        return [*first, _PAPERS, _BACK, _SAFE, _KNOWN, _NOTE, _HELP]
    return [*first, _BACK, _SAFE, _WHY, _KNOWN, *_MORE, _HELP]


def command_of(key: str, kind: str) -> str:
    """The command a key means if the run waits for `kind`; empty if it means none."""
    return _BY_KEY_HERE.get((kind, key)) or YES_OR_NO.get(key) or _BY_KEY.get(key, "")


def drawing_keys(view: str) -> list[KeyHint]:
    """The keys of the drawing that lies over a step."""
    swing = [KeyHint("o", "→ O", "Open"), KeyHint("i", "← I", "Shut")] if view == PLAN else []
    other = KeyHint("g", "G", "The holes" if view == PLAN else "From above")
    return [*swing, other, KeyHint("enter", "Enter", "Close")]


def drawing_hint(view: str, angle: float) -> str:
    """What the drawing over a step shows, in a few words."""
    if view != PLAN:
        return "The head of the door, the leaf closed."
    return (
        f"From above, the leaf open {angle:.0f} degrees."
        if angle
        else "From above, the leaf closed."
    )


_WORDS_FOR = {
    "note": "the note",
    "safe": "why it is made safe",
    "resolve": "what was done",
    "take up": "what has changed",
    "photo": "the file of the photo",
    "shows": "what the photo shows",
}
"""What a typed line is for, by the purpose of its words."""


_SHORT = {"begin": "Cannot be undone.", "hold": "Y if all are right."}
"""In a narrow window, where the key bar alone says the rest."""


def line_hint(accepts: Accepts, purpose: str, *, looking: bool, ending: bool, narrow: bool) -> str:
    """The words beside the typed line, or in its place."""
    if ending:
        return "Y if all is safe."
    if narrow and not purpose:
        return _SHORT.get(accepts.kind, "")
    if purpose:
        return _WORDS_FOR[purpose]
    if len(accepts.choices) > NUMBERED:
        return KEYS.tell("{pick}.", accepts).capitalize()
    if looking and accepts.kind == "nothing":
        return "Enter returns to the job's step."
    return {
        "done": "Enter when it is done.",
        "begin": "Cannot be undone. Y when you begin.",
        "hold": "Y if every value is right.",
        "end": "Y ends the job.",
        "choice": "Press the number of the answer.",
        "report": "Press the number of what was drilled.",
        "resolve": "Press the number of what became of it.",
        "read-back": "Y or N?",
    }.get(accepts.kind, "")


def watch_hint(watch: Stopwatch) -> str:
    """What the next press of the stopwatch's key means while it runs."""
    return "T as the edge passes the mark." if watch.parts_left > 1 else "T stops it."
