"""Every text a person reads is in plain standard English: the words below are not used, and short lines are short."""

import argparse
import importlib
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
import yaml

from guide.checker.manual import all_codes, page_of
from guide.cli.main import VERBS

TOP = Path(__file__).resolve().parents[1]
DOCUMENTS = (
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "procedures/WRITING.md",
    "procedures/sheets/COPYING.md",
)
MOST_WORDS = 20
"""In a sentence of a finding's title, of its `Do:` line and of a help line."""


class Banned(NamedTuple):
    """An expression that is not used; a space in its pattern also matches the end of a line."""

    pattern: str
    better: str
    reason: str
    within: str = ""
    """The places whose path matches this; all if empty."""


BANNED = (
    Banned(
        r"\b(?:held|holds?|holding)(?: [\w’'`]+){0,4} against",
        "checked against, compared with",
        "“hold” is what hands, screws and latches do",
    ),
    Banned(r"\breckon\w*", "calculate", "dialect"),
    Banned(
        r"\bmend(?:s|ed|ing)?\b",
        "fix, correct",
        "a hinge is mended, a file is not",
        r"guide/(?!trade|papers|practice)|\.md$",
    ),
    Banned(r"\bwhoever\b", "the person who, anyone who", "hard to read at speed"),
    Banned(
        r"(?<!here\s)\b(?:is|are) no\b(?! (?:longer|more|less|lighter|heavier)\b)(?= [\w“{])",
        "is not a",
        "the negation belongs to the verb",
    ),
    Banned(
        r"(?<!here\s)\b(?:is|are) (?-i:none)\b", "is not one", "the negation belongs to the verb"
    ),
    Banned(r"\bput (?:the job )?by\b(?! (?:a|the|hand)\b)", "paused", "dialect"),
    Banned(r"\blets? go on smoke", "releases on smoke", "the standards' word is release"),
    Banned(
        r"\bbehind (?:“|`|its `|a hold|a cut|blanks)"
        r"|\b(?:words|rule|swings|definitions|more said|more words) behind\b",
        "after; that the … came from",
        "“behind” is a place at a door",
    ),
    Banned(
        r"\b(?:leaf|sheet|maker|template|reveal|procedure|computation|mount|code|test|hole|rule|rules|he) asks? for\b"
        r"|\basks for (?:no|them|one)\b",
        "needs",
        "only a person or a question asks",
    ),
    Banned(r"\brests? on\b", "depends on", "an arm rests on a shoe, a decision does not"),
    Banned(
        r"\btakes (?:one of|at most|no (?:door|value|input|answer)|the name of|a (?:list|mapping|line|run|number))\b"
        r"|\btakes “|” takes\b"
        r"|(?:--[a-z]+|[a-z]=) takes\b|\bit takes (?:\{', '|a \{)",
        "accepts, is",
        "“take” is what hands, screws and swings do",
    ),
    Banned(
        r"\b(?:is|are) taken\b(?! (?:away|off|out|down|from|by stopwatch|as|again)\b)",
        "is accepted, is used",
        "“take” is what hands, screws and swings do",
    ),
    Banned(r"\b(?:is|are) told\b(?! apart)", "is shown, is reported", "a screen shows"),
    Banned(r"\bstands? for\b", "is, means", "a door stands"),
    Banned(r"\bgoes of the valve", "turns", "a valve is turned"),
    Banned(r"\bamiss\b", "wrong", "dialect"),
    Banned(r"\bby a hair\b", "only just", "idiom"),
    Banned(r"\bold hand\b", "an experienced fitter", "idiom"),
)

ALLOWED = (
    # A place, and words that stand there: the trade needs them.
    ("procedures/inspect-a-closing-door.yaml", "hold against a pull"),
    ("procedures/find-the-fault.yaml", "It stands for good"),
    ("scenarios/fault-it-waits.yaml", "stands for half a minute"),
    ("guide/plain/practice.py", '"mend"'),
    ("guide/trade/fastening/screw_withdrawal.py", "holds against being pulled out"),
)

_GAP = r"""(?:[\s"'#>]|(?<=\s)f(?="))+"""
"""What may stand between two words: a line's end with its indent, quotation marks and the sign of a comment."""
PATTERNS = [(re.compile(one.pattern.replace(" ", _GAP), re.IGNORECASE), one) for one in BANNED]
_TEXTS_OF_PYTHON = {tokenize.STRING, tokenize.COMMENT, getattr(tokenize, "FSTRING_MIDDLE", None)}


