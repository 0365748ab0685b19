"""The opening of a run, from what is known in it: facts have the names of the setting-out's inputs."""

from collections.abc import Mapping

from guide.procedure.facts import Value, as_input
from guide.run.state import State
from guide.trade.computation import Given
from guide.trade.holes.opening import OPENING_INPUTS, TYPED_INPUTS, opening_of, typed_of
from guide.trade.holes.set_out import SettingOut, set_out
from guide.trade.holes.setting_out import COMPUTATION, TEMPLATE_INPUT
from guide.trade.sheet.sheet import Sheet

SETTING_OUT = COMPUTATION.name
READ = (*OPENING_INPUTS, TEMPLATE_INPUT, *TYPED_INPUTS)
"""What is read of a run."""


def values_of(state: State, supposed: Mapping[str, Value] | None = None) -> dict[str, Given]:
    """The inputs of the setting-out that a run knows. What is `supposed` goes before what is known, as an answer does
    that is only marked."""
    found: dict[str, Given] = {}
    fillers = fillers_of(state)
    for wanted in READ:
        filler = fillers.get(wanted.name)
        if filler is None:
            continue
        if filler.startswith("="):
            from guide.procedure.declarations import (
                read_fixed,  # with pydantic; hardly any file needs it
            )

            value: Value | None = read_fixed(wanted, filler[1:].strip())
        else:
            value = (supposed or {}).get(filler)
            if value is None and filler in state.graph.facts:
                value = state.known(filler)
        given = as_input(wanted, value)
        if given is not None:
            found[wanted.name] = given
    return found


def fillers_of(state: State) -> dict[str, str]:
    """Input of the setting-out to the fact that fills it, as the procedure's own setting-out has it; a procedure that
    has none may still have facts of those names."""
    for fact in state.graph.facts.values():
        if fact.computation == SETTING_OUT:
            return fact.using
    return {one.name: one.name for one in READ}


def setting_out_of_run(state: State, supposed: Mapping[str, Value] | None = None) -> SettingOut:
    """The setting-out of the opening as it is known where the run is."""
    values = values_of(state, supposed)
    sheet = None if state.sheet is None else Sheet.from_json(state.sheet)
    paper = values.get(TEMPLATE_INPUT.name)
    return set_out(
        opening_of(values),
        sheet,
        typed_of(values),
        paper if isinstance(paper, str) else None,
        state.units,
    )
