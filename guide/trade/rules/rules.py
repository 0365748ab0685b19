"""Access and fire rules for a closer's final readings, each with its citation.

Which rules apply is a setting of the person: a country and the editions named here. The local code and the authority
having jurisdiction govern; the verdicts only say what these texts say.
"""

from dataclasses import dataclass

from guide.trade.inputs import CODES
from guide.trade.rules.europe import EU_RULES, UK_RULES
from guide.trade.rules.kinds import DECIDES, FAIL, NOT_MEASURED, CodeRule, JudgedDoor
from guide.trade.rules.us import US_RULES

GOVERNS = "Local code and the authority having jurisdiction govern."

UNCHECKED = (
    "The limits were read in public copies and summaries, and not checked against the printed text."
)
"""Said once of all citations."""

RULES: tuple[CodeRule, ...] = (*US_RULES, *UK_RULES, *EU_RULES)
"""Every rule, in the order they are shown."""


@dataclass(frozen=True, slots=True)
class RuleResult:
    """What one rule says of one door."""

    rule: str
    verdict: str
    told: str
    """One sentence: the reading, the limit."""
    citation: str


def judge(code: str, door: JudgedDoor) -> tuple[RuleResult, ...]:
    """The result of every rule of a code for a door. KeyError for a code that is not in CODES."""
    CODES[code]
    return tuple(
        RuleResult(rule.name, *rule.judge(door), rule.citation)
        for rule in RULES
        if rule.code == code
    )


def verdict_of(rows: tuple[RuleResult, ...]) -> str:
    """All rows in one word: `fail` where any fails, `decide` where any is left open, else `pass`.

    No rules at all are `decide`: nothing was checked.
    """
    verdicts = {row.verdict for row in rows}
    if FAIL in verdicts:
        return "fail"
    return "decide" if verdicts & {DECIDES, NOT_MEASURED} or not rows else "pass"


def left_to_authority(rows: tuple[RuleResult, ...]) -> list[str]:
    """The rules whose text sets no limit for this door; “all of them” where no rules were set."""
    return [row.rule for row in rows if row.verdict == DECIDES] if rows else ["all of them"]


def in_a_sentence(rows: tuple[RuleResult, ...]) -> str:
    """What came of it all, for a person: what fails, what the authority decides, what is not measured."""
    if not rows:
        return "No rules are set to check the readings against."
    said = []
    for verdict, words in (
        (FAIL, "Fails"),
        (DECIDES, "The authority decides"),
        (NOT_MEASURED, "Not measured or not asked"),
    ):
        names = [row.rule for row in rows if row.verdict == verdict]
        if names:
            said.append(f"{words}: {', '.join(names)}.")
        elif verdict == FAIL:
            said.append("No rule fails.")
    return " ".join(said)
