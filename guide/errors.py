"""The errors that are reported to the person who called: each has one sentence and the program's exit status."""

DONE = 0
FOUND = 1
"""Findings, an unmet scenario, an input out of its domain, no answer; something was left out of work that is done."""
UNKNOWN = 2
"""An unknown verb, name, key or file."""
NO_DEVICE = 3
"""No disk, lock, library or device; or a job that another version of the program must open."""


class HingesideError(Exception):
    """The base of every error that a person can cause or fix. `str` is one sentence: what is wrong, where, what to do.

    Each kind says its `status`. Any other exception that leaves the program is a fault of the program.
    """

    status: int
    """FOUND, UNKNOWN or NO_DEVICE."""
