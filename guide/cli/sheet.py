"""`hingeside sheet new|edit NAME [-o FILE] [--units inch|metric]`"""

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guide.cli.lines import TypedLines
from guide.cli.messages import Usage, say
from guide.errors import DONE, FOUND
from guide.files.library import folders
from guide.files.writing import write_beside
from guide.plain.render import wrapped
from guide.text import either
from guide.trade.mounts import MOUNT_WORDS
from guide.trade.sheet.kinds import UnreadableError
from guide.trade.sheet.parts import SheetMount
from guide.trade.sheet.sheet import UNIT_SYSTEMS, Sheet
from guide.trade.sheet_check.skipped import skipped_checks

if TYPE_CHECKING:
    from guide.plain.sheet_dialogue import SheetDialogue
    from guide.plain.sheet_paper import Answers

HANDS = ("LH", "RH")

EXAMPLES = """\
  hingeside sheet new back-door-4000                    copy a sheet from its paper
  hingeside sheet new back-door-4000 --units metric     a paper in millimeters
  hingeside sheet edit my-closer                        go through a sheet again
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "action",
        choices=("new", "edit"),
        metavar="new|edit",
        help="copy a sheet, or go through the answers of one that is there",
    )
    parser.add_argument("name", metavar="NAME", help="the sheet's name, such as back-door-4000")
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="the file; if left out, among your own sheets"
    )
    parser.add_argument("--units", choices=UNIT_SYSTEMS, help="the units of the paper")


def run(options: argparse.Namespace) -> int:
    """Ask for the sheet, check it, and write it; a sheet that is not whole stays a draft."""
    from guide.plain.sheet_dialogue import INTRODUCTION, Ended, SheetDialogue
    from guide.plain.sheet_draft import Draft
    from guide.trade.sheet_check.check import check_sheet

    output = _output(options.name, options.output)
    draft = Draft.of(output.with_name(f"{output.name}.draft"))
    if options.action == "edit" and not draft.answers:
        draft.offer(_present(output))
    elif draft.answers:
        print(f"Taken up from {draft.path}: answers so far: {len(draft.answers)}.")
    for line in wrapped(INTRODUCTION):
        print(line)
    for line in wrapped(_what_is_there(options, output)):
        print(line)
    draft.answers[("sheet",)] = options.name
    if options.units is not None:
        draft.answers[("units",)] = options.units
    with TypedLines("  > ") as lines:
        dialogue = SheetDialogue(draft, lines.read, print, check_sheet)
        try:
            data, findings = dialogue.whole()
            target = output if options.action == "edit" else _free(output, dialogue)
        except Ended:
            draft.keep()
            say(_paused(options, draft.path, len(draft.answers)))
            return DONE
    _write(target, data)
    draft.path.unlink(missing_ok=True)
    for line in _written(target, Sheet.from_json(data)):
        print(line)
    for one in findings:
        for line in wrapped(f"Left as it is: {one.message}"):
            print(line)
    wrong = sum(not one.advice for one in findings)
    if wrong:
        say(f"{wrong} of these cannot be right: hingeside check {target}")
    return FOUND if wrong else DONE


def _present(output: Path) -> "Answers":
    """The answers of the sheet in that file. Raises Usage if there is none, and what reading it raises."""
    from guide.plain.sheet_paper import answers_of
    from guide.procedure.sheet_file import read_sheet

    if not output.exists():
        raise Usage(f"{output} is not there; copy it first: hingeside sheet new {output.stem}")
    return answers_of(read_sheet(output)[1].to_json())


def _what_is_there(options: argparse.Namespace, output: Path) -> str:
    if options.action == "edit":
        return (
            "Each question offers the present answer: Enter leaves it, “list all” shows them with their"
            " numbers, “change 12” goes to one, “keep” leaves the rest."
        )
    if output.exists():
        return f"{output} is there already. To correct it, stop here and type: {_again(options, 'edit')}"
    return ""


def _output(name: str, output: str | None) -> Path:
    """The file to write. Raises Usage for a name that no sheet can have."""
    from guide.plain.sheet_paper import NAME

    try:
        NAME.read("NAME", name)
    except UnreadableError as error:
        raise Usage(str(error)) from error
    if output is not None and Path(output).is_dir():
        raise Usage(f"{output} is a folder; give -o the file to write, such as {name}.yaml.")
    if output is not None:
        return _yaml(output)
    return folders("sheet")[0] / f"{name}.yaml"


def _yaml(path: str) -> Path:
    """The path with the ending by which a file is found as a sheet."""
    return Path(path) if path.endswith((".yaml", ".yml")) else Path(f"{path}.yaml")


def _free(output: Path, dialogue: "SheetDialogue") -> Path:
    """The file to write, after the person said what is to become of one that is there. Raises Ended."""
    while output.exists():
        print()
        print(f"{output} is there already. Write over it (yes), or type the path of another file:")
        typed = dialogue.line()
        if typed.casefold() in ("yes", "y"):
            return output
        if typed and typed.casefold() not in ("no", "n"):
            output = _yaml(typed)
    return output


def _write(target: Path, data: dict[str, Any]) -> None:
    from guide.procedure.sheet_file import written_sheet

    target.parent.mkdir(parents=True, exist_ok=True)
    write_beside(target, written_sheet(data).encode())


def _paused(options: argparse.Namespace, draft: Path, answers: int) -> str:
    kept = "1 answer is" if answers == 1 else f"{answers} answers are"
    again = _again(options, options.action)
    return f"Paused: {kept} kept in {draft}. To continue: {again}"


def _again(options: argparse.Namespace, action: str) -> str:
    output = "" if options.output is None else f" -o {options.output}"
    return f"hingeside sheet {action} {options.name}{output}"


def _measured_from(mount: SheetMount) -> str:
    """What two choices make of every number of a mount, to be read back."""
    return (
        f"{MOUNT_WORDS[mount.mount].capitalize()}: by your answers along is from the {mount.along_from}, heights"
        f" are from the {mount.datum}, and the valves point to the {mount.valves_toward}."
    )


def _ways(sheet: Sheet, mount: str) -> Iterator[tuple[str, str, str]]:
    """How the body goes on: what the template is given, the end of its file's name, and words for the fitter."""
    plates = [one for one in sheet.accessories_for(mount) if one.kind == "drop-plate"]
    if not plates:
        yield "", "", ""
        return
    plate = plates[0]
    limits = []
    if plate.needed_below is not None:
        limits.append(f"a top rail lower than {plate.needed_below} (or give top_rail=)")
    if plate.needed_with_glass:
        limits.append("glass behind the body")
    on_it = either(limits) or plate.when.rstrip(".")
    yield " room=fits", "", f"  The body straight on, without the {plate.name}:"
    if plate.copied:
        yield " room=plate", "-plate", f"  On the {plate.name} ({on_it}):"


