"""`hingeside chart FILE`"""

import argparse
import json

from guide.errors import DONE

FORMATS = ("mermaid", "dot", "svg")

EXAMPLES = """\
  hingeside chart fit-surface-closer                    Mermaid, for an editor
  hingeside chart my-procedure.yaml --format svg        a picture, to be sent into a file
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument("file", metavar="FILE", help="the name of a procedure, or a path")
    parser.add_argument(
        "--format", choices=FORMATS, default=FORMATS[0], help="the language of the chart"
    )
    parser.add_argument("--json", action="store_true", help="the chart as text in one JSON object")


def run(options: argparse.Namespace) -> int:
    """Print the procedure's chart. Raises BadFile if the file cannot be compiled."""
    from guide.chart import WRITERS, picture_of
    from guide.files.findings import ERROR, BadFile, Finding
    from guide.files.library import find
    from guide.procedure.compiler import compile_procedure
    from guide.procedure.load import load
    from guide.text import printable

    loaded = load(find("procedure", options.file))
    graph, findings = compile_procedure(loaded)
    errors = [finding for finding in findings if finding.level == ERROR]
    if loaded.facts_only and not errors:
        message = "A file of facts has no steps to chart; name a procedure."
        errors = [Finding(loaded.root.shown, 1, 1, "file-wrong", ERROR, message)]
    if graph is None or errors:
        raise BadFile(errors or findings)
    text = WRITERS[options.format](picture_of(graph))
    if options.json:
        data = {"file": printable(options.file), "format": options.format, "chart": text}
        print(json.dumps(data, ensure_ascii=False))
    else:
        print(text, end="")
    return DONE
