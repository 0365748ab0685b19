"""What was added to a run after its end: notes, corrections and photos, shown as such and never mixed with the rest."""

from collections.abc import Iterable
from typing import Any

from guide.papers.record.answers import question_at
from guide.papers.record.times import local_of
from guide.run.events import Event
from guide.run.state import State

KINDS = ("noted", "corrected", "photo added")
"""Kinds of events that are an addendum where the run has ended."""


def after_end(events: Iterable[Event]) -> list[Event]:
    """The addenda of a run, in order. What was written before an ended job was taken up again is among them."""
    found, ended = [], False
    for event in events:
        if event.kind in KINDS and ended:
            found.append(event)
        elif event.kind in ("ended", "taken up"):
            ended = event.kind == "ended"
    return found


def addenda_data(state: State, events: Iterable[Event]) -> list[dict[str, Any]]:
    """Every addendum: when, by whom, what it is about, and its words."""
    return [
        {
            "utc": event.utc,
            "local": local_of(event),
            "by": event.by,
            "device": event.device,
            "kind": event.kind,
            "at": event.body["at"],
            "about": question_at(state, event.body["at"]) if event.kind == "corrected" else "",
            "text": event.body.get("text", event.body.get("shows", "")),
        }
        for event in after_end(events)
    ]


def addenda_lines(addenda: Iterable[dict[str, Any]]) -> list[str]:
    """The same as lines of a record."""
    return [f"{one['local']}{_by(one)}: {_said(one)}" for one in addenda]


def _by(one: dict[str, Any]) -> str:
    return f", {one['by']}" if one["by"] else ""


def _said(one: dict[str, Any]) -> str:
    if one["kind"] == "corrected":
        return f"Correction of “{one['about']}”: {one['text']}"
    return f"Photo added. {one['text']}" if one["kind"] == "photo added" else one["text"]
