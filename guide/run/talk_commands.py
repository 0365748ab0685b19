"""The command words of each state: few, so that they do not sound alike."""

from guide.words import ANSWERS, COMMANDS, DECLINED, PAGES, VOICE

ALWAYS = (
    *(
        "back",
        "why",
        "detail",
        "status",
        "draw",
        "note",
        "photo",
        "papers",
        "pause",
        "safe",
        "repeat",
        "help",
    ),
    *("deaf", "hush", "cancel"),
    *(one.name for one in PAGES),
    *(one.name for one in DECLINED),
)
LOOKING = ("forward", "change", "done")
"""While an earlier block is looked at."""
DRAWING = ("swing open", "swing shut")
"""While something is drawn."""
HANDED_OVER = ("listen",)
"""While the keys have taken over."""
_BY_KIND = {
    "done": ("done", "resume"),
    "end": ("yes", "done", "resume"),
    "begin": ("cut", "begin", "yes", "done"),
    "hold": ("hold", "yes", "no", "done"),
    "read-back": ("yes", "no", "done"),
    "measure": ("done",),
    "count": ("done",),
    "choice": ("done",),
    "text": ("done",),
}
"""By what the run waits for. Several are listened for only to be answered, such as a lone yes at a hold."""

MEANS = {"begin": "yes"}
"""Words that are listened for only to be answered, by the command they are answered as."""
WHILE_WRITING = ("hush", "cancel", "listen", "deaf")
"""Commands accepted by voice while a note or a reason is being typed; any other would clear the line."""
HARMLESS = frozenset(
    [one.name for one in (*COMMANDS, *ANSWERS, *PAGES, *VOICE) if not one.changes]
    + [one.name for one in DECLINED]
)
"""Commands that change nothing in the run."""


def commands_at(
    kind: str,
    *,
    looking: bool = False,
    changing: bool = False,
    question: bool = False,
    by_keys: bool = False,
    timed: bool = False,
    drawn: bool = False,
    follows: bool = False,
    again: bool = False,
) -> tuple[str, ...]:
    """The names of the commands to listen for.

    `kind` is what the run waits for, as in a prompt; `looking` at an earlier block, which is changed if
    `changing`; `question` if something waits for a yes; `by_keys` if the keys have taken over;
    `follows` if another job is offered, and `again` if this one can be taken up again.
    """
    found = [*ALWAYS, *(DRAWING if drawn else ())]
    if question:
        found += ["yes", "no"]
    if by_keys:
        found += HANDED_OVER
    elif looking and not changing:
        found += LOOKING
    else:
        found += _BY_KIND.get(kind, ())
        found += ("watch",) if timed else ()
        found += ("next job",) if follows else ()
        found += ("take up",) if again else ()
    return tuple(dict.fromkeys(found))
