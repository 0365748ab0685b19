"""The table of rules: one file a family, one class a rule, each with its page of the manual."""

from guide.procedure.checker.manual import Rule
from guide.procedure.checker.rules import (
    accepting,
    branches,
    computed,
    cut_basis,
    cuts,
    ends,
    files,
    hazards,
    kinds,
    knowledge,
    lengths,
    limits,
    names,
    practice_doors,
    proving,
    reading,
    repeats,
    said,
    shape,
    sheets,
    sounds,
    unused,
)

FAMILIES = (
    reading,
    shape,
    names,
    files,
    kinds,
    computed,
    branches,
    knowledge,
    cuts,
    cut_basis,
    ends,
    limits,
    repeats,
    said,
    unused,
    hazards,
    sounds,
    lengths,
    proving,
    accepting,
    sheets,
    practice_doors,
)
RULES: dict[str, type[Rule]] = {rule.code: rule for family in FAMILIES for rule in family.RULES}
"""Every rule by its code, family by family."""

__all__ = ["RULES", "Rule"]
