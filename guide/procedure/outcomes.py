"""How a job ends."""

from typing import Literal, get_args

Outcome = Literal["finished", "left-to-do", "not-started", "made-safe", "found"]
"""Finished; finished with something named that is left to do; not to be done as things are, which can be taken up
again; made safe and handed to the foreman, whose word takes it up again; or a cause found."""
OUTCOMES: tuple[Outcome, ...] = get_args(Outcome)
LEFT_TO_DO: Outcome = "left-to-do"
NOT_STARTED: Outcome = "not-started"
INSPECTION = "inspection"
"""The purpose of a procedure whose checks are items that pass or fail; others leave it out."""
ACHIEVED = frozenset({"finished", "left-to-do", "found"})
"""The outcomes of a job that came to its purpose; the others can be taken up again."""
