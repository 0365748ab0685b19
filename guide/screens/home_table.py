"""The words of one job in the table of the first screen."""

from guide.procedure.outcomes import ACHIEVED
from guide.run.catalogue import RunSummary
from guide.run.prompt import OUTCOME_WORDS
from guide.translation import _


def to_take_up(run: RunSummary) -> bool:
    """Whether a job ended without its purpose, so that it can be taken up again."""
    return bool(run.outcome) and run.outcome not in ACHIEVED


def has_words(run: RunSummary, words: list[str]) -> bool:
    """Whether all these words are in what the table says of a job, or in its name."""
    told = f"{door_of(run)} {run.place} {run.title} {stage_of(run)} {run.name}".casefold()
    return all(word in told for word in words)


def door_of(run: RunSummary) -> str:
    """The door's number or name, and its site: many a building has a 104."""
    door = run.door or _("no name")
    return f"{door}, {run.site}" if run.site else door


def stage_of(run: RunSummary) -> str:
    """Where the job stands, and what is odd about its file."""
    if run.problem:
        return run.problem
    said = OUTCOME_WORDS[run.outcome].partition(" and ")[0] if run.outcome else run.step
    if run.stopped:
        said = _("STOPPED: {said}").format(said=said)
    if run.diverged:
        other = _("DIVERGED: {said}; the other is {diverged}")
        said = other.format(said=said, diverged=run.diverged)
    twin = run.twin and _("also in {twin}").format(twin=run.twin)
    device = run.elsewhere and _("also on another device, {elsewhere}")
    return "; ".join(
        filter(None, (said, twin, device.format(elsewhere=run.elsewhere), run.missing))
    )
