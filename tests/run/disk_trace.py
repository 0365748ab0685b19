"""What the program asks of the disk, in order, as strace writes it down."""

import re
from dataclasses import dataclass

CALL = re.compile(r"^(?:\[pid\s+\d+\] |\d+\s+)?(\w+)\((\d+)(?:<([^>]*)>)?(.*)$")


@dataclass(frozen=True)
class Call:
    """One system call on one file."""

    name: str
    file: str
    """The path or the kind of thing that the descriptor stands for."""
    rest: str


def calls(trace: str) -> list[Call]:
    """The calls of a trace made with `strace -y`."""
    found = (CALL.match(line) for line in trace.splitlines())
    return [Call(m[1], m[3] or "", m[4]) for m in found if m]


def unsynced_acknowledgements(trace: str, journal: str, mark: str) -> list[str]:
    """Where the program printed `mark` although what it wrote to the journal might still be lost.

    After every line read, the journal must be written and synced before the next print of `mark`.
    """
    faults = []
    written = synced = False
    for call in calls(trace):
        if call.name == "read" and "\\n" in call.rest:
            written = synced = False
        elif call.name in ("pwrite64", "write") and call.file.endswith(journal):
            written, synced = True, False
        elif call.name in ("fdatasync", "fsync") and call.file.endswith(journal):
            synced = True
        elif call.name == "write" and mark in call.rest and not (written and synced):
            faults.append(f"{call.name}({call.file}) {call.rest[:60]}")
    return faults
