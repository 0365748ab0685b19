"""The table of rules: one file a family, one class a rule, each with its page of the manual."""

from guide.procedure.checker.rules import (
    accepting,
    branches,
    computed,
    cuts,
    ends,
    files,
    kinds,
    knowledge,
    limits,
    names,
    proving,
    reading,
    shape,
    sheets,
)
from guide.procedure.checker.rules.rule import Rule

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
    ends,
    limits,
    proving,
    accepting,
    sheets,
)
RULES: dict[str, type[Rule]] = {rule.code: rule for family in FAMILIES for rule in family.RULES}
"""Every rule by its code, family by family."""

__all__ = ["RULES", "Rule"]
