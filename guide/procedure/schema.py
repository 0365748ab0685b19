"""The shape of a procedure file, for validation and for editors.

Every scalar arrives as text (marks.py), so each field says how text becomes its value. Conditions are
kept as written and read by conditions.py, which knows the facts.
"""

from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Field,
    StringConstraints,
    Tag,
    model_validator,
)

from guide.procedure.outcomes import Outcome

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

    model_config = ConfigDict(extra="forbid", defer_build=True, use_attribute_docstrings=True)


class OptionShape(Shape):
    """One answer of a choice."""

    label: Line
    """The answer as the person reads it. E.g. `Hollow steel`"""
    say: Line | None = None
    """The word to say for it, where the label is too long to say. E.g. `steel`"""
    also: list[Line] = []
    """Other words people use for it. E.g. `[metal]`"""


def _option(value: Any) -> Any:
    return {"label": value} if isinstance(value, str) else value


OptionOrText = Annotated[OptionShape, BeforeValidator(_option)]


class RangeShape(Shape):
    """From and to, both included, with the fineness it is measured to and what is usual."""

    from_: Line = Field(alias="from")
    """The smallest answer that is accepted, with its unit. E.g. `20 in`"""
    to: Line
    """The greatest answer that is accepted, with its unit. E.g. `60 in`"""
    step: Line | None = None
    """The step to which it is measured. E.g. `1/16 in`"""
    usual: Line | None = None
    """The usual range; an answer outside it is read back before it counts. E.g. `28 in to 42 in`"""


class CountShape(Shape):
    """A whole number, from and to, both included."""

    from_: Whole = Field(alias="from")
    """The smallest number that is accepted. E.g. `2`"""
    to: Whole
    """The greatest number that is accepted. E.g. `5`"""


class TextShape(Shape):
    """A few words."""

    longest: Annotated[int, BeforeValidator(_whole), Field(ge=1, le=2000)] = 200
    """The most characters that are kept. E.g. `40`"""
    may_be_left_out: YesNo = False
    """Whether Enter alone is an answer; the record then says that it was not given. E.g. `true`"""


class YesNoShape(Shape):
    """Words for the two answers."""

    yes: OptionOrText = OptionShape(label="Yes")
    """The words for yes. E.g. `Fire door or in doubt`"""
    no: OptionOrText = OptionShape(label="No")
    """The words for no. E.g. `Not a fire door`"""


class OfferShape(Shape):
    """The place of the number in the closer's sheet."""

    computation: Line
    """The computation that reads the number from the sheet. E.g. `sheet-body-along`"""
    using: dict[FactName, Line] = {}
    """Its inputs, each with the fact that fills it. E.g. `{mount: mount, opening: opening}`"""


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
    "sum",
    "difference",
    "times",
)
COMPUTED_KINDS = ("worked", "sum", "difference", "times")
"""The kinds of fact that are never asked."""


