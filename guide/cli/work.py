"""`hingeside work NAME key=value...`"""

import argparse
import json

from guide.cli.errors import Usage
from guide.cli.main import DONE, FOUND
from guide.measures import Quantity, to_json
from guide.procedure.library import find
from guide.trade import registry
from guide.trade.answer import BadInput, NoAnswer, OutOfDomain, result_json
from guide.trade.sheet import Sheet


def arguments(parser: argparse.ArgumentParser) -> None:
    """The verb's words."""
    parser.add_argument("name", nargs="?", metavar="NAME", help="what to compute; none lists them")
    parser.add_argument("inputs", nargs="*", metavar="key=value")
    parser.add_argument("--json", action="store_true", help="one JSON object")


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
            raise Usage(f"“{pair[:40]}” is no input; write key=value.")
        if key in texts:
            raise Usage(f"“{key}” is given twice; give it once.")
        texts[key] = value
    values = registry.read_inputs(computation, texts, open_sheet=_sheet)
    try:
        answer = registry.run(computation.name, values)
    except (NoAnswer, OutOfDomain) as error:
        from guide.cli.errors import say

        say(f"hingeside: {error}")
        return FOUND
    if options.json:
        data = {
            "name": computation.name,
            "inputs": {
                name: to_json(v)
                if isinstance(v, Quantity)
                else v.name
                if isinstance(v, Sheet)
                else v
                for name, v in values.items()
            },
            "value": result_json(answer.value),
            "working": list(answer.working),
            "source": computation.source,
            "cautions": list(answer.cautions),
        }
        print(json.dumps(data, ensure_ascii=False))
        return DONE
    value = result_json(answer.value)
    if isinstance(value, dict):
        shown = ", ".join(f"{k} {v if v is not None else '(not known)'}" for k, v in value.items())
    else:
        shown = str(answer.value)
    if isinstance(answer.value, bool):
        shown = "yes" if answer.value else "no"
    print(shown)
    for line in answer.working:
        print(f"  {line}")
    for caution in answer.cautions:
        print(f"  ! {caution}")
    print(f"  Source: {computation.source}")
    return DONE


def _sheet(name: str) -> Sheet:
    from guide.procedure.findings import BadFile
    from guide.procedure.library import NotFound
    from guide.procedure.sheet_file import load_sheet

    try:
        return load_sheet(find("sheet", name))
    except (NotFound, BadFile) as error:
        raise BadInput(str(error)) from error
