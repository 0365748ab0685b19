"""Declarations of facts, from their validated shapes: ranges, options, computations; each fault at its place."""

from collections.abc import Container, Mapping

from guide import measures
from guide.files.source import Path_, Source
from guide.measures import MeasureError, Quantity
from guide.procedure import schema
from guide.procedure.arithmetic import OPERATIONS
from guide.procedure.braces import check_quantities
from guide.procedure.conditions import RESERVED
from guide.procedure.facts import MEASURED, Fact, Option, SheetOffer, Value, WrongAnswer, bare
from guide.procedure.formula import check_formula, take_formula
from guide.text import LIMIT, has_limit, meant, names_in, short
from guide.trade import registry
from guide.trade.answer import BadInput, OutOfDomain
from guide.trade.computation import Given, Input
from guide.trade.reading import DECIMAL, check_value

LABEL_KINDS = ("choice", "yesno")


def declare(source: Source, name: str, shape: schema.FactShape, path: Path_) -> Fact:
    """The fact, as far as it could be understood; what is wrong with it is noted in the source."""
    kind = next(kind for kind in schema.FACT_KINDS if getattr(shape, kind) is not None)
    fact = Fact(
        name,
        kind,
        ask=shape.ask or "",
        say=shape.say or shape.ask or "",
        find_out=shape.find_out or "",
        unsure=shape.unsure,
        schedule=shape.schedule,
        once_a_visit=shape.once_a_visit,
    )
    if name in (*RESERVED, "unsure", "none", LIMIT):
        source.fault(
            path, "name-reserved", f"“{name}” has a meaning of its own here; rename it.", key=True
        )
    if shape.unsure and not shape.find_out:
        source.fault(
            path,
            "find-out-missing",
            f"“{name}” offers “I don't know” and no way to find out; add find_out.",
            level="warning",
            key=True,
        )
    if shape.choice is not None:
        fact.options = {key: _option(key, option) for key, option in shape.choice.items()}
        if "unsure" in fact.options:
            source.fault(
                (*path, "choice", "unsure"),
                "name-reserved",
                "“unsure” is offered by `unsure: true`; take the option out.",
                key=True,
            )
    elif shape.yesno is not None:
        fact.options = {
            "yes": _option("yes", shape.yesno.yes),
            "no": _option("no", shape.yesno.no),
        }
    elif shape.count is not None:
        fact.low, fact.high = shape.count.from_, shape.count.to
        if shape.count.from_ >= shape.count.to:
            message = _no_range(backwards=shape.count.from_ > shape.count.to)
            source.fault((*path, "count"), "range-wrong", message)
    elif shape.text is not None:
        fact.longest = shape.text.longest
        fact.may_be_left_out = shape.text.may_be_left_out
    elif kind in MEASURED:
        _ranges(source, fact, getattr(shape, kind), (*path, kind))
    elif kind in OPERATIONS:
        take_formula(fact, kind, getattr(shape, kind))
    else:
        fact.computation = shape.worked or ""
        fact.using = dict(shape.using)
        fact.rounds = {key: list(names) for key, names in shape.rounds.items()}
        fact.part = shape.part or ""
        _gives(source, fact, path)
    if shape.sheet is not None:
        fact.offer = SheetOffer(shape.sheet.computation, dict(shape.sheet.using))
    _words(source, fact, (*path, kind))
    for key in ("ask", "say", "find_out"):
        said = getattr(shape, key) or ""
        for braced in [*names_in(said), *([LIMIT] if has_limit(said) else [])]:
            message = f"“{{{short(braced)}}}” is not filled in here; write the words themselves."
            source.fault((*path, key), "brace-stray", message)
        check_quantities(source, said, (*path, key))
    return fact


def _words(source: Source, fact: Fact, path: Path_) -> None:
    """Note a word that names two answers of a fact: which of them was meant could only be guessed."""
    taken: dict[str, str] = {}
    for option in fact.options.values():
        for word in (option.label, option.text, option.say, *option.also):
            first = taken.setdefault(word.casefold(), option.label)
            if first != option.label:
                source.fault(
                    (*path, option.label),
                    "word-twice",
                    f"“{short(word)}” means both “{first}” and “{option.label}”; change one.",
                    key=True,
                )


def _option(label: str, shape: schema.OptionShape) -> Option:
    return Option(label, shape.label, shape.say or shape.label, tuple(shape.also))


