"""What is wrong with a procedure, found without running it: one family of rules a file."""

from guide.checker.check import Report, check

__all__ = ["Report", "check"]
