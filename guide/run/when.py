"""When something happened, as people say it."""

from datetime import UTC, datetime, timedelta

_MINUTE, _HOUR = timedelta(minutes=1), timedelta(hours=1)


def when(utc: str, now: datetime | None = None) -> str:
    """The time of an event (UTC, as events write it) as seen from `now`, in local time: “25 min ago”, “yesterday”,
    “Thu 26 Nov”; empty where it is not a time."""
    try:
        then = datetime.fromisoformat(utc).astimezone()
    except ValueError:
        return ""
    present = (now or datetime.now(UTC)).astimezone(then.tzinfo)
    passed = present - then
    days = (present.date() - then.date()).days
    if timedelta(0) <= passed < _HOUR:
        return "now" if passed < _MINUTE else f"{passed // _MINUTE} min ago"
    if days == 0:
        return f"{then:%H:%M}"
    if days == 1:
        return f"yesterday {then:%H:%M}"
    if 0 < days < 300:
        return f"{then:%a} {then.day} {then:%b}"
    return f"{then:%Y-%m-%d}"
