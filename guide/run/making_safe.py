"""What must be safe when a job stops where it is: by what was done, what was cut and what is known of the door."""

from guide.run.state import Cut, State
from guide.run.texts import block_words

UNTOUCHED = "Nothing was begun: leave the door as you found it."
LEAF = "The leaf: wedged or locked, and it cannot swing."
WAY_OUT = "The leaf: a way out is never locked. It opens freely, or somebody stands by it."
ARM = "The arm: not loaded. Off its shoe, or joined with its screw tight."
LADDER = "The ladder: down and away."
POWER = "The power: off, tagged, and the person who switched it off told."
FIRE = (
    "The fire door: it closes and latches by itself, or it is watched, or shut and kept shut; a notice is on it and"
    " the owner knows of it."
)


def to_make_safe(state: State) -> list[str]:
    """One sentence for each thing that must be safe at this point of this job, the leaf first."""
    done = [state.graph.nodes[at[0]] for at in state.path if at in state.dones]
    dangers = {hazard for node in done for hazard in node.body.get("hazards", ())}
    cuts = [cut for cut in state.cuts if cut.resolution != "plugged"]
    fire = "yes" in (state.known("fire"), state.known("rated")) or state.known("rated") == "doubt"
    if not (any(node.kind == "do" for node in done) or cuts):
        return [UNTOUCHED, *([FIRE] if fire else [])]
    lines = [WAY_OUT if state.known("way_out") == "yes" else LEAF]
    lines += [ARM] if "spring" in dangers else []
    lines += [_holes(state, cuts)] if cuts else []
    lines += [LADDER] if "ladder" in dangers else []
    lines += [POWER] if "electrical" in dangers else []
    return [*lines, *([FIRE] if fire else [])]


def _holes(state: State, cuts: list[Cut]) -> str:
    said = "; ".join(
        f"“{block_words(state, cut.at)}” {'done' if cut.done else 'begun and not finished'}"
        for cut in cuts
    )
    return f"Cut so far: {said}. Nothing hangs by half its holes, and no edge can hurt."
