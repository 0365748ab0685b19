"""Known errors, each with its exit status and its sentence."""

import sys


def status_of(error: Exception) -> tuple[int | None, str]:
    """Exit status and message; None for an error that nobody foresaw."""
    from guide.cli.main import FOUND, NO_DEVICE, UNKNOWN

    name = type(error).__name__
    module = type(error).__module__
    if module.startswith("guide."):
        if name in ("NotFound", "BadInput", "BadSettings", "WrongDoor", "Usage", "UnknownRun"):
            return UNKNOWN, str(error)
        if name == "BadFile":
            code = getattr(error, "findings")[0].code  # noqa: B009 - typed by name only
            return (UNKNOWN if code == "cannot-read" else FOUND), str(error)
        if name in ("NoAnswer", "OutOfDomain", "Refused", "WrongAnswer"):
            return FOUND, str(error)
        if name in ("JournalError", "Locked", "Damaged", "NoDecoder", "NoEngine", "NoVoice"):
            return NO_DEVICE, str(error)
    if isinstance(error, OSError):
        where = f" ({error.filename})" if error.filename else ""
        return NO_DEVICE, f"{error.strerror or 'The system refused'}{where}."
    if isinstance(error, ValueError) and "null byte" in str(error):
        return UNKNOWN, "No file can have that name; look at the spelling."
    return None, ""


class Usage(Exception):
    """The call's words are off; the message says what to write."""


def say(message: str) -> None:
    """A message to the person, beside the result."""
    sys.stderr.write(message + "\n")
