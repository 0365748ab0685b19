"""`hingeside template JOB|key=value... -o FILE.pdf`"""

import argparse
from dataclasses import replace
from functools import partial
from pathlib import Path

from guide.cli.messages import Usage, say
from guide.errors import DONE
from guide.files.findings import BadFile
from guide.files.library import NotFound, find
from guide.files.writing import write_beside
from guide.papers.template.template import INVENTED, pages, template_pdf
from guide.papers.template.template_inputs import TEMPLATE, inputs_of_run, read_template
from guide.procedure.sheet_cache import sheet_of
from guide.run.store import find_run, fitting, read_run
from guide.trade.answer import BadInput
from guide.trade.computation import Given
from guide.trade.reading import read_inputs
from guide.trade.sheet.sheet import Sheet

_NEEDED_TOGETHER = "sheet=, mount=, hinge=, range= and hand= or knuckles="

EXAMPLES = """\
  hingeside template JOB -o holes.pdf
  hingeside template sheet=generic-a mount=regular hand=LH hinge=butt range='100 deg' room=fits -o holes.pdf
  hingeside template sheet=generic-a mount=regular hand=LH hinge=butt range='100 deg' room=fits paper=a4 -o holes.pdf
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "inputs",
        nargs="*",
        metavar="JOB|key=value",
        help="the name of a job, or sheet= mount= hand= hinge= range= [paper=letter|a4] [units=] [special=]",
    )
    parser.add_argument("-o", "--output", metavar="FILE.pdf", help="the file to write")


def run(options: argparse.Namespace) -> int:
    """Write the template."""
    if options.output is None:
        raise Usage("Say where the template goes: -o FILE.pdf.")
    made_of, paper = read_template(_inputs(options.inputs))
    across, down = pages(made_of, paper)
    write_beside(Path(options.output), template_pdf(made_of, paper))
    say(
        f"{options.output}: {across * down} pages, {across} across and {down} down. Print at 100 percent."
    )
    if made_of.invented:
        say(INVENTED)
    return DONE


def _inputs(words: list[str]) -> dict[str, Given]:
    """The inputs from the run, with those that are typed in their place or beside them."""
    names = [word for word in words if "=" not in word]
    if len(names) > 1 or not words:
        raise Usage(f"Name one run, or give {_NEEDED_TOGETHER}.")
    found: dict[str, Given] = {}
    for name in names:
        path = find_run(name)
        state, _ = read_run(path)
        found = fitting(path, partial(inputs_of_run, state))
    texts: dict[str, str] = {}
    for word in words:
        key, equals, value = word.partition("=")
        if equals and key in texts:
            raise Usage(f"“{key}” is given twice; give it once.")
        if equals:
            texts[key] = value
    return found | _read(texts, known=found)


def _read(texts: dict[str, str], known: dict[str, Given]) -> dict[str, Given]:
    """Typed inputs, read; those a run supplies need not be among them."""
    typed = [one for one in TEMPLATE.inputs if one.name in texts or one.name not in known]
    wanted = replace(TEMPLATE, inputs=tuple(typed))
    return read_inputs(wanted, texts, open_sheet=_sheet)


def _sheet(name: str) -> Sheet:
    try:
        return sheet_of(find("sheet", name))
    except (NotFound, BadFile) as error:
        raise BadInput(str(error)) from error
