"""The shape of a scenario file: the answers of a run, written in advance, and the result that it must show."""

from pathlib import Path
from typing import Annotated, Any, Literal, TypeVar

from pydantic import Field, model_validator

from guide.files.source import need_shape, read_source
from guide.procedure import schema
from guide.procedure.outcomes import Outcome

EVENTS = (
    *(
        "value",
        "done",
        "hold",
        "revise",
        "note",
        "resolve",
        "report",
        "safe",
        "take_up",
        "yes",
        "early",
    ),
)
ALOUD = ("said", "wav")
"""In place of an event: what is spoken, for a rehearsal by voice."""
_Several = schema.Limit  # one line, or a list of them


class AnswerShape(schema.Shape):
    """One action of the person, at the block where the run then is."""

    at: schema.Line
    value: schema.Line | None = None
    done: schema.YesNo | None = None
    hold: schema.YesNo | None = None
    revise: schema.Line | None = None
    resolve: Literal["remade", "plugged", "abandoned"] | None = None
    report: Literal["all", "part", "none"] | None = None
    safe: schema.Line | None = None
    take_up: schema.Line | None = None
    """What has changed, or the foreman's word, on which an ended job is opened again."""
    note: schema.Line | None = None
    yes: schema.YesNo | None = None
    early: Literal["cut"] | None = None
    """A cut that the person tries to begin before the run has come to it; the run must refuse."""
    said: _Several | None = None
    """Words that a synthesiser speaks when the scenario is rehearsed, one utterance each."""
    wav: _Several | None = None
    """Recordings, by their paths from the scenario's folder."""

    @model_validator(mode="after")
    def one_event(self) -> "AnswerShape":
        """Exactly one event, or what is spoken in its place; a `resolve` carries its note."""
        kinds = (*EVENTS, *ALOUD)
        found = [name for name in kinds if getattr(self, name) is not None]
        if found not in ([f] for f in kinds) and sorted(found) != ["note", "resolve"]:
            raise ValueError(
                f"an answer has one of {', '.join(kinds)}; found {' and '.join(found) or 'none'}"
            )
        if self.resolve is not None and self.note is None:
            raise ValueError("a resolve needs its note")
        return self

    @property
    def utterances(self) -> list[str]:
        """The words spoken, or the sound files that hold them; empty for an answer by keys."""
        several = self.said if self.said is not None else self.wav
        return [several] if isinstance(several, str) else list(several or ())


class WordsShape(schema.Shape):
    """Words that the person must have been shown at a block."""

    at: schema.Line
    has: _Several
    """A part of what is shown there; a list where there are several."""

    @property
    def parts(self) -> list[str]:
        """Each part that must be shown."""
        return [self.has] if isinstance(self.has, str) else list(self.has)


class MustShowShape(schema.Shape):
    """The result that the run must show."""

    end: Literal[Outcome, "open"]
    route: list[schema.Line] | None = None
    facts: dict[schema.FactName, str] = {}
    answers: dict[schema.Line, str] = {}
    """The answer given at one block, for a fact that was asked more than once."""
    stops: list[schema.Line] = []
    refused: list[schema.Line] = []
    words: list[WordsShape] = []
    """What a person must have been shown at a block, in any of its texts."""


class ScenarioShape(schema.Shape):
    """A scenario file."""

    scenario: schema.Id
    about: schema.Words | None = None
    procedure: schema.Line
    units: Literal["inch", "metric"] = "inch"
    sheet: schema.Line = "none"
    rules: Literal["us", "uk", "eu", "none"] = "us"
    """Whose access and fire rules the final readings are checked against."""
    nfpa_80: Literal["2010", "2016"] = "2016"
    """The edition of NFPA 80: up to 2013, or from 2016."""
    ibc: Literal["2018", "2021"] = "2021"
    """The edition of the International Building Code: up to 2018, or from 2021."""
    door: dict[schema.FactName, str] = {}
    answers: list[AnswerShape] = []
    must_show: MustShowShape | None = None

    @property
    def aloud(self) -> bool:
        """Whether any answer is spoken, so that it can only be rehearsed by speech recognition."""
        return any(answer.utterances for answer in self.answers)


class DoorShape(schema.Shape):
    """A door file: what a schedule would know of one opening."""

    door: Annotated[dict[schema.FactName, str], Field(min_length=1)]
    units: Literal["inch", "metric"] | None = None
    sheet: schema.Line = "none"
    name: schema.Line | None = None


S = TypeVar("S", "DoorShape", "ScenarioShape")


def load_scenario(path: Path, text: str | None = None) -> ScenarioShape:
    """The scenario in a file. Raises BadFile with every fault."""
    shape: ScenarioShape = need_shape(read_source(path, ScenarioShape, "A scenario", text))
    return _with_sheet(shape, path)


def load_door(path: Path) -> DoorShape | ScenarioShape:
    """A door file, or the door of a scenario. Raises BadFile with every fault."""
    source = read_source(path, DoorShape, "A door file")
    entries: Any = getattr(source.tree, "entries", {})
    if "scenario" in entries:
        return load_scenario(path)
    shape: DoorShape = need_shape(source)
    return _with_sheet(shape, path)


def _with_sheet(shape: S, path: Path) -> S:
    """The same, a sheet that is given as a path looked for beside the file first."""
    beside = path.parent / shape.sheet
    if "/" in shape.sheet and beside.is_file():
        return shape.model_copy(update={"sheet": str(beside)})
    return shape
