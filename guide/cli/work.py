"""`hingeside work NAME key=value...`"""

import argparse
import json
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeGuard

from guide.cli import work_words
from guide.cli.messages import Usage, say
from guide.errors import DONE, FOUND
from guide.measures import Quantity, to_json
from guide.measures.mentioned import with_conversions
from guide.trade import registry
from guide.trade.answer import Answer, BadInput, NoAnswer, OutOfDomain, Result, result_json
from guide.trade.computation import Computation, Given, given_sheet
from guide.trade.reading import check_value
from guide.trade.shown import spoken_system

if TYPE_CHECKING:
    import argparse

    from guide.drawing.plot import Plot
    from guide.trade.sheet.sheet import Sheet

EXAMPLES = """\
  hingeside work                                        what can be calculated
  hingeside work spring-size --help                     its inputs, limits and source
  hingeside work spring-size width='36 in' mount=parallel
  hingeside work door-mass width='915 mm' height='2134 mm' thickness='44 mm' construction=particleboard
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "name",
        nargs="?",
        metavar="NAME",
        help="what to calculate; if left out, all names are listed",
    )
    parser.add_argument("inputs", nargs="*", metavar="key=value")
    parser.add_argument("--json", action="store_true", help="one JSON object")
    parser.add_argument(
        "-o", "--output", metavar="FILE.svg", help="moments: the moments by opening angle, drawn"
    )
    parser.add_argument(
        "--stream",
        action="store_true",
        help="tune: reads one JSON reading a line, writes one answer a line",
    )


def help_of(words: Sequence[str]) -> str:
    """The help of the computation that is named among the words of a call; empty if none is."""
    from guide.cli.work_help import help_lines

    named = next((word for word in words if not word.startswith("-")), None)
    return "" if named is None else "\n".join(help_lines(registry.find(named)))


def run(options: argparse.Namespace) -> int:
    """Compute and print; without a name, list what there is."""
    if options.name is None:
        for one in registry.COMPUTATIONS.values():
            inputs = " ".join(f"{i.name}=" if i.required else f"[{i.name}=]" for i in one.inputs)
            print(f"{one.name:<18} {inputs}\n{'':<18} {one.about}")
        return DONE
    computation = registry.find(options.name)
    texts: dict[str, str] = {}
    for pair in options.inputs:
        key, equals, value = pair.partition("=")
        if not equals:
            raise Usage(f"“{pair[:40]}” is not an input; write key=value.")
        if key in texts:
            wanted = computation.input(key)
            if wanted is None or wanted.kind != "text":
                raise Usage(f"“{key}” is given twice; give it once.")
            value = f"{texts[key]}\n{value}"
        texts[key] = value
    values = registry.read_inputs(computation, texts, open_sheet=_sheet)
    if options.stream:
        return _stream(computation, values)
    if options.output is not None and computation.name not in _DRAWN:
        raise Usage(f"-o goes with {', '.join(_DRAWN)} alone; leave it out.")
    try:
        answer = registry.run(computation.name, values)
    except (NoAnswer, OutOfDomain) as error:
        say(f"hingeside: {error}")
        # An arm that cannot be put together is an answer of its own: it is printed all the same.
        if isinstance(error, NoAnswer) and error.value is not None:
            _print(computation, values, Answer(error.value, (), (str(error),)), options.json)
        return FOUND
    if options.output is not None:
        from guide.drawing.plot import paper_plot
        from guide.files.writing import write_beside

        plot = _DRAWN[computation.name](answer.value)
        write_beside(Path(options.output), paper_plot(plot).encode("utf-8"))
        print(plot.says)
        return DONE
    _print(computation, values, answer, options.json)
    return DONE


def _moments_drawn(value: Result) -> "Plot":
    from guide.drawing.moment_plot import moment_plot

    assert _listed(value)  # rows, as its output says
    return moment_plot([row for row in value if isinstance(row, Mapping)])


_DRAWN = {"moments": _moments_drawn}
"""The computations of which a plot can be written."""


def _stream(computation: Computation, values: Mapping[str, Given]) -> int:
    """Take readings from standard input until the door is done or nothing more can be turned."""
    from guide.trade.tuning import tune

    if computation.name != "tune":
        raise Usage("--stream goes with tune alone; leave it out.")
    if "reading" in values:
        raise Usage("With --stream the readings come on standard input; leave reading= out.")
    for name, value in values.items():
        wanted = computation.input(name)
        if wanted is not None:
            check_value(wanted, value)
    adviser, sheet = tune.begin(values), given_sheet(values)
    for line in sys.stdin:
        if not line.strip():
            continue
        try:
            data = json.loads(line)
        except ValueError as error:
            raise BadInput(
                f"“{line.strip()[:60]}” is not JSON; write one object a line."
            ) from error
        advice = adviser.next(tune.read_json(data))
        answer = tune.advice_json(advice, sheet)
        print(json.dumps(answer, ensure_ascii=False, allow_nan=False), flush=True)
        if advice.outcome:
            break
    return DONE


def _print(
    computation: Computation, values: Mapping[str, Given], answer: Answer, as_json: bool
) -> None:
    if as_json:
        data = {
            "name": computation.name,
            "inputs": {name: _input_json(value) for name, value in values.items()},
            "value": result_json(answer.value),
            "working": list(answer.working),
            "source": computation.source,
            "cautions": list(answer.cautions),
        }
        print(json.dumps(data, ensure_ascii=False, allow_nan=False))
        return
    _print_value(computation.name, answer)
    system = spoken_system(values)

    def told(line: str) -> str:
        return with_conversions(line, system) if system else line

    for line in answer.working:
        print(f"  {told(line)}")
    for caution in answer.cautions:
        print(f"  ! {told(caution)}")
    print(f"  Source: {computation.source}")


def _print_value(name: str, answer: Answer) -> None:
    """The first line, or a line for each row; nothing if the working tells it line by line."""
    value = answer.value
    if answer.headline:
        print(answer.headline)
    elif _listed(value):
        print("\n".join(work_words.row(name, one) for one in value))
    elif not (answer.working and isinstance(value, Mapping) and _told_below(name, value)):
        print(work_words.headline(name, value))


def _told_below(name: str, value: Mapping[str, Result]) -> bool:
    return name in work_words.IN_THE_WORKING or any(map(_listed, value.values()))


def _input_json(value: Given) -> object:
    if isinstance(value, Quantity):
        return to_json(value)
    return value if isinstance(value, str | int | float) else value.sheet


def _listed(value: object) -> TypeGuard[Sequence[Result]]:
    return isinstance(value, Sequence) and not isinstance(value, str)


def _sheet(name: str) -> "Sheet":
    from guide.files.library import NotFound, find
    from guide.procedure.sheet_cache import sheet_of

    try:
        return sheet_of(find("sheet", name))
    except NotFound as error:
        raise BadInput(str(error)) from error
    except Exception as error:
        from guide.files.findings import BadFile

        if not isinstance(error, BadFile):
            raise
        raise BadInput(str(error)) from error
