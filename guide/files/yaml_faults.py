"""Faults of YAML as people make them: what is wrong in a line, what to write instead, and how to read on after it.

YAML's own message names a token. Here the line is looked at: most faults are a text that needs quotes, or a line
that begins in the wrong column. Such a line is repaired in memory, so that the rest of the file can be checked too;
the fault itself is reported either way, and nothing is written.
"""

import re
from dataclasses import dataclass

import yaml

from guide.files.findings import Mark
from guide.text import short

PROSE = frozenset(
    (
        *(
            "text",
            "say",
            "why",
            "watch",
            "looks_right",
            "photo",
            "ask",
            "find_out",
            "title",
            "about",
        ),
        *("label", "because", "note", "says", "danger", "warning", "caution", "notice"),
    )
)
"""Keys whose values are sentences; one word of them before a comment is a sentence cut short."""

_COMMENT = re.compile(r"[ \t]+#")
_MEASURE = r"-?\d[\d./ ]*(?: ?[A-Za-z%°]+)?"
_ALONE = re.compile(rf"\S*|(?:[<>=]=? ?)?{_MEASURE}(?: to {_MEASURE})?")
"""One word, one measure or one range: complete as it is, so that what follows may be a comment."""


def cut_by_comment(text: str, end: int, value: str, key: str) -> bool:
    """Whether an unquoted value, which ends at `end` in the text, loses the rest of its line to a comment."""
    found = _COMMENT.match(text, end)
    if found is None:
        return False
    number = text[found.end() : found.end() + 1].isdigit()
    return number or key in PROSE or _ALONE.fullmatch(value) is None


def cut_message(value: str) -> str:
    """What is said of a text that a comment cuts."""
    return (
        f"“{short(value)}” ends here, because “ #” begins a comment; "
        "put quotes around the whole text, or move the comment to a line of its own."
    )


def parted_message(before: str, after: str) -> str:
    """What is said of a text within braces that a comma parts."""
    return (
        f"A comma ends a text inside {{…}}, so “{short(after)}” is cut off from “{short(before)}”; "
        "put quotes around the whole text."
    )


def braced_message(name: str) -> str:
    """What is said of a text that is nothing but a fact in braces."""
    return (
        f"“{{{short(name)}}}” begins with a brace, which YAML reads as a mapping; "
        f'write it in quotes: "{{{short(name)}}}".'
    )


@dataclass(frozen=True, slots=True)
class SyntaxFault:
    """One place where a text stops being YAML."""

    mark: Mark
    message: str
    repaired: str | None
    """The text with that line repaired; None if nothing is known that would help."""


def syntax_fault(text: str, error: yaml.MarkedYAMLError) -> SyntaxFault:
    """What is wrong where the parser stopped."""
    place = error.problem_mark or error.context_mark
    mark = (1, 1) if place is None else (place.line + 1, place.column + 1)
    lines = text.split("\n")
    begun = error.context_mark.line + 1 if error.context_mark else mark[0]
    for number in dict.fromkeys((mark[0], begun, mark[0] - 1)):
        line = lines[number - 1].rstrip("\r") if 0 < number <= len(lines) else ""
        found = _in_line(line) if line.strip() else None
        if found is not None:
            message, instead = found
            column = mark[1] if number == mark[0] else len(line) - len(line.lstrip()) + 1
            return SyntaxFault((number, column), message, _with_line(lines, number, instead))
    moved = _indentation(lines, mark[0], error.problem or "")
    if moved is not None:
        message, instead = moved
        return SyntaxFault(mark, message, _with_line(lines, mark[0], instead))
    opened = _unclosed(lines[begun - 1]) if begun <= len(lines) else ""
    if opened:
        where = "this line" if begun == mark[0] else f"line {begun}"
        message = f"“{opened}” on {where} is not closed; close it, or put the whole text in quotes."
        return SyntaxFault(mark, message, None)
    problem = error.problem or "something is out of place"
    where = f"from line {begun} on" if 1 < begun < mark[0] else "here"
    message = f"This is not YAML ({problem}); look at the indentation, quotes and colons {where}."
    return SyntaxFault(mark, message, None)


def _with_line(lines: list[str], number: int, instead: str | None) -> str | None:
    if instead is None:
        return None
    return "\n".join([*lines[: number - 1], instead, *lines[number:]])


# --- one line ---

_BLOCK = re.compile(r"(?P<head>\s*(?:- )*(?:[\w-]+:\s+)?)(?P<value>\S.*?)\s*")
_BLOCK_KEY = re.compile(r"\s*(- )?[\w-]+:( |$)")
_FLOW = re.compile(r"(?P<head>\s*(?:- )*(?:[\w-]+:\s+)?\{)(?P<inside>.*)(?P<tail>\}(?:\s+#.*|\s*))")
_ENTRY = re.compile(r"(?P<lead>^\s*|,\s*)(?P<key>[\w-]+):\s+")


def _in_line(line: str) -> tuple[str, str | None] | None:
    """What is wrong in a line by itself, and the line repaired; None if nothing is."""
    if "\t" in line[: len(line) - len(line.lstrip())]:
        message = "A tab stands before the text of this line; indent with spaces."
        return message, None
    flow = _FLOW.fullmatch(line)
    if flow is not None and _ENTRY.match(flow["inside"]):
        return _in_flow(flow)
    block = _BLOCK.fullmatch(line)
    if block is None:
        return None
    key = block["head"].strip(" -").removesuffix(":")
    wrong = _needs_quotes(block["value"], alone=bool(key)) if key else ""
    if not wrong:
        return None
    return f"{wrong}; write {key}: {_quoted(block['value'])}", block["head"] + _single(
        block["value"]
    )


