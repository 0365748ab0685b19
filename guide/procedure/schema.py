"""The shape of a procedure file, for validation and for editors.

Every scalar arrives as text (marks.py), so each field says how text becomes its value. Conditions are
taken as they stand and read by conditions.py, which knows the facts.
"""

from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Field,
    StringConstraints,
    Tag,
    model_validator,
)

ID_PATTERN = r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$"
FACT_PATTERN = r"^[a-z][a-z0-9_]*$"

Id = Annotated[str, StringConstraints(pattern=ID_PATTERN, max_length=60)]
FactName = Annotated[str, StringConstraints(pattern=FACT_PATTERN, max_length=60)]
Line = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=400)]
Words = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=2000)]


def _yes_no(value: Any) -> Any:
    if isinstance(value, str) and value in ("yes", "true"):
        return True
    if isinstance(value, str) and value in ("no", "false"):
        return False
    raise ValueError("write yes or no")


def _whole(value: Any) -> Any:
    if isinstance(value, str) and value.isascii() and value.isdigit() and len(value) <= 9:
        return int(value)
    raise ValueError("write a whole number")


def _as_list(value: Any) -> Any:
    return value if isinstance(value, list) else [value]


def _one_or_many(value: Any) -> str:
    return "many" if isinstance(value, list) else "one"


YesNo = Annotated[bool, BeforeValidator(_yes_no)]
Whole = Annotated[int, BeforeValidator(_whole)]
Limit = Annotated[
    Annotated[Line, Tag("one")] | Annotated[list[Line], Field(min_length=1), Tag("many")],
    Discriminator(_one_or_many),
]
Condition = dict[str, Any]


class Shape(BaseModel):
    """Common rules: a key that is not known is a fault."""

    model_config = ConfigDict(extra="forbid")


class OptionShape(Shape):
    """One answer of a choice."""

    label: Line
    say: Line | None = None
    also: list[Line] = []


def _option(value: Any) -> Any:
    return {"label": value} if isinstance(value, str) else value


OptionOrText = Annotated[OptionShape, BeforeValidator(_option)]


class RangeShape(Shape):
    """From and to, both included, with the fineness it is measured to and what is usual."""

    from_: Line = Field(alias="from")
    to: Line
    step: Line | None = None
    usual: Line | None = None


class CountShape(Shape):
    """A whole number, from and to, both included."""

    from_: Whole = Field(alias="from")
    to: Whole


class TextShape(Shape):
    """A few words."""

    longest: Annotated[int, BeforeValidator(_whole), Field(ge=1, le=2000)] = 200


class YesNoShape(Shape):
    """Words for the two answers."""

    yes: OptionOrText = OptionShape(label="Yes")
    no: OptionOrText = OptionShape(label="No")


class OfferShape(Shape):
    """Where the closer's sheet has the number."""

    computation: Line
    using: dict[FactName, Line] = {}


FACT_KINDS = (
    "choice",
    "yesno",
    "count",
    "length",
    "angle",
    "force",
    "time",
    "mass",
    "pressure",
    "text",
    "worked",
)


class FactShape(Shape):
    """Something a run can know; has exactly one kind key."""

    choice: Annotated[dict[Id, OptionOrText], Field(min_length=2)] | None = None
    yesno: YesNoShape | None = None
    count: CountShape | None = None
    length: RangeShape | None = None
    angle: RangeShape | None = None
    force: RangeShape | None = None
    time: RangeShape | None = None
    mass: RangeShape | None = None
    pressure: RangeShape | None = None
    text: TextShape | None = None
    worked: Line | None = None
    using: dict[FactName, Line] = {}
    part: FactName | None = None
    ask: Line | None = None
    say: Line | None = None
    unsure: YesNo = False
    find_out: Words | None = None
    schedule: YesNo = False
    sheet: OfferShape | None = None

    @model_validator(mode="after")
    def one_kind(self) -> "FactShape":
        """Exactly one kind, and the keys that go with it."""
        kinds = [kind for kind in FACT_KINDS if getattr(self, kind) is not None]
        if len(kinds) != 1:
            found = " and ".join(kinds) if kinds else "none"
            raise ValueError(
                f"a fact has exactly one kind ({', '.join(FACT_KINDS)}); found {found}"
            )
        if self.worked is None:
            if self.using or self.part:
                raise ValueError("“using” and “part” belong to a worked fact")
            if self.ask is None:
                raise ValueError("“ask” is missing: the question as the person reads it")
        elif self.ask or self.unsure or self.schedule or self.sheet:
            raise ValueError("a worked fact is computed: it has no ask, unsure, schedule or sheet")
        return self


class CautionShape(Shape):
    """A signal word and what it warns of (signal words after ANSI Z535.6)."""

    danger: Line | None = None
    warning: Line | None = None
    caution: Line | None = None
    notice: Line | None = None

    @model_validator(mode="after")
    def something(self) -> "CautionShape":
        """At least one signal word."""
        if not self.model_fields_set:
            raise ValueError("the signal word is missing: danger, warning, caution or notice")
        return self


