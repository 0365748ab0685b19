"""The keys of a run: their commands, the hints along the bottom, and the words beside the typed line."""

from guide.run.desk import ANSWERED, Desk
from guide.run.desk_words import KEYS, NUMBERED
from guide.run.state import ENDED
from guide.run.step_drawing import PLAN
from guide.run.stopwatch import Stopwatch
from guide.screens.key_hint import KeyHint
from guide.translation import _
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

_ACCEPT = KeyHint("enter", _("Accept"))
_LEAVE = KeyHint("tab", _("Leave the line"))
STEPS = (KeyHint("up", _("More")), KeyHint("down", _("Less")))
"""The keys that move a number by one step: two, so that each can be clicked."""
_FIRST = {
    "done": (KeyHint("enter", _("Done")),),
    "end": (KeyHint("y", _("End the job")),),
    "begin": (KeyHint("y", _("Begin")),),
    "hold": (KeyHint("y", _("All right")),),
    "read-back": (KeyHint("y", _("Right")), KeyHint("n", _("Wrong"))),
    "measure": (_ACCEPT,),
    "count": (_ACCEPT,),
    "text": (_ACCEPT,),
    "values": (_ACCEPT, KeyHint("n", _("One by one"))),
}
WATCHED = (_ACCEPT, KeyHint("t", _("One swing more")), _LEAVE)
"""The keys while the line holds what the stopwatch took."""
OVER_KEYS = (KeyHint("space", _("More")), KeyHint("pageup", _("Up")))
"""The keys of what lies over a screen, before the one that closes it."""
_BACK = KeyHint("left", _("Back"))
_KNOWN = KeyHint("s", _("Known"))
_SAFE = KeyHint("x", _("Safe"))
_NOTE = KeyHint("m", _("Note"))
_PAPERS = KeyHint("l", _("Papers"))
_HELP = KeyHint("question_mark", _("Help"))
_MORE = (
    _NOTE,
    KeyHint("p", _("Pause")),
    KeyHint("h", _("Words")),
    KeyHint("b", _("Tools")),
    _PAPERS,
    KeyHint("e", _("Sheet")),
)
"""Keys for which only a wide window has room."""


def key_hints(desk: Desk, *, typing: bool, draws: bool, tested: bool) -> list[KeyHint]:
    """The keys that apply now, the ones needed most first; the last is the one that leads to all the others.

    `typing` while letters go to the line, `draws` if the step has a drawing, `tested` if it has tests so far.
    """
    accepts, shown = desk.accepts, desk.shown
    looking = desk.at is not None and not desk.changing
    steps = STEPS if accepts.kind in ("measure", "count") else ()
    if desk.ending:
        return [*_FIRST["end"], KeyHint("n", _("Go on with it"))]
    if typing:
        return [_ACCEPT, *steps, _LEAVE]
    onward = [KeyHint("j", _("Next job"))] if shown.next_title else []
    if desk.session.state.status == ENDED and not looking:
        onward += [KeyHint("a", _("Take it up"))] if shown.again else []
        to_home = KeyHint("enter", _("To the first screen"))
        return [to_home, *onward, _PAPERS, _BACK, _KNOWN, _HELP]
    if looking:
        change = [KeyHint("c", _("Change"))] if shown.accepts.kind in ANSWERED else []
        ahead = [KeyHint("enter", _("Go on")), *change, _BACK]
        return [*ahead, KeyHint("right", _("Forward")), _KNOWN, _HELP]
    first = [*_FIRST.get(accepts.kind, ()), *onward]
    if accepts.measure == "time":
        first, steps = [_ACCEPT, KeyHint("t", _("Stopwatch"))], ()
    first += [KeyHint("f", _("Tests"))] if tested else []
    if accepts.kind in ("choice", "report", "resolve"):
        many = len(accepts.choices)
        label = f"1-{many}" if many <= NUMBERED else f"1-{NUMBERED} ↓"
        first = [_ACCEPT] if accepts.suggestion else []
        first += [KeyHint("down", _("Answer"), label)]
    first += [KeyHint("g", _("Draw"))] if draws else []
    if accepts.kind == "end" and len(first) == 1:
        return [*first, _PAPERS, _BACK, _SAFE, _KNOWN, _NOTE, _HELP]
    why = [] if steps or len(first) > 1 else [KeyHint("w", _("Why"))]
    return [*first, _BACK, *steps, _SAFE, *why, _KNOWN, *_MORE, _HELP]


def command_of(key: str, kind: str) -> str:
    """The command a key means if the run waits for `kind`; empty if it means none."""
    return _BY_KEY_HERE.get((kind, key)) or YES_OR_NO.get(key) or _BY_KEY.get(key, "")


def drawing_keys(view: str) -> list[KeyHint]:
    """The keys of the drawing that lies over a step."""
    swing = [KeyHint("o", _("Open"), "→ O"), KeyHint("i", _("Shut"), "← I")] if view == PLAN else []
    other = KeyHint("g", _("The holes") if view == PLAN else _("From above"))
    return [*swing, other, KeyHint("enter", _("Close"))]


def drawing_hint(view: str, angle: float) -> str:
    """What the drawing over a step shows, in a few words."""
    if view != PLAN:
        return _("The head of the door, the leaf closed.")
    return (
        _("From above, the leaf open {angle:.0f} degrees.").format(angle=angle)
        if angle
        else _("From above, the leaf closed.")
    )


_SHORT = {"begin": _("Cannot be undone."), "hold": _("Y if all are right.")}
"""In a narrow window, where the key bar alone says the rest."""


def line_hint(desk: Desk, *, narrow: bool) -> str:
    """The words beside the typed line, or in its place."""
    accepts = desk.accepts
    if desk.ending:
        return _("Y if all is safe.")
    if desk.purpose:
        return ""  # it stands over the line
    if narrow:
        return _SHORT.get(accepts.kind, "")
    if accepts.suggestion and accepts.kind != "text":
        return _("Enter accepts; a number answers otherwise.")
    if len(accepts.choices) > NUMBERED:
        return KEYS.tell("{pick}.", accepts).capitalize()
    if desk.at is not None and accepts.kind == "nothing":
        return _("Enter returns to the job's step.")
    if accepts.measure == "time":
        return _("Type the time, or T starts the stopwatch.")
    return {
        "done": _("Enter when it is done."),
        "begin": _("Cannot be undone. Y when you begin."),
        "hold": _("Y if every value is right. If one is wrong: ←, then C."),
        "end": _("Y ends the job."),
        "choice": _("Press the number of the answer."),
        "report": _("Press the number of what was drilled."),
        "resolve": _("Press the number of what became of it."),
        "read-back": _("Y or N?"),
        "measure": _("Type the number, then Enter."),
        "count": _("Type the number, then Enter."),
    }.get(accepts.kind, "")


def watch_hint(watch: Stopwatch) -> str:
    """What the next press of the stopwatch's key means while it runs."""
    return _("T as the edge passes the mark.") if watch.parts_left > 1 else _("T stops it.")
