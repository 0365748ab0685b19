"""Moments as a record shows them: by the clock of the device that kept them, with its zone."""

from datetime import datetime, timedelta, timezone

from guide.run.events import Event


def local(utc: str, offset: str) -> str:
    """A moment by the clock of the device that kept it, to the minute, with how far that is ahead of UTC."""
    sign = -1 if offset.startswith("-") else 1
    hours, minutes = offset[1:].split(":")[:2]
    zone = timezone(sign * timedelta(hours=int(hours), minutes=int(minutes)))
    return f"{datetime.fromisoformat(utc).astimezone(zone):%Y-%m-%d %H:%M} {offset}"


def local_of(event: Event) -> str:
    """When an event was kept."""
    return local(event.utc, event.offset)
