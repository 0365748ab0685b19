"""What the spring of a planned door is set to on the bench, by the sheet's turns."""

from collections.abc import Mapping

from guide.procedure.facts import as_input
from guide.site.plan.fitting import FACT_OF, Fitting
from guide.site.plan.known import Planning
from guide.trade import registry
from guide.trade.answer import Answer, BadInput, NoAnswer, OutOfDomain
from guide.trade.computation import Given

_ASSUMED = {"harder": False}
"""Asked at the door; where it turns out otherwise the job gives the leaf's own size."""


def bench_spring(planning: Planning, one: Fitting) -> str:
    """How far to turn the spring from the factory's setting; empty where the sheet does not say it, or what decides
    where to begin is open."""
    sheet = planning.sheet
    if sheet is None or one.size is None or not isinstance(one.size.value, int):
        return ""
    start = _starting_size(planning, one, one.size.value)
    if start is None:
        return ""
    answer = _run("spring-turns", {"sheet": sheet, "to": start, "mount": one.mount})
    words = answer.value["in_words"] if answer and isinstance(answer.value, Mapping) else ""
    return (
        f"EN size {start} to begin with, {words}"
        if words and start != one.size.value
        else str(words)
    )


def _starting_size(planning: Planning, one: Fitting, size: int) -> int | None:
    inputs: dict[str, Given] = {"size": size, **_ASSUMED}
    if "rules" in planning.own:
        inputs["rules"] = planning.own["rules"]
    if planning.sheet is not None:
        inputs["sheet"] = planning.sheet
    for wanted in registry.find("starting-size").inputs:
        if wanted.name not in inputs:
            value = one.known.value(FACT_OF.get(wanted.name, wanted.name))
            given = as_input(wanted, value)
            if given is not None:
                inputs[wanted.name] = given
    answer = _run("starting-size", inputs)
    return answer.value if answer and isinstance(answer.value, int) else None


def _run(name: str, inputs: Mapping[str, Given]) -> Answer | None:
    try:
        return registry.run(name, inputs)
    except (NoAnswer, OutOfDomain, BadInput):
        return None  # it is asked, or worked out, in the job itself