def _ranges(source: Source, fact: Fact, shape: schema.RangeShape, path: Path_) -> None:
    def quantity(text: str, key: str) -> Quantity | None:
        try:
            read = measures.parse(text, fact.kind)
        except MeasureError as error:
            source.fault((*path, key), "unit-wrong", str(error))
            return None
        if bare(text):
            source.fault((*path, key), "unit-wrong", _no_unit(text, fact.kind))
            return None
        return read

    low, high = quantity(shape.from_, "from"), quantity(shape.to, "to")
    if low is None or high is None:
        return
    if low >= high:
        source.fault(path, "range-wrong", _no_range(backwards=low > high))
        return
    fact.low, fact.high = low, high
    if shape.step is not None:
        fact.step = quantity(shape.step, "step")
        if fact.step is not None and fact.step.base <= 0:
            source.fault((*path, "step"), "range-wrong", "The step must be more than nothing.")
            fact.step = None
    if shape.usual is not None:
        if bare(shape.usual.rpartition(" to ")[2]):
            source.fault((*path, "usual"), "unit-wrong", _no_unit(shape.usual, fact.kind))
            return
        try:
            fact.usual = measures.parse_range(shape.usual, fact.kind)
        except MeasureError as error:
            source.fault((*path, "usual"), "unit-wrong", str(error))
            return
        if fact.usual[0] < low or fact.usual[1] > high:
            source.fault(
                (*path, "usual"),
                "range-wrong",
                f"The usual range {shape.usual} reaches past the range {low} to {high}; narrow it.",
            )


def _no_range(*, backwards: bool) -> str:
    """What is wrong with the ends of a range."""
    if backwards:
        return "The range runs backwards; swap from and to."
    return "The range has one value, so that there is nothing to ask; correct from or to."


def _no_unit(text: str, kind: str) -> str:
    inch, metric = (measures.home_unit(kind, system) for system in ("inch", "metric"))
    units = f"“{text} {inch}”" if inch == metric else f"“{text} {inch}” or “{text} {metric}”"
    return f"“{short(text)}” has no unit; write {units}."


def _gives(source: Source, fact: Fact, path: Path_) -> None:
    """Look the computation up, and note what kind of value it gives."""
    try:
        computation = registry.find(fact.computation)
    except BadInput as error:
        source.fault((*path, "worked"), "computation-unknown", str(error))
        return
    output = computation.output
    fact.optional = tuple(one.name for one in computation.inputs if not one.required)
    if output.kind == "mapping":
        if fact.part not in output.options:
            source.fault(
                path,
                "part-wrong",
                f"“{computation.name}” gives several parts ({', '.join(output.options)}); name one "
                "with part.",
            )
            return
        fact.gives_labels = output.labels_of(fact.part)
        fact.gives = output.kind_of(fact.part)
        return
    if fact.part:
        source.fault((*path, "part"), "part-wrong", "This answer has no parts; take part out.")
    fact.gives = "choice" if output.kind in LABEL_KINDS else output.kind
    fact.gives_labels = ("yes", "no") if output.kind == "yesno" else output.options


def check_using(source: Source, facts: Mapping[str, Fact], fact: Fact, path: Path_) -> None:
    """Note every input of a worked fact, or of a sheet's offer, that is missing, unknown or unfit."""
    if fact.operation:
        check_formula(source, facts, fact, path)
    elif fact.worked:
        _check_inputs(source, facts, fact.computation, fact.using, path, fact.rounds)
        _check_rounds(source, facts, fact, path)
    if fact.offer is not None:
        offer_path = (*path, "sheet")
        try:
            computation = registry.find(fact.offer.computation)
        except BadInput as error:
            source.fault((*offer_path, "computation"), "computation-unknown", str(error))
            return
        if computation.output.kind != fact.kind:
            source.fault(
                offer_path,
                "input-wrong",
                f"“{computation.name}” gives a {computation.output.kind}, but “{fact.name}” is a "
                f"{fact.kind}.",
            )
        _check_inputs(source, facts, computation.name, fact.offer.using, offer_path)


def _check_inputs(
    source: Source,
    facts: Mapping[str, Fact],
    name: str,
    using: Mapping[str, str],
    path: Path_,
    rounds: Container[str] = (),
) -> None:
    computation = registry.COMPUTATIONS.get(name)
    if computation is None:
        return
    known = {one.name: one for one in computation.inputs}
    for input_name, filler in using.items():
        place = (*path, "using", input_name)
        wanted = known.get(input_name)
        if wanted is not None and wanted.kind == "sheet":
            source.fault(
                place,
                "input-wrong",
                "The run's sheet is passed by itself; take this out.",
                key=True,
            )
        elif wanted is None:
            hint = meant(input_name, known, f"its inputs are {', '.join(known)}.")
            source.fault(
                place, "input-wrong", f"“{name}” has no input “{input_name}”; {hint}", key=True
            )
        elif filler.startswith("="):
            _check_fixed(source, wanted, filler[1:].strip(), place)
        elif filler not in facts:
            hint = meant(filler, facts, "declare it under facts.")
            source.fault(place, "fact-unknown", f"There is no fact “{short(filler)}”; {hint}")
        else:
            _check_kind(source, facts[filler], wanted, place)
    missing = [
        one.name
        for one in computation.inputs
        if one.required and one.kind != "sheet" and one.name not in using and one.name not in rounds
    ]
    if missing:
        source.fault(
            path, "input-wrong", f"“{name}” also needs {', '.join(missing)}; add it under using."
        )


