"""`hingeside check FILE...`, and `hingeside check --explain [CODE]`: the manual of findings."""

import argparse
import json
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from guide.errors import DONE, FOUND, UNKNOWN
from guide.files.stored_form import VERSION

if TYPE_CHECKING:
    from pathlib import Path

    from guide.checker.check import Report
    from guide.files.findings import Finding

FORMATS = ("text", "json", "sarif")

EXAMPLES = """\
  hingeside check my-procedure.yaml                     what is wrong, and what to do
  hingeside check my-procedure.yaml --format sarif      for an editor or an automatic check
  hingeside check --explain                             every finding, in a line
  hingeside check --explain cut-without-hold            one finding, with an example
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "files", nargs="*", metavar="FILE", help="the name of a procedure, or a path"
    )
    parser.add_argument(
        "--json",
        action="store_const",
        const="json",
        dest="format",
        help="one JSON object a file; the same as --format json",
    )
    parser.add_argument(
        "--format",
        choices=FORMATS,
        default="text",
        help="sarif: one log for an editor or an automatic check",
    )
    parser.add_argument("--all", action="store_true", help="show accepted findings too")
    parser.add_argument(
        "--accept-edition",
        action="store_true",
        help="note each file's edition as checked in, in editions.json beside it",
    )
    parser.add_argument(
        "--explain",
        nargs="?",
        const="",
        metavar="CODE",
        help="the manual page of a finding; without a code, a list of all",
    )


def run(options: argparse.Namespace) -> int:
    """Check each file; the worst outcome is the status."""
    from guide.cli.messages import Usage, say

    if options.explain is not None:
        return explain(options.explain, as_json=options.format == "json")

    from guide.checker.check import check
    from guide.cli.progress import Progress
    from guide.files.library import NotFound
    from guide.run.replay import replay

    if not options.files:
        raise Usage("Name a file to check, as in “hingeside check my-procedure.yaml”.")
    worst = DONE
    reports: list[Report] = []
    told: set[Finding] = set()
    with Progress("checking file") as progress:
        for number, name in enumerate(options.files, 1):
            progress.count(number, len(options.files))
            try:
                path = _found(name)
            except NotFound as error:
                progress.clear()
                say(f"hingeside: {error}")
                worst = max(worst, UNKNOWN)
                continue
            if options.accept_edition:
                from guide.cli.accept_edition import accept_edition

                progress.clear()
                worst = max(worst, accept_edition(name, path))
                continue
            report = check(path, replay=replay)
            progress.clear()
            if not report.clean:
                worst = max(worst, FOUND)
            if options.format == "sarif":
                reports.append(report)
            else:
                show = _json if options.format == "json" else _text
                print(show(name, report, everything=options.all, told=told))
    if options.format == "sarif" and (reports or worst == DONE):
        print(_sarif(reports, everything=options.all))
    return worst


def _found(name: str) -> "Path":
    """A procedure of that name, or else a sheet or a scenario."""
    from guide.files.library import NotFound, find

    for kind in ("procedure", "sheet"):
        try:
            return find(kind, name)
        except NotFound:
            continue
    try:
        return find("scenario", name)
    except NotFound:
        return find("procedure", name)


def _json(name: str, report: "Report", *, everything: bool, told: "set[Finding]") -> str:
    from guide.text import printable

    data: dict[str, Any] = {
        "file": printable(name),
        "findings": [finding.to_json() for finding in report.findings],
        "nodes": _blocks(report),
        "proved": report.proved,
    }
    if everything:
        data["accepted"] = [{**f.to_json(), "because": why} for f, why in report.accepted]
    return json.dumps(data, ensure_ascii=False)


def _text(name: str, report: "Report", *, everything: bool, told: "set[Finding]") -> str:
    """The findings and a last line; what was `told` of a shared file already is counted only."""
    from guide.checker.manual import page_of
    from guide.files.findings import written
    from guide.text import printable

    texts = {source.shown: source.text for source in report.loaded.sources.values()}
    lines = [
        written(finding, texts.get(finding.file), page_of(finding.code).do)
        for finding in report.findings
        if finding not in told
    ]
    told.update(report.findings)
    if everything:
        lines += [
            f"{written(f, texts.get(f.file))}\n    accepted: {why}" for f, why in report.accepted
        ]
    verdict = _counted(len(report.findings), "finding") if report.findings else "nothing found"
    if report.accepted:
        verdict += f", {len(report.accepted)} accepted"
    if report.kind != "procedure":
        what = report.kind
    elif report.graph is None:
        what = (
            _counted(len(report.loaded.facts), "fact") if report.loaded.facts_only else "not read"
        )
    else:
        what = _counted(_blocks(report), "block")
        rests = any(f.code == "number-unbounded" for f in report.findings)
        why = ": depends on a computed number" if rests else ""
        verdict += ", proved" if report.proved else f", not proved{why}"
    lines.append(f"{printable(name)}: {what}, {verdict}.")
    return "\n".join(lines)


def _sarif(reports: "list[Report]", *, everything: bool) -> str:
    from guide.checker.check import sarif_log

    findings = list(dict.fromkeys(f for report in reports for f in report.findings))
    accepted = list(dict.fromkeys(one for report in reports for one in report.accepted))
    log = sarif_log(findings, VERSION, accepted if everything else ())
    return json.dumps(log, ensure_ascii=False, indent=1)


def _blocks(report: "Report") -> int:
    return len(report.graph.nodes) if report.graph is not None else 0


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def explain(code: str, *, as_json: bool) -> int:
    """Print a finding's page, or with no code one line for each; an unknown code is status 2."""
    from guide.checker.manual import all_codes, page_of, printed
    from guide.cli.messages import say
    from guide.text import meant, printable, short

    if code and code not in all_codes():
        hint = meant(code, all_codes(), "“hingeside check --explain” lists them all.")
        say(f"hingeside: There is no finding “{printable(short(code))}”; {hint}")
        return UNKNOWN
    pages = [page_of(one) for one in ([code] if code else all_codes())]
    if as_json:
        for page in pages:
            print(json.dumps(asdict(page), ensure_ascii=False))
    elif code:
        print(printed(pages[0]))
    else:
        for page in pages:
            print(f"{page.code:<20} {page.level:<8} {page.title}")
    return DONE