class FactShape(Shape):
    """Something a run can know; has exactly one kind key."""

    choice: Annotated[dict[Id, OptionOrText], Field(min_length=2)] | None = None
    """One of several answers, each with its label. E.g. `{wood: Solid timber, steel: Hollow steel}`"""
    yesno: YesNoShape | None = None
    """Yes or no, perhaps in other words. E.g. `{yes: Labelled, no: No label}`"""
    count: CountShape | None = None
    """A whole number. E.g. `{from: 2, to: 5}`"""
    length: RangeShape | None = None
    """A length. E.g. `{from: 20 in, to: 60 in, step: 1/16 in}`"""
    angle: RangeShape | None = None
    """An angle. E.g. `{from: 60 deg, to: 180 deg, step: 1 deg}`"""
    force: RangeShape | None = None
    """A force. E.g. `{from: 1 lbf, to: 30 lbf}`"""
    time: RangeShape | None = None
    """A time. E.g. `{from: 1 s, to: 60 s, step: 1/10 s}`"""
    mass: RangeShape | None = None
    """A mass. E.g. `{from: 20 lb, to: 300 lb}`"""
    pressure: RangeShape | None = None
    """A pressure. E.g. `{from: 0 Pa, to: 100 Pa}`"""
    text: TextShape | None = None
    """A few words, kept as they are. E.g. `{longest: 40}`"""
    worked: Line | None = None
    """Computed, never asked: the name of a computation of `hingeside work`. E.g. `spring-size`"""
    sum: Annotated[list[Line], Field(min_length=2, max_length=12)] | None = None
    """Computed, never asked: facts of one kind and constants of it, added up. E.g. `[width, -1/8 in]`"""
    difference: Annotated[list[Line], Field(min_length=2, max_length=2)] | None = None
    """Computed, never asked: the first less the second, which may be below zero. E.g. `[gap_top,
    gap_bottom]`"""
    times: Annotated[list[Line], Field(min_length=2, max_length=2)] | None = None
    """Computed, never asked: a fact multiplied by a plain number. E.g. `[gap, 2]`"""
    using: dict[FactName, Line] = {}
    """For a computed fact: each input, with the fact or the fixed value that fills it. E.g.
    `{width: width, angle: "= 12 deg"}`"""
    rounds: dict[FactName, Annotated[list[FactName], Field(min_length=1)]] = {}
    """For a computed fact that looks at every round so far: an input, with the asked facts that make a
    line of it. A round begins with each answer to the first. E.g. `{reading: [swing_seen, sweep]}`"""
    part: FactName | None = None
    """For a computed fact whose answer has several parts: the one that is meant. E.g. `din`"""
    parts: list[FactName | dict[FactName, Line]] = []
    """For a computed fact whose answer has several parts: those that become facts of their own, each by the name of its
    part, with its short form for a person where one is given. E.g. `[body_along, {drill_leaf: Holes in the leaf}]`"""
    ask: Line | None = None
    """The question as the person reads it; `{at most 15 lbf}` shows a measure in the units of the job. E.g. `How wide
    is the leaf?`"""
    say: Line | None = None
    """The short form of the question, spoken; it names no unit. E.g. `How wide?`"""
    unsure: YesNo = False
    """Whether “I don't know” may be answered; cases see it as `unsure`. E.g. `true`"""
    find_out: Words | None = None
    """How to find out. E.g. `Tape the leaf itself, not the opening.`"""
    schedule: YesNo = False
    """Whether a door schedule can supply it, to be confirmed by the person. E.g. `true`"""
    once_a_visit: YesNo = False
    """Whether its answer holds for the whole visit: a job that follows another does not ask it again. E.g. `true`"""
    sheet: OfferShape | None = None
    """The place of the number in the closer's sheet, to be confirmed by the person."""

    @model_validator(mode="after")
    def one_kind(self) -> "FactShape":
        """Exactly one kind, and the keys that go with it."""
        kinds = [kind for kind in FACT_KINDS if getattr(self, kind) is not None]
        if len(kinds) != 1:
            found = " and ".join(kinds) if kinds else "none"
            raise ValueError(
                f"a fact has exactly one kind ({', '.join(FACT_KINDS)}): found {found}"
            )
        if self.worked is None and (self.using or self.part or self.parts or self.rounds):
            raise ValueError("“using”, “rounds”, “part” and “parts” belong to a worked fact")
        if self.part and self.parts:
            raise ValueError("a worked fact has “part” or “parts”, not both")
        if kinds[0] not in COMPUTED_KINDS:
            if self.ask is None:
                raise ValueError("“ask” is missing: the question as the person reads it")
        elif self.ask or self.unsure or self.schedule or self.once_a_visit or self.sheet:
            raise ValueError(
                "a worked fact is computed: it has no ask, unsure, schedule, once_a_visit or sheet"
            )
        return self


