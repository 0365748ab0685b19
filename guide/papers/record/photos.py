"""The photos of a run in its record, and those that were wanted and not taken."""

from typing import Any

from guide.run.photos import state_of_photo
from guide.run.state import State, label, occurrence_of
from guide.run.texts import block_words, filled


def photos_data(state: State) -> list[dict[str, Any]]:
    """Every photo in the order it was added, each KEPT, MISSING or ALTERED."""
    return [
        {
            "utc": one.utc,
            "at": one.at,
            "step": "after the end" if one.after_end else _step(state, one.at),
            "shows": one.shows,
            "name": one.name,
            "bytes": one.size,
            "sha256": one.sha256,
            "original_sha256": one.original,
            "after_the_end": one.after_end,
            "file": state_of_photo(one.sha256),
        }
        for one in state.photos
    ]


def photos_not_taken(state: State) -> list[str]:
    """What the photos would have shown that steps passed asked for, where none was added."""
    had = {one.at for one in state.photos}
    passed = state.path if state.ended else state.path[:-1]
    return [
        filled(state, node.body["photo"], node)
        for at, node in ((at, state.graph.nodes[at[0]]) for at in passed)
        if "photo" in node.body and label(state.graph, at) not in had
    ]


def said_of(photo: dict[str, Any]) -> str:
    """Size and standing of a photo's file."""
    size = f"{photo['bytes'] / 1000:,.0f} kB"
    return size if photo["file"] == "kept" else f"{size}; the file is {photo['file'].upper()} here"


def _step(state: State, at: str) -> str:
    found = occurrence_of(state.graph, at)
    return at if found is None else block_words(state, found)
