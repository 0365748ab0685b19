"""Findings as a SARIF log, for editors and continuous integration.

Static Analysis Results Interchange Format, OASIS Standard, version 2.1.0.
"""

from collections.abc import Iterable, Sequence
from pathlib import PurePath
from typing import Any
from urllib.parse import quote

from guide.procedure.checker.manual import FindingPage, all_codes, page_of, printed
from guide.procedure.findings import ADVICE, ERROR, WARNING, Finding

SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"
LEVELS = {ERROR: "error", WARNING: "warning", ADVICE: "note"}
"""Our levels as SARIF names them."""


def sarif_log(
    findings: Sequence[Finding], version: str, accepted: Iterable[tuple[Finding, str]] = ()
) -> dict[str, Any]:
    """One log with one run: every rule, and a result a finding.

    `accepted` are findings that a file accepts, each with its reason; they are marked as suppressed.
    """
    index = {code: number for number, code in enumerate(all_codes())}
    results = [_result(finding, index) for finding in findings]
    for finding, reason in accepted:
        suppressed = {"kind": "inSource", "justification": reason}
        results.append({**_result(finding, index), "suppressions": [suppressed]})
    driver = {
        "name": "hingeside",
        "semanticVersion": version,
        "rules": [_rule(page_of(code)) for code in all_codes()],
    }
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": results}
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def _rule(page: FindingPage) -> dict[str, Any]:
    return {
        "id": page.code,
        "shortDescription": {"text": page.title},
        "fullDescription": {"text": page.about},
        "help": {"text": printed(page)},
        "defaultConfiguration": {"level": LEVELS[page.level]},
    }


def _result(finding: Finding, index: dict[str, int]) -> dict[str, Any]:
    text = finding.message
    if finding.example:
        text += f" For example: {finding.example}"
    return {
        "ruleId": finding.code,
        "ruleIndex": index[finding.code],
        "level": LEVELS[finding.level],
        "message": {"text": text},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": _uri(finding.file)},
                    "region": {"startLine": finding.line, "startColumn": finding.column},
                }
            }
        ],
    }


def _uri(file: str) -> str:
    path = PurePath(file)
    return path.as_uri() if path.is_absolute() else quote(path.as_posix())