class CautionShape(Shape):
    """A signal word and what it warns of (signal words after ANSI Z535.6)."""

    danger: Line | None = None
    """It kills or maims if it is not avoided. E.g. `A live cable runs behind this head.`"""
    warning: Line | None = None
    """It can kill or maim. E.g. `Wear eye protection.`"""
    caution: Line | None = None
    """It can hurt. E.g. `The edges of the plate are sharp.`"""
    notice: Line | None = None
    """It can spoil the work; nobody is hurt. E.g. `Never past the last turn.`"""

    @model_validator(mode="after")
    def something(self) -> "CautionShape":
        """At least one signal word."""
        if not self.model_fields_set:
            raise ValueError("the signal word is missing: danger, warning, caution or notice")
        return self


class PictureShape(Shape):
    """A drawing in characters one column wide, and a sentence that says the same."""

    drawing: Annotated[str, StringConstraints(min_length=1, max_length=4000)]
    """The drawing, in characters one column wide and no wider than 60."""
    says: Words
    """One sentence that says the same, for the voice. E.g. `The hinges are on your left.`"""


View = Literal["plan", "elevation"]
"""The drawings of an opening: from above, or the head of the door with its holes."""

HoleGroup = Literal["leaf", "head", "frame", "soffit", "body", "shoe"]
"""The holes of a closer, by what they go into or what they hold."""

Cautions = Annotated[list[CautionShape], BeforeValidator(_as_list)]


class HazardShape(Shape):
    """Something dangerous that is not known everywhere, with the caution it demands."""

    caution: Annotated[Cautions, Field(min_length=1)]
    """What a step with this hazard shows where it has no caution of its own, and how grave its own must be. E.g.
    `{danger: A live cable runs behind this head.}`"""


class BlockShape(Shape):
    """The keys of every block."""

    id: Id
    """The block's name, unique in the file; records and scenarios keep it. E.g. `how-wide`"""
    when: Condition | None = None
    """If this is not true, the block is skipped."""


class ToldShape(BlockShape):
    """A block a person reads: the words around it."""

    say: Line | None = None
    """The short words, spoken. E.g. `Mark the holes.`"""
    why: Words | None = None
    """Why it is done. E.g. `The first screw driven home pulls the rest off their holes.`"""
    watch: Words | None = None
    """The common mistake. E.g. `The bit walks on a painted face.`"""
    looks_right: Words | None = None
    """The look of the work when it is right. E.g. `Every hole is square to the face.`"""
    photo: Line | None = None
    """A photo is wanted here: what it must show, in a few words. E.g. `The door label, readable.`"""
    caution: Cautions = []
    """The warnings shown to the person. E.g. `{warning: Wear eye protection.}`"""
    hazards: list[Id] = []
    """What is dangerous here: `drilling`, `ladder`, `spring`, `fire-door`, `electrical`, `hold-open-wiring`, `dust`,
    `silica`, `old-core`, `lead-paint`, `hearing`, `oil`, `alone`, or a hazard that the file declares; without a
    caution of its own the step shows the usual one. E.g. `[drilling, ladder]`"""
    tools: list[Line] = []
    """The tools needed. E.g. `[drill, tap]`"""
    parts: list[Line] = []
    """The parts that are used up or stay. E.g. `[through-bolts]`"""
    picture: PictureShape | None = None
    """A drawing in characters."""
    draws: View | None = None
    """This opening drawn from what is known of it: from above, or the head of the door with its holes.
    E.g. `plan` `elevation`"""
    minutes: Whole | None = None
    """The usual time in minutes. E.g. `5`"""