def _in_flow(flow: re.Match[str]) -> tuple[str, str] | None:
    """The same for a line that is one mapping in braces: its first value that needs quotes."""
    inside = flow["inside"]
    starts = list(_ENTRY.finditer(inside))
    message = ""
    pieces = []
    for number, entry in enumerate(starts):
        end = starts[number + 1].start() if number + 1 < len(starts) else len(inside)
        value = inside[entry.end() : end]
        wrong = _needs_quotes(value.strip(), alone=True)
        if wrong:
            message = message or f"{wrong}; write {entry['key']}: {_quoted(value.strip())}"
            value = _single(value.strip())
        pieces.append(f"{entry['lead']}{entry['key']}: {value}")
    return (message, flow["head"] + "".join(pieces) + flow["tail"]) if message else None


_CURLY = "“”„‟‘’‚‛«»"
_WHOLE = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'|\[.*\]|\{.*\}")
_INDICATORS = "[{&*!|>'\"%@`?-"
_CLOSED_BY = {"[": "]", "{": "}", '"': '"', "'": "'"}


def _unclosed(line: str) -> str:
    """The bracket or quotation mark that opens in a line and does not close there; empty if there is none."""
    for sign, closing in _CLOSED_BY.items():
        place = line.find(sign)
        if place >= 0 and closing not in line[place + 1 :]:
            return sign
    return ""


def _needs_quotes(value: str, *, alone: bool) -> str:
    """Why a value cannot stand as it is; empty if it can. `alone` is whether it is a value rather than a line."""
    structure = re.sub(r"\s+#.*", "", value) if value[:1] in ("{", "[", '"', "'") else value
    if not value or _WHOLE.fullmatch(structure) or re.fullmatch(r"[|>][-+0-9]*", value):
        return ""
    if value[0] in _CLOSED_BY and _CLOSED_BY[value[0]] not in value[1:]:
        return ""  # it goes on in the next line, or is never closed
    if value[0] in _CURLY and (": " in value or " #" in value):
        return "Curly quotes are letters to YAML; straight ones hold a text together"
    if value[0] in "|>&*!?-" and not re.match(r"[|>&*!?-]+ ?=? *\S", value):
        return ""
    if value[0] == "-" and not value.startswith("- "):
        return _colon(value)
    if value[0] in _INDICATORS and alone:
        return f"A text that begins with {_named(value)} must stand in quotes"
    return _colon(value)


def _named(value: str) -> str:
    """The beginning of a text that YAML takes for something else."""
    if value[0] == "{":
        return f"“{short(value.partition('}')[0] + '}')}”" if "}" in value else "“{”"
    return "a quotation mark and goes on behind the next" if value[0] in "\"'" else f"“{value[0]}”"


def _colon(value: str) -> str:
    if ": " in value or value.endswith(":"):
        return "A text that holds a colon and a space must stand in quotes"
    if " #" in value:
        return "“ #” begins a comment, and a text that holds it must stand in quotes"
    return ""


def _quoted(value: str) -> str:
    bare = value.strip(_CURLY + "\"'")
    return f'"{short(bare)}".' if '"' not in bare else f"'{short(bare)}'."


def _single(value: str) -> str:
    bare = value.strip(_CURLY) if value[0] in _CURLY else value
    return "'" + bare.replace("'", "''") + "'"


# --- columns ---


def _indentation(lines: list[str], number: int, problem: str) -> tuple[str, str] | None:
    """What is wrong with the column in which a line begins, and the line moved; None if that is not it."""
    line = lines[number - 1] if number <= len(lines) else ""
    own = _column(line)
    if not line.strip() or ("'-'" not in problem and not _BLOCK_KEY.match(line)):
        return None
    above = next((one for one in reversed(lines[: number - 1]) if one.strip()), "")
    open_columns = _open_columns(lines[: number - 1])
    deeper = own > _column(above) and not above.rstrip().endswith(":")
    if not deeper and own in open_columns and "'-'" not in problem:
        return None
    if deeper:
        wanted = _key_column(above)
        reason = f"the line before it has its value already, and begins in column {wanted + 1}"
    else:
        dash = line.lstrip().startswith("- ")
        fitting = [c for c, is_dash in open_columns.items() if is_dash == dash]
        if not fitting:
            return None
        wanted = min(fitting, key=lambda column: (abs(column - own), -column))
        reason = f"nothing above begins there; what it belongs to begins in column {wanted + 1}"
    if wanted == own:
        return None
    message = (
        f"This line begins in column {own + 1}, and {reason}; "
        f"begin it in column {wanted + 1}, or wherever it belongs."
    )
    return message, " " * wanted + line.lstrip()


def _column(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _key_column(line: str) -> int:
    """Where the last key of a line begins: behind its dashes."""
    found = re.match(r" *(?:- )*", line)
    return found.end() if found else 0


def _open_columns(above: list[str]) -> dict[int, bool]:
    """The columns in which a line may begin after these, and whether it begins with a dash there."""
    found: dict[int, bool] = {}
    least = 10_000
    for line in reversed(above):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        dashes = [match.start() for match in re.finditer(r"(?<![^ ])- ", line[: _key_column(line)])]
        for column, dash in ((_key_column(line), False), *((c, True) for c in reversed(dashes))):
            if column < least:
                found[column] = dash
                least = column
    return found
