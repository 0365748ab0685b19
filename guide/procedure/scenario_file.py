"""A scenario from its file: a run written down in advance."""

from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from guide.procedure import schema
from guide.procedure.source import need_shape, read_source

EVENTS = ("value", "done", "hold", "revise", "note", "resolve", "report", "safe", "yes")


class AnswerShape(schema.Shape):
    """One thing the person does, at the block where the run then stands."""

    at: schema.Line
    value: schema.Line | None = None
    done: schema.YesNo | None = None
    hold: schema.YesNo | None = None
    revise: schema.Line | None = None
    resolve: Literal["remade", "plugged", "abandoned"] | None = None
    report: Literal["all", "part", "none"] | None = None
    safe: schema.Line | None = None
    note: schema.Line | None = None
    yes: schema.YesNo | None = None

    @model_validator(mode="after")
    def one_event(self) -> "AnswerShape":
        """Exactly one event; a `resolve` carries its note."""
        found = [name for name in EVENTS if getattr(self, name) is not None]
        if found not in ([f] for f in EVENTS) and sorted(found) != ["note", "resolve"]:
            raise ValueError(
                f"an answer has one of {', '.join(EVENTS)}; found {' and '.join(found) or 'none'}"
            )
        if self.resolve is not None and self.note is None:
            raise ValueError("a resolve needs its note")
        return self


class ExpectShape(schema.Shape):
    """What must come of it."""

    end: Literal["finished", "refused", "made-safe", "open"]
    route: list[schema.Line] | None = None
    facts: dict[schema.FactName, str] = {}
    answers: dict[schema.Line, str] = {}
    """What was answered at one block, for a fact that was asked more than once."""
    stops: list[schema.Line] = []
    refused: list[schema.Line] = []


class ScenarioShape(schema.Shape):
    """A scenario file."""

    scenario: schema.Id
    about: schema.Words | None = None
    procedure: schema.Line
    units: Literal["inch", "metric"] = "inch"
    sheet: schema.Line = "none"
    door: dict[schema.FactName, str] = {}
    answers: list[AnswerShape] = []
    expect: ExpectShape | None = None


class DoorShape(schema.Shape):
    """A door file: what a schedule would know of one opening."""

    door: Annotated[dict[schema.FactName, str], Field(min_length=1)]
    units: Literal["inch", "metric"] | None = None
    sheet: schema.Line = "none"
    name: schema.Line | None = None


def load_scenario(path: Path, text: str | None = None) -> ScenarioShape:
    """The scenario in a file. Raises BadFile with every fault."""
    shape: ScenarioShape = need_shape(read_source(path, ScenarioShape, "A scenario", text))
    return shape


def load_door(path: Path) -> DoorShape | ScenarioShape:
    """A door file, or the door of a scenario. Raises BadFile with every fault."""
    source = read_source(path, DoorShape, "A door file")
    entries: Any = getattr(source.tree, "entries", {})
    if "scenario" in entries:
        return load_scenario(path)
    shape: DoorShape = need_shape(source)
    return shape