def without_code(source: str) -> str:
    """The source with blanks for all but its string literals and comments, each at its place."""
    lines = [" " * len(line) for line in source.split("\n")]
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type not in _TEXTS_OF_PYTHON:
            continue
        for number, text in enumerate(token.string.split("\n")):
            row, column = token.start[0] - 1 + number, 0 if number else token.start[1]
            line = lines[row]
            lines[row] = line[:column] + text + line[column + len(text) :]
    return "\n".join(lines)


def without_keys(source: str) -> str:
    """The YAML source with blanks for all but its values and comments."""
    kept = list(re.sub(r"[^\n]", " ", source))
    pieces = [(m.start(), m.end()) for m in re.finditer(r"(?m)(?:^|(?<=\s))# .*$", source)]
    nodes = [yaml.compose(source, yaml.CSafeLoader)]
    while nodes:
        node = nodes.pop()
        if isinstance(node, yaml.MappingNode):
            nodes += [value for _, value in node.value]
        elif isinstance(node, yaml.SequenceNode):
            nodes += node.value
        elif isinstance(node, yaml.ScalarNode):
            pieces.append((node.start_mark.index, node.end_mark.index))
    for start, end in pieces:
        kept[start:end] = source[start:end]
    return "".join(kept)


def texts() -> Iterator[tuple[str, str]]:
    """Each file that is read: its path from the top, and its text in its place."""
    for path in sorted(TOP.glob("guide/**/*.py")):
        name, source = path.relative_to(TOP).as_posix(), path.read_text("utf-8")
        if next(findings(name, source), ""):  # to take a source to pieces takes long
            yield name, without_code(source)
    for pattern in ("procedures/**/*.yaml", "scenarios/*.yaml"):
        for path in sorted(TOP.glob(pattern)):
            yield path.relative_to(TOP).as_posix(), without_keys(path.read_text("utf-8"))
    pages = sorted(TOP.glob("guide/handbook/**/*.md"))
    for path in [*(TOP / name for name in DOCUMENTS), *pages]:
        yield path.relative_to(TOP).as_posix(), path.read_text("utf-8")


def findings(name: str, text: str) -> Iterator[str]:
    """A line for each banned expression in the text: where it is, and the better word."""
    for pattern, banned in PATTERNS:
        if not re.search(banned.within, name):
            continue
        for match in pattern.finditer(text):
            around = text[max(match.start() - 60, 0) : match.end() + 60]
            if any(name == place and words in around for place, words in ALLOWED):
                continue
            line = text.count("\n", 0, match.start()) + 1
            words = re.sub(_GAP, " ", match[0])
            yield f"{name}:{line}: “{words}”; write {banned.better} ({banned.reason})"


def test_every_text_is_in_plain_words() -> None:
    found = [line for name, text in texts() for line in findings(name, text)]
    assert not found, "\n" + "\n".join(found)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('"""The readings are held\n    against the rules."""', "held against"),
        ('say(\n    "The name is "\n    f"no name of a {kind}."\n)', "is no"),
        ("# A path that\n# is none is left out.", "is none"),
    ],
)
def test_an_expression_is_found_over_the_end_of_a_line(text: str, words: str) -> None:
    (found,) = findings("guide/files/x.py", without_code(text))
    assert f"“{words}”" in found


def test_code_and_keys_are_not_read() -> None:
    assert not list(findings("guide/files/x.py", without_code("amiss = whoever  # both fine")))
    assert not list(findings("scenarios/x.yaml", without_keys("whoever: {amiss: right}")))
    assert len(list(findings("scenarios/x.yaml", without_keys("right: whoever  # amiss")))) == 2


def test_every_place_allowed_is_needed() -> None:
    for name, words in ALLOWED:
        assert words in (TOP / name).read_text("utf-8"), name


def long_sentences(text: str) -> list[str]:
    """The sentences of more than MOST_WORDS words."""
    sentences = re.split(r"(?<=[.;:?!])\s+", " ".join(text.split()))
    return [one for one in sentences if len(re.findall(r"[\w’'`-]+", one)) > MOST_WORDS]


def test_titles_and_advice_of_the_findings_are_short() -> None:
    for code in all_codes():
        page = page_of(code)
        assert not long_sentences(page.title), code
        assert not long_sentences(page.do), code


def test_lines_of_help_are_short() -> None:
    for verb, words in VERBS.items():
        assert not long_sentences(words), verb
        parser = argparse.ArgumentParser()
        importlib.import_module(f"guide.cli.{verb}").arguments(parser)
        for action in parser._actions:
            assert not long_sentences(action.help or ""), f"{verb} {action.dest}"