class PictureShape(Shape):
    """A drawing in characters one column wide, and a sentence that says the same."""

    drawing: Annotated[str, StringConstraints(min_length=1, max_length=4000)]
    says: Words


HAZARDS = ("drilling", "ladder", "spring", "fire-door", "electrical", "dust")
Hazard = Literal["drilling", "ladder", "spring", "fire-door", "electrical", "dust"]
Cautions = Annotated[list[CautionShape], BeforeValidator(_as_list)]


class BlockShape(Shape):
    """What every block has."""

    id: Id
    when: Condition | None = None


class ToldShape(BlockShape):
    """A block a person reads: the words around it."""

    say: Line | None = None
    why: Words | None = None
    watch: Words | None = None
    looks_right: Words | None = None
    caution: Cautions = []
    hazards: list[Hazard] = []
    tools: list[Line] = []
    parts: list[Line] = []
    picture: PictureShape | None = None
    minutes: Whole | None = None


class DoShape(ToldShape):
    """One action."""

    text: Line
    card: Line | None = None
    cuts: YesNo = False
    reads: list[FactName] = []


class AskShape(ToldShape):
    """A question; its words are the fact's own."""

    fact: FactName


class WorkShape(ToldShape):
    """A computed fact shown with its working."""

    fact: FactName
    text: Line | None = None


class TimeShape(ToldShape):
    """A time taken by stopwatch."""

    fact: FactName
    text: Line | None = None


class OtherwiseShape(Shape):
    """What follows where a check or a repeat fails: steps, a jump, or both."""

    steps: list["AnyBlock"] = []
    go: Line | None = None

    @model_validator(mode="after")
    def something(self) -> "OtherwiseShape":
        """At least one of the two."""
        if not self.steps and self.go is None:
            raise ValueError("“otherwise” needs steps, or go, or both")
        return self


class CheckShape(ToldShape):
    """A reading against a limit."""

    fact: FactName
    text: Line | None = None
    limit: Limit
    otherwise: OtherwiseShape


class BranchShape(Shape):
    """One way on."""

    id: Id
    when: Condition
    steps: list["AnyBlock"]


class ChooseShape(BlockShape):
    """Branches that cover every case and never overlap."""

    branches: Annotated[list[BranchShape], Field(min_length=2)]


class RepeatShape(BlockShape):
    """Steps done again until a condition holds, at most `tries` times."""

    steps: Annotated[list["AnyBlock"], Field(min_length=1)]
    until: Condition
    tries: Annotated[int, BeforeValidator(_whole), Field(ge=1, le=50)]
    otherwise: OtherwiseShape


class IncludeShape(BlockShape):
    """Another file of this folder."""

    file: Line


class HoldShape(BlockShape):
    """A stop before work that cannot be undone."""

    reads_back: Annotated[list[FactName], Field(min_length=1)]
    text: Line | None = None
    say: Line | None = None


class EndShape(BlockShape):
    """The run ends."""

    outcome: Literal["finished", "refused", "made-safe"]
    text: Line | None = None
    say: Line | None = None
    why: Words | None = None


BLOCK_KINDS = (
    "do",
    "ask",
    "work",
    "time",
    "check",
    "choose",
    "repeat",
    "include",
    "hold",
    "end",
)


class AnyBlock(Shape):
    """A block: a mapping with exactly one key, its kind."""

    do: DoShape | None = None
    ask: AskShape | None = None
    work: WorkShape | None = None
    time: TimeShape | None = None
    check: CheckShape | None = None
    choose: ChooseShape | None = None
    repeat: RepeatShape | None = None
    include: IncludeShape | None = None
    hold: HoldShape | None = None
    end: EndShape | None = None

    @model_validator(mode="after")
    def one_kind(self) -> "AnyBlock":
        """Exactly one kind."""
        kinds = [kind for kind in BLOCK_KINDS if getattr(self, kind) is not None]
        if len(kinds) != 1:
            found = " and ".join(kinds) if kinds else "none"
            raise ValueError(
                f"a block has exactly one kind ({', '.join(BLOCK_KINDS)}); found {found}"
            )
        return self

    @property
    def kind(self) -> str:
        """The one key."""
        return next(kind for kind in BLOCK_KINDS if getattr(self, kind) is not None)


class FactsFileShape(Shape):
    """A file of facts that several procedures share."""

    facts: dict[FactName, FactShape]


class ProcedureShape(Shape):
    """A procedure file."""

    procedure: Id
    edition: Annotated[int, BeforeValidator(_whole), Field(ge=1)] = 1
    title: Line
    about: Words | None = None
    facts_in: list[Line] = []
    given: list[FactName] = []
    facts: dict[FactName, FactShape] = {}
    steps: Annotated[list[AnyBlock], Field(min_length=1)]