def _written(target: Path, sheet: Sheet) -> Iterator[str]:
    """Where the sheet is, and how to lay it on the paper at full size."""
    yield ""
    yield f"Written: {target}"
    yield from wrapped(
        "Now compare it with the paper: read every number back aloud, and print each mount at full size"
        " (100 percent) and lay it on the paper's own template. The holes must meet."
    )
    for one in skipped_checks(sheet):
        yield from wrapped(f"Not checked: {one}")
    for mount in sheet.mounts:
        yield from wrapped(_measured_from(mount))
    if sheet.body is None or sheet.shoe is None:
        yield "The paper gave no holes, so nothing can be printed."
        return
    own = target.parent == folders("sheet")[0]
    named = target.stem if own else f'"{target}"'
    for mount in sheet.mounts:
        yield f"{MOUNT_WORDS[mount.mount].capitalize()}:"
        for room, mark, words in _ways(sheet, mount.mount):
            yield from wrapped(words) if words else ()
            for hand in HANDS:
                yield (
                    f"  hingeside template sheet={named} mount={mount.mount} hand={hand} hinge=butt"
                    f' range="{mount.ranges[0].up_to}"{room}'
                    f" -o {sheet.sheet}-{mount.mount}{mark}-{hand}.pdf"
                )
        if len(mount.ranges) > 1:
            others = ", ".join(f'range="{one.up_to}"' for one in mount.ranges[1:])
            yield f"  and the other rows: {others}"
