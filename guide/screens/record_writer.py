"""How the screens write a record: handed in, because screens do not import papers."""

from collections.abc import Callable

from guide.run.events import Event
from guide.run.state import State

RecordText = Callable[[State, list[Event]], str]
"""The record of a run as plain lines."""
