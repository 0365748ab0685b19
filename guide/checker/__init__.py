"""Static analysis of procedures: model checking over all answers, and rules, one family a file."""

from guide.checker.check import Report, check

__all__ = ["Report", "check"]
