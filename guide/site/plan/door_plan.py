"""The plan of one door: mount, size, plates, fasteners, cautions, open questions and minutes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from guide.procedure.facts import Fact, Value, WrongAnswer
from guide.site.plan.fitting import Fitting, fitting_of
from guide.site.plan.known import Planning
from guide.site.plan.spring import bench_spring
from guide.site.schedule.doors import ScheduledDoor
from guide.site.schedule.reading import Question
from guide.trade.holes.accessories import KIND_WORDS
from guide.trade.holes.fixing import Fixing, drill_words
from guide.trade.holes.rows import drill_sentence, sure_holes
from guide.trade.mounts import MOUNTS
from guide.trade.sheet.parts import SheetBody, SheetShoe

OF_THE_VAN = ("other_leaf",)
"""Facts that no schedule supplies, and that decide what the van carries."""
NO_CLOSER = "The schedule gives it no closer."
BEST = "the strongest that nothing known rules out"
"""Mounts are tried in the order of `MOUNTS`, the strongest first, as `choose-mount` advises."""


@dataclass(frozen=True, slots=True)
class Accessory:
    """A plate or bracket."""

    name: str
    carries: str
    """"body" or "shoe"."""
    why: str
    told: str = ""
    """What must be done where the sheet lacks its dimensions; empty if it has them."""


@dataclass(frozen=True, slots=True)
class Fasteners:
    """What the holes of a part take."""

    part: str
    """"leaf", "frame face" or "soffit"."""
    fixing: Fixing
    count: int | None
    """How many holes; None if the closer's holes are not known."""
    drill: str
    """What to drill, a phrase."""


@dataclass(frozen=True, slots=True)
class DoorPlan:
    """The plan of one door."""

    door: ScheduledDoor
    mount: str = ""
    """Empty if the door is set aside."""
    mount_why: str = ""
    ruled_out: tuple[tuple[str, str], ...] = ()
    """The mounts that were ruled out before it, each with the reason."""
    size: int | None = None
    size_why: tuple[str, ...] = ()
    turns: str = ""
    """How far to turn the spring from the factory's setting; empty without a sheet that says it."""
    accessories: tuple[Accessory, ...] = ()
    fasteners: tuple[Fasteners, ...] = ()
    cautions: tuple[str, ...] = ()
    open: tuple[Question, ...] = ()
    least: int = 0
    """Minutes of the shortest way through the job."""
    most: int = 0
    """Minutes of the longest, where nothing is done twice."""
    tools: tuple[str, ...] = ()
    """Those of the steps that every way through the job has."""
    perhaps: tuple[str, ...] = ()
    """Those of steps that depend on what is still open."""
    set_aside: str = ""
    """Why it should not be started, a sentence; empty if it may be."""

    @property
    def supposed(self) -> Mapping[str, str]:
        """What it was planned with and nobody has confirmed."""
        return self.door.supposed


def plan_door(planning: Planning, door: ScheduledDoor) -> DoorPlan:
    """The plan of one door."""
    if door.closer_wanted is False:
        return DoorPlan(door, set_aside=NO_CLOSER)
    values = {**_supposed(planning, door), **door.facts}
    named = values.get("mount")
    tried = _tried(planning, values, [named] if isinstance(named, str) else list(MOUNTS))
    chosen = _chosen(tried)
    if chosen is None:
        return replace(_with_open(planning, DoorPlan(door), tried[0]), set_aside=tried[0].stopped)
    before = tried[: tried.index(chosen)]
    ruled_out = tuple((one.mount, one.stopped or one.low) for one in before)
    why = "the schedule names it" if named is not None else BEST
    plan = DoorPlan(door, chosen.mount, why, ruled_out)
    return _with_open(planning, _with_closer(planning, plan, chosen), chosen)


def _tried(planning: Planning, values: Mapping[str, Value], mounts: list[str]) -> list[Fitting]:
    """The mounts in their order, up to the first that suits."""
    tried: list[Fitting] = []
    for mount in mounts:
        tried.append(fitting_of(planning, values, mount))
        if not tried[-1].stopped and not tried[-1].low:
            break
    return tried


def _supposed(planning: Planning, door: ScheduledDoor) -> dict[str, Value]:
    """What is supposed until it is known, of the facts that the procedure has."""
    found: dict[str, Value] = {}
    for name, text in door.supposed.items():
        fact = planning.graph.facts.get(name)
        if fact is not None:
            found[name] = _read(fact, text)
    return {name: value for name, value in found.items() if value != ""}


def _read(fact: Fact, text: str) -> Value:
    try:
        return fact.read(text)
    except WrongAnswer:
        return ""


def _chosen(tried: list[Fitting]) -> Fitting | None:
    """The first mount that nothing stops and that does not hang too low; else the first that nothing stops."""
    free = [one for one in tried if not one.stopped]
    return next((one for one in free if not one.low), free[0] if free else None)


def _with_closer(planning: Planning, plan: DoorPlan, one: Fitting) -> DoorPlan:
    cautions = [*one.setting_out.cautions, *([one.low] if one.low else [])]
    accessories = tuple(_accessories(one))
    cautions += [part.told for part in accessories if part.told]
    if one.setting_out.refusal == "needs-special":
        cautions.append(one.setting_out.why)
    size = one.size.value if one.size is not None else None
    if one.size is not None:
        cautions += one.size.cautions
    return replace(
        plan,
        size=size if isinstance(size, int) else None,
        size_why=() if one.size is None else one.size.working,
        turns=bench_spring(planning, one),
        accessories=accessories,
        fasteners=tuple(_fasteners(planning, one)),
        cautions=tuple(dict.fromkeys(cautions)),
    )


def _accessories(one: Fitting) -> Iterator[Accessory]:
    chosen = one.setting_out.accessories
    for need in chosen.needs:
        found = next(
            (
                part
                for part in chosen.found
                if (part.kind, part.carries) == (need.kind, need.carries)
            ),
            None,
        )
        name = KIND_WORDS[need.kind] if found is None else found.name
        yield Accessory(name, need.carries, need.why, "" if found else chosen.missing)


def _fasteners(planning: Planning, one: Fitting) -> Iterator[Fasteners]:
    so = one.setting_out
    for part, fixing in so.fixings:
        drill = drill_sentence(so, part, planning.units) or drill_words(
            fixing, None, planning.units
        )
        yield Fasteners(part, fixing, _count(one, part), drill)


def _count(one: Fitting, part: str) -> int | None:
    """How many holes go into a part: those set out, else those that the sheet gives body or shoe."""
    so = one.setting_out
    if so.holes:
        return sure_holes(so, part)
    if so.sheet is None or so.accessories.needs:
        return None
    owner: SheetBody | SheetShoe | None = (
        so.sheet.body if (part == "leaf") == (one.mount != "top-jamb") else so.sheet.shoe
    )
    return None if owner is None else sum(1 for hole in owner.holes if hole.kind != "extra")


def _with_open(planning: Planning, plan: DoorPlan, one: Fitting) -> DoorPlan:
    """With what is still to be found out, and what the way through the job takes along."""
    asked = list(plan.door.questions)
    seen = {question.fact for question in asked}
    for name in one.way.asked:
        fact = planning.graph.facts[name]
        wanted = (fact.schedule and not fact.may_be_left_out) or name in OF_THE_VAN
        if wanted and name not in seen and one.known.value(name) is None:
            asked.append(Question(fact.question(planning.units), "", name))
    return replace(
        plan,
        open=tuple(asked),
        least=one.way.least,
        most=one.way.most,
        tools=tuple(one.way.tools),
        perhaps=tuple(one.way.perhaps),
    )
