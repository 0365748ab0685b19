"""The snippets of the manual's pages, as files that can be checked."""

import re

MARK = "# here"
"""Ends the line of a failing snippet that the finding must name."""
HEAD = "procedure: example\ntitle: An example\n"
"""Comes before a snippet that is a part of a procedure."""
ROOT = "example.yaml"
_OTHER = re.compile(r"^# --- (\S+\.yaml)\n", re.MULTILINE)


def files_of(snippet: str) -> dict[str, str]:
    """The files in a snippet, by name; `# --- name.yaml` begins another than the first."""
    first, *others = _OTHER.split(snippet)
    files = {ROOT: _whole(first)}
    for name, text in zip(others[::2], others[1::2], strict=True):
        files[name] = _whole(text)
    return files


def _whole(text: str) -> str:
    part = re.match(r"(facts|facts_in|hazards|counts_on|accepted|steps):", text) is not None
    return HEAD + text if part and "\nsteps:" in "\n" + text else text