class DoShape(ToldShape):
    """One action."""

    text: Line
    """One action, imperative, under about 20 words; `{width}` shows a fact, and `{1/16 in}` a measure in the units of
    the job. E.g. `Start all screws by hand, then tighten.`"""
    card: Line | None = None
    """Neighbouring steps with the same card are shown together to a practised fitter. E.g.
    `Mounting the body`"""
    holes: HoleGroup | None = None
    """The holes that the step lists, each with its two numbers, and what to drill them with, by the setting-out. E.g.
    `leaf`"""
    cuts: YesNo = False
    """Whether this cannot be undone; it must come after a hold. E.g. `true`"""
    reads: list[FactName] = []
    """For a cut: facts it depends on beside those it shows. E.g. `[mount, opening]`"""
    depends_on: list[FactName] = []
    """For a step that cuts nothing: facts it depends on beside those it shows; it is due again when one of them
    changes. E.g. `[mount, hinge]`"""

    @model_validator(mode="after")
    def one_list(self) -> "DoShape":
        """A cut has its own list, which a hold must read back."""
        if self.cuts and self.depends_on:
            raise ValueError("a cut lists what it depends on under “reads”, not “depends_on”")
        return self


class QuestionShape(ToldShape):
    """What is asked, measured or timed."""

    card: Line | None = None
    """The card of the steps just before it, which it closes: a practised fitter sees them together, and an answer says
    that they are done. Neighbouring questions of the same card are answered together. E.g. `First look`"""


class PickedShape(QuestionShape):
    """What is asked, of which one answer may be expected."""

    expects: Line | None = None
    """The answer that most doors give, by its label: on a card of questions it stands there to be confirmed with the
    others. E.g. `ordinary` `yes`"""


class AskShape(PickedShape):
    """A question; its words are the fact's own, unless it has a text."""

    fact: FactName
    """The fact that is asked for. E.g. `width`"""
    text: Line | None = None
    """The question as it is asked here, in place of the fact's own. E.g. `How far from the {line} is the mark?`"""
    depends_on: list[FactName] = []
    """Facts the answer depends on beside those the question shows; it is asked again when one of them changes.
    E.g. `[mount, hinge]`"""
    blind: list[FactName] = []
    """Facts whose values are not shown, drawn or said while this question waits, so that a tape is read and not the
    screen; the answer depends on them. E.g. `[body_along]`"""


class WorkShape(ToldShape):
    """A computed fact shown with its working."""

    fact: FactName
    """The computed fact that is shown. E.g. `size`"""
    text: Line | None = None
    """The text above the working. E.g. `This leaf needs EN size {size}.`"""


class TimeShape(QuestionShape):
    """A time taken by stopwatch."""

    fact: FactName
    """The time that is measured. E.g. `sweep`"""
    text: Line | None = None
    """The instruction while timing. E.g. `Open to 90 degrees, let go, and time it to the mark.`"""
    same_swing: Id | None = None
    """The `time` block that comes next and goes on with the same swing: one start of the watch then serves
    both. E.g. `latch-now`"""


class OtherwiseShape(Shape):
    """The branch after a failed check or repeat: steps, a jump, or both."""

    steps: list["AnyBlock"] = []
    """The steps done then."""
    go: Line | None = None
    """The block of this file where the run goes on, after the steps. E.g. `tune`"""

    @model_validator(mode="after")
    def something(self) -> "OtherwiseShape":
        """At least one of the two."""
        if not self.steps and self.go is None:
            raise ValueError("“otherwise” needs steps, or go, or both")
        return self


class CheckShape(PickedShape):
    """A reading against a limit."""

    fact: FactName
    """The reading, asked here unless it is computed. E.g. `sweep`"""
    text: Line | None = None
    """The instruction for the reading; `{limit}` shows the limit. E.g. `Hold a spirit level to the head.`"""
    limit: Limit
    """The limit that the reading must meet: a label, labels, a comparison or a range, or a comparison with
    another fact. E.g. `">= 5 s"` `5 s to 7 s` `"<= drop"` `"<= drop - 1/16 in"` `yes`"""
    otherwise: OtherwiseShape
    """The branch followed if the limit is not met."""


