"""`hingeside check FILE...`"""

import argparse
import json

from guide.cli.main import DONE, FOUND, UNKNOWN
from guide.procedure.characters import printable
from guide.procedure.checker import check
from guide.procedure.findings import written
from guide.procedure.library import NotFound, find
from guide.run.replay import replay


def arguments(parser: argparse.ArgumentParser) -> None:
    """The verb's words."""
    parser.add_argument(
        "files", nargs="+", metavar="FILE", help="a path, or the name of a procedure"
    )
    parser.add_argument("--json", action="store_true", help="one JSON object a file")


def run(options: argparse.Namespace) -> int:
    """Check each file; the worst outcome is the status."""
    from guide.cli.errors import say

    worst = DONE
    for name in options.files:
        try:
            path = find("procedure", name)
        except NotFound as error:
            say(f"hingeside: {error}")
            worst = max(worst, UNKNOWN)
            continue
        report = check(path, replay=replay)
        nodes = len(report.graph.nodes) if report.graph is not None else 0
        if not report.clean:
            worst = max(worst, FOUND)
        if options.json:
            data = {
                "file": printable(name),
                "findings": [finding.to_json() for finding in report.findings],
                "nodes": nodes,
                "proved": report.proved,
            }
            print(json.dumps(data, ensure_ascii=False))
            continue
        texts = {source.shown: source.text for source in report.loaded.sources.values()}
        for finding in report.findings:
            print(written(finding, texts.get(finding.file)))
        count = len(report.findings)
        verdict = "nothing found" if not count else f"{count} finding{'s' if count > 1 else ''}"
        print(f"{printable(name)}: {nodes} blocks, {verdict}.")
    return worst
