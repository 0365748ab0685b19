"""This device's own short name in journals: made once on each machine, and kept beside the runs.

The file has a line for each machine that has used the folder, so that a copied or shared folder gives each its own.
"""

import hashlib
import platform
import re
import secrets
import uuid
from pathlib import Path

from guide.files.library import user_folder
from guide.files.writing import append_line, why_not
from guide.run.journal import JournalError

CAME = (
    "This folder of jobs came from another device or place. "
    "What is added here carries a new device name, so that it can be told apart."
)
_LINE = re.compile(r"([0-9a-f]{12}) ([0-9a-f]{64})")
_MACHINE_FILES = ("/etc/machine-id", "/var/lib/dbus/machine-id")
_RANDOM = 1 << 40
"""The bit of `uuid.getnode` that is set where there was no network card, and the number is random."""


def device_id() -> str:
    """The name of this device in this folder. Raises JournalError where it cannot be kept."""
    return _known()[0]


def arrival() -> str:
    """A sentence, once: where the folder came from another machine, or was copied to another place; otherwise empty.

    Raises JournalError where the name of the device cannot be kept.
    """
    _, new, others = _known()
    return CAME if new and others else ""


def _known() -> tuple[str, bool, bool]:
    """The name, whether it was made just now, and whether the file has names of others."""
    path = user_folder() / "device"
    machine = _machine()
    try:
        lines = [_LINE.fullmatch(line) for line in path.read_text("utf-8", "replace").splitlines()]
    except OSError:
        lines = []  # none yet, or unreadable: a new one is made
    found = [line for line in lines if line is not None]
    for line in found:
        if line[2] == _seal(line[1], machine, path):
            return line[1], False, len(found) > 1
    name = secrets.token_hex(6)
    try:
        append_line(path, f"{name} {_seal(name, machine, path)}")
    except OSError as error:
        raise JournalError(f"{why_not(error, path.parent)}, then start again.") from error
    return name, True, bool(found)


def _seal(name: str, machine: str, path: Path) -> str:
    """A digest that only this machine gives for this name in this place; it says nothing of the machine itself."""
    return hashlib.sha256(f"{name}\n{machine}\n{path.resolve()}".encode()).hexdigest()


def _machine() -> str:
    """What tells this machine from others: its id, or the number of its network card, or its name."""
    for file in _MACHINE_FILES:
        try:
            if text := Path(file).read_text("ascii").strip():
                return text
        except (OSError, UnicodeDecodeError):
            continue  # not on every system
    card = uuid.getnode()
    return platform.node() if card & _RANDOM else str(card)