class CaseShape(Shape):
    """One way on."""

    id: Id
    """The case's name, unique in its block. E.g. `steel-frame`"""
    when: Condition
    """The cases that go this way."""
    steps: list["AnyBlock"]
    """The steps done in these cases; the list may be empty."""


class ByCaseShape(BlockShape):
    """Cases that together cover everything and never overlap."""

    cases: Annotated[list[CaseShape], Field(min_length=2)]
    """The ways on. Every case has exactly one."""


class RepeatShape(BlockShape):
    """Steps done again until a condition holds, at most `at_most` times."""

    steps: Annotated[list["AnyBlock"], Field(min_length=1)]
    """The steps that are repeated."""
    until: Condition
    """The condition that ends the repeat; tested after each round."""
    at_most: Annotated[int, BeforeValidator(_whole), Field(ge=1, le=50)]
    """The most rounds. E.g. `4`"""
    otherwise: OtherwiseShape
    """The branch followed if that many rounds were not enough."""


class EachShape(BlockShape):
    """The same steps for each of several things in turn, such as the leaves of a pair. Every turn begins without what
    the turn before asked."""

    fact: FactName
    """The choice whose answers name the things in their order. Nobody is asked for it. E.g. `this_leaf`"""
    goes_on: Condition
    """The condition on which another turn follows; tested after each. E.g. `{other_leaf: now}`"""
    keeps: list[FactName] = []
    """What is asked in a turn and holds for every later one. E.g. `[other_leaf]`"""
    suggests: list[FactName] = []
    """What is asked in each turn and is mostly the same: the answer of the turn before is suggested. E.g.
    `[hinge, height]`"""
    steps: Annotated[list["AnyBlock"], Field(min_length=1)]
    """The steps of one turn."""


class IncludeShape(BlockShape):
    """Another file of this folder, or a shipped part."""

    file: Line
    """The file's name, in the same folder; or `shipped:` and the name of a shipped part. E.g. `hang-check.yaml`
    `shipped:hang-check`"""
    stage: Annotated[Line, Field(max_length=12)] | None = None
    """The stage of the work that begins here, in a word or two for the bar over every screen. Among the steps of the
    procedure itself, not of a part. E.g. `Look`"""


class HoldShape(BlockShape):
    """A stop before work that cannot be undone."""

    reads_back: Annotated[list[FactName], Field(min_length=1)]
    """The facts that are read back, and must be agreed to, before the run goes on. E.g. `[width,
    mount]`"""
    text: Line | None = None
    """The text above them. E.g. `Hold. Read these back before anything is drilled.`"""
    say: Line | None = None
    """The short words, spoken. E.g. `Read these back.`"""
    holes: HoleGroup | None = None
    """The holes that are listed beside them. E.g. `leaf`"""
    draws: View | None = None
    """This opening drawn from what is known of it: from above, or the head of the door with its holes.
    E.g. `elevation`"""


class EndShape(BlockShape):
    """The run ends."""

    outcome: Outcome
    """How the job ends: finished, finished with something named that is left to do, not to be done as things are,
    made safe and handed to the foreman, or a cause found. E.g. `not-started`"""
    text: Line | None = None
    """The last words on the screen and in the record. E.g. `Do not drill this frame.`"""
    say: Line | None = None
    """The short words, spoken. E.g. `Do not drill.`"""
    why: Words | None = None
    """Why it ends here. E.g. `Mortar breaks drills and leaves no room for a nut.`"""
    leads_to: Id | None = None
    """The procedure to go on with at the same door, by its name; it is offered by its title. E.g.
    `adjust-a-closer`"""


BLOCK_KINDS = (
    "do",
    "ask",
    "work",
    "time",
    "check",
    "by_case",
    "repeat",
    "each",
    "include",
    "hold",
    "end",
)