def _check_rounds(source: Source, facts: Mapping[str, Fact], fact: Fact, path: Path_) -> None:
    """Note every name under `rounds` that is not such an input, and every column that does not fit it."""
    computation = registry.COMPUTATIONS.get(fact.computation)
    if computation is None:
        return
    known = {one.name: one for one in computation.inputs if one.columns}
    for input_name, names in fact.rounds.items():
        place = (*path, "rounds", input_name)
        wanted = known.get(input_name)
        if wanted is None:
            hint = meant(input_name, known, "fill it under using.")
            message = (
                f"“{computation.name}” has no input “{input_name}” that goes by rounds; {hint}"
            )
            source.fault(place, "input-wrong", message, key=True)
            continue
        if input_name in fact.using:
            message = f"“{input_name}” is under using too; take it out there."
            source.fault(place, "input-wrong", message, key=True)
        if len(names) != len(wanted.columns):
            columns = ", ".join(column.about for column in wanted.columns)
            message = f"“{input_name}” needs {len(wanted.columns)} facts: {columns}."
            source.fault(place, "input-wrong", message, key=True)
            continue
        for number, (name, column) in enumerate(zip(names, wanted.columns, strict=True)):
            spot = (*place, number)
            if name not in facts:
                hint = meant(name, facts, "declare it under facts.")
                source.fault(spot, "fact-unknown", f"There is no fact “{short(name)}”; {hint}")
            elif facts[name].worked:
                message = f"“{name}” is computed; a round is made of what is asked in it."
                source.fault(spot, "input-wrong", message)
            else:
                _check_kind(source, facts[name], column, spot)


def _check_fixed(source: Source, wanted: Input, text: str, place: Path_) -> None:
    try:
        value = read_fixed(wanted, text)
        check_value(wanted, _as_given(wanted, value))
    except (WrongAnswer, MeasureError, BadInput, OutOfDomain) as error:
        source.fault(place, "input-wrong", str(error))


def _as_given(wanted: Input, value: Value) -> Given:
    """A fixed value as the computation gets it."""
    if wanted.kind == "number":
        return float(str(value))
    return value == "yes" if wanted.kind == "yesno" else value


def read_fixed(wanted: Input, text: str) -> Value:
    """A fixed value written for an input, as `= 12 deg` or `= regular`."""
    if wanted.kind in MEASURED:
        value = measures.parse(text, wanted.kind)
        if bare(text):
            raise WrongAnswer(_no_unit(text, wanted.kind))
        return value
    if wanted.kind == "number":
        if not DECIMAL.fullmatch(text):
            raise WrongAnswer(f"“{short(text)}” is not a number; write one such as 0.45.")
        return text
    if wanted.kind == "count":
        if not (text.isascii() and text.isdigit() and len(text) <= 9):
            raise WrongAnswer(f"“{short(text)}” is not a whole number; write one such as 3.")
        return int(text)
    if wanted.kind == "text":
        return text
    options = ("yes", "no") if wanted.kind == "yesno" else wanted.options
    if text not in options:
        raise WrongAnswer(f"“{short(text)}” is not one of {', '.join(options)}; write one of them.")
    return text


def _check_kind(source: Source, fact: Fact, wanted: Input, place: Path_) -> None:
    has = fact.gives if fact.worked else fact.kind
    if not has:
        return  # its own computation is unknown, which was noted there
    if wanted.kind in LABEL_KINDS:
        labels = fact.gives_labels if fact.worked else tuple(fact.options)
        options = ("yes", "no") if wanted.kind == "yesno" else wanted.options
        extra = [label for label in labels if label not in options]
        if has not in LABEL_KINDS or extra:
            source.fault(
                place,
                "input-wrong",
                f"“{wanted.name}” accepts {', '.join(options)}, but “{fact.name}” can also be "
                f"{', '.join(extra) or 'a ' + has}.",
            )
    elif wanted.kind != has and (wanted.kind, has) != ("number", "count"):
        source.fault(
            place,
            "input-wrong",
            f"“{wanted.name}” is a {wanted.kind}, but “{fact.name}” is a {has}.",
        )