class AnyBlock(Shape):
    """A block: a mapping with exactly one key, its kind."""

    do: DoShape | None = None
    """One action."""
    ask: AskShape | None = None
    """A fact is asked for."""
    work: WorkShape | None = None
    """A computed fact is shown with its working."""
    time: TimeShape | None = None
    """A time is taken by stopwatch."""
    check: CheckShape | None = None
    """A reading is compared with a limit."""
    by_case: ByCaseShape | None = None
    """Cases: each answer goes one way."""
    repeat: RepeatShape | None = None
    """Steps are done again until something holds."""
    each: EachShape | None = None
    """Steps are done for each of several things in turn."""
    include: IncludeShape | None = None
    """Another file's steps are done here."""
    hold: HoldShape | None = None
    """A stop before work that cannot be undone."""
    end: EndShape | None = None
    """The run ends."""

    @model_validator(mode="after")
    def one_kind(self) -> "AnyBlock":
        """Exactly one kind."""
        kinds = [kind for kind in BLOCK_KINDS if getattr(self, kind) is not None]
        if len(kinds) != 1:
            found = " and ".join(kinds) if kinds else "none"
            raise ValueError(
                f"a block has exactly one kind ({', '.join(BLOCK_KINDS)}): found {found}"
            )
        return self

    @property
    def kind(self) -> str:
        """The one key."""
        return next(kind for kind in BLOCK_KINDS if getattr(self, kind) is not None)


def _some_words(value: str) -> str:
    if len(value.split()) < FEWEST_WORDS:
        raise ValueError(f"give the reason in at least {FEWEST_WORDS} words")
    return value


FEWEST_WORDS = 3
"""Characters; fewer do not make a reason."""


class AcceptedShape(Shape):
    """A finding that is accepted, and the reason."""

    code: Id
    """The finding's code. E.g. `case-overlap`"""
    at: Line
    """The block, or the fact, that it is found at. E.g. `by-width`"""
    because: Annotated[Words, AfterValidator(_some_words)]
    """The reason to accept it, in a few words at least. E.g. `The foreman decides where both hold.`"""


class FactsFileShape(Shape):
    """A file of facts that several procedures share."""

    facts: dict[FactName, FactShape]
    """The facts, by name."""
    hazards: dict[Id, HazardShape] = {}
    """Hazards of this trade beside those known everywhere, by name. E.g. `{live-cable: {caution: {danger: Switch the
    cable off first.}}}`"""
    accepted: list[AcceptedShape] = []
    """Findings of the check that are accepted, each with its reason."""


class ProcedureShape(Shape):
    """A procedure file."""

    procedure: Id
    """The procedure's name, as the file is called. E.g. `hang-check`"""
    edition: Annotated[int, BeforeValidator(_whole), Field(ge=1)] = 1
    """A whole number that is raised with each change. E.g. `3`"""
    title: Line
    """The name in the list of procedures. E.g. `Hang check`"""
    about: Words | None = None
    """One sentence for the list of procedures. E.g. `The leaf is put right first, or the job stops.`"""
    purpose: Literal["inspection"] | None = None
    """Left out, or `inspection` if each check is an item that passes or fails, as in a yearly check. E.g.
    `inspection`"""
    facts_in: list[Line] = []
    """Files of facts, in the same folder, that several procedures share. E.g. `[closer-facts.yaml]`"""
    counts_on: list[FactName] = []
    """For a part that others include: the facts that are known before it begins. E.g. `[width,
    mount]`"""
    facts: dict[FactName, FactShape] = {}
    """The facts, by name."""
    hazards: dict[Id, HazardShape] = {}
    """Hazards of this trade beside those known everywhere, by name. E.g. `{live-cable: {caution: {danger: Switch the
    cable off first.}}}`"""
    accepted: list[AcceptedShape] = []
    """Findings of the check that are accepted, each with its reason."""
    steps: Annotated[list[AnyBlock], Field(min_length=1)]
    """The blocks, in order."""
