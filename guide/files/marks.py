"""YAML parsed to a tree in which each scalar keeps its text and each node its line and column.

Built from the parser's events, so that anchors, aliases, tags and twice-written keys are seen before
anything is expanded. Such a fault does not stop the reading, so that all faults of a file are reported at once.
"""

import stat
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from guide.files.findings import ERROR, MOST, BadFile, Finding, Mark, shown_path
from guide.files.yaml_faults import (
    braced_message,
    cut_by_comment,
    cut_message,
    parted_message,
    syntax_fault,
)
from guide.text import all_unseen, made_seen, short, unseen

LARGEST_BYTES = 2 * 1024 * 1024
"""A procedure of ten thousand steps fits; anything larger is a mistake or an attack."""
DEEPEST = 60
"""Levels of nesting."""
MOST_NODES = 150_000
"""Keys, values and lists together; ten thousand steps have half as many."""
MOST_ENTRIES = 20_000
"""Entries of one list or mapping."""
MOST_REPAIRS = 20
"""Lines that are not YAML and are repaired in memory, so that the rest can be checked too."""
LARGEST_REPAIRED = 200_000
"""Characters of a file that is read again after a repair; a larger one stops at its first such line."""


@dataclass(slots=True)
class Text:
    """A scalar, exactly as written."""

    value: str
    mark: Mark


@dataclass(slots=True)
class Seq:
    """A list."""

    mark: Mark
    items: list["Node"] = field(default_factory=list)


@dataclass(slots=True)
class Map:
    """A mapping; keys are text."""

    mark: Mark
    entries: dict[str, "Node"] = field(default_factory=dict)
    key_marks: dict[str, Mark] = field(default_factory=dict)


Node = Text | Seq | Map


class _Builder:
    def __init__(self, file: str, text: str = "") -> None:
        self.file = file
        self.text = text
        self.findings: list[Finding] = []
        self.bare: set[Mark] = set()
        """Where keys in braces stand that have no value."""
        self.count = 0

    def fault(self, mark: Mark, code: str, message: str) -> None:
        if len(self.findings) < MOST:
            self.findings.append(Finding(self.file, *mark, code, ERROR, message))

    def stop(self, mark: Mark, code: str, message: str) -> BadFile:
        return BadFile([*self.findings, Finding(self.file, *mark, code, ERROR, message)])

    def too_deep(self, mark: Mark) -> BadFile:
        return self.stop(
            mark, "too-deep", f"The file nests deeper than {DEEPEST} levels; split it up."
        )

    def node(self, event: Any, events: Iterator[Any], depth: int, key: str = "") -> Node:
        """What begins with this event; `key` is the key that it is the value of."""
        mark = (event.start_mark.line + 1, event.start_mark.column + 1)
        self.count += 1
        if depth > DEEPEST:
            raise self.too_deep(mark)
        if self.count > MOST_NODES:
            raise self.stop(mark, "too-large", "The file holds too many entries; split it up.")
        if isinstance(event, yaml.AliasEvent):
            self.fault(
                mark,
                "alias",
                f"“*{short(str(event.anchor))}” repeats another part; write the part out here.",
            )
            return Text("", mark)
        if event.anchor is not None:
            self.fault(
                mark, "alias", f"The anchor “&{short(event.anchor)}” is not used here; take it out."
            )
        if event.tag is not None:
            self.fault(
                mark, "tag", f"The tag “{short(str(event.tag))}” is not used here; take it out."
            )
        if isinstance(event, yaml.ScalarEvent):
            self.look_at(event.value, mark)
            end = event.end_mark.index if event.end_mark else 0
            if not event.style and cut_by_comment(self.text, end, event.value, key):
                self.fault(mark, "text-cut", cut_message(event.value))
            return Text(event.value, mark)
        if isinstance(event, yaml.SequenceStartEvent):
            seq = Seq(mark)
            for inner in events:
                if isinstance(inner, yaml.SequenceEndEvent):
                    break
                seq.items.append(self.node(inner, events, depth + 1, key))
                self.not_too_long(mark, len(seq.items))
            return seq
        found = self.mapping(mark, events, depth, flow=bool(event.flow_style))
        return self.braced(found) if event.flow_style else found

    def not_too_long(self, mark: Mark, entries: int) -> None:
        if entries > MOST_ENTRIES:
            raise self.stop(
                mark, "too-large", f"More than {MOST_ENTRIES} entries are here; split them up."
            )

    def braced(self, found: Map) -> Node:
        """A mapping in braces; or the text that a fact's name in braces was meant to be."""
        ((name, mark),) = found.key_marks.items() if len(found.key_marks) == 1 else (("", (0, 0)),)
        if mark not in self.bare or not name.isidentifier():
            return found
        self.fault(found.mark, "text-parted", braced_message(name))
        return Text(f"{{{name}}}", found.mark)

    def mapping(self, mark: Mark, events: Iterator[Any], depth: int, *, flow: bool) -> Map:
        found = Map(mark)
        for event in events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            key = self.node(event, events, depth + 1)
            following = next(events)
            value = self.node(
                following, events, depth + 1, key.value if isinstance(key, Text) else ""
            )
            if flow and isinstance(key, Text) and self.without_colon(event, following):
                self.bare.add(key.mark)
                last = next(reversed(found.entries.values()), None)
                if isinstance(last, Text) and key.value:
                    self.fault(key.mark, "text-parted", parted_message(last.value, key.value))
                    last.value += f", {key.value}"
                    continue
            if not isinstance(key, Text):
                self.fault(
                    key.mark, "key-wrong", "A key must be a word, and this one is a list or map."
                )
            elif key.value == "<<":
                self.fault(key.mark, "alias", "The merge key “<<” is not used; write the keys out.")
            elif key.value in found.entries:
                first = found.key_marks[key.value][0]
                self.fault(
                    key.mark,
                    "duplicate-key",
                    f"“{short(key.value)}” is written twice (first on line {first}); keep one.",
                )
            else:
                found.entries[key.value] = value
                found.key_marks[key.value] = key.mark
                self.not_too_long(mark, len(found.entries))
        return found

    def without_colon(self, key: Any, value: Any) -> bool:
        """Whether a key in braces has neither a value nor the colon before one."""
        empty = isinstance(value, yaml.ScalarEvent) and not value.value and not value.style
        return empty and ":" not in self.text[key.end_mark.index : value.end_mark.index + 1]

    def look_at(self, value: str, mark: Mark) -> None:
        """Note a character nobody can see; a character in the file's own text was noted before."""
        found = unseen(value)
        if found is not None:
            self.fault(mark, "control-character", _unseen_message(found[0]))


def _unseen_message(char: str) -> str:
    return f"The invisible character U+{ord(char):04X} is here; take it out."


def read_text(path: Path, largest: int = LARGEST_BYTES) -> str:
    """The text of a file.

    Raises BadFile for a file that is missing, not a plain file, too large, or not UTF-8 text.
    """
    shown = shown_path(path)

    def bad(code: str, message: str) -> BadFile:
        return BadFile([Finding(shown, 1, 1, code, ERROR, message)])

    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise bad("cannot-read", f"{shown} is not a file; name a YAML file.")
        if status.st_size > largest:
            raise bad(
                "too-large",
                f"{shown} is {status.st_size // 1024} kB; at most {largest // 1024} kB are read.",
            )
        data = path.read_bytes()
    except FileNotFoundError as error:
        raise bad("cannot-read", f"There is no file {shown}; check the spelling.") from error
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise bad("cannot-read", f"{shown} cannot be read ({reason}).") from error
    except ValueError as error:
        raise bad("cannot-read", "That is not a file name; check the spelling.") from error
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise BadFile(
            [
                Finding(
                    shown,
                    line,
                    1,
                    "not-text",
                    ERROR,
                    f"{shown} is not text (UTF-8); save it as plain text from the editor.",
                )
            ]
        ) from error


def read_marked(text: str, file: str) -> tuple[Node, list[Finding]]:
    """The file as a marked tree, and the faults that did not stop the reading.

    Those are anchors, aliases, tags, keys written twice and invisible characters. Raises BadFile if
    nothing can be made of the file: no text, no YAML, nothing in it, too deep or too large.
    """
    builder = _Builder(file)
    if "\x00" in text:
        mark = _mark_of(text, text.index("\x00"))
        raise builder.stop(mark, "not-text", f"{file} is not text; name a YAML file.")
    for found in all_unseen(text)[:MOST]:
        builder.fault(_mark_of(text, found.start()), "control-character", _unseen_message(found[0]))
    tree, builder = _read_on(builder, made_seen(text))
    if tree is None or (isinstance(tree, Text) and not tree.value.strip()):
        raise builder.stop((1, 1), "empty", f"{file} is empty; write it, or name another file.")
    return tree, builder.findings


def _read_on(builder: _Builder, text: str) -> tuple[Node | None, _Builder]:
    """The tree, if need be of the text with some lines repaired, and the builder with every fault so far."""
    told = builder.findings
    lines: set[int] = set()
    while True:
        builder = _Builder(builder.file, text)
        builder.findings = list(told)
        try:
            return _tree(builder, text), builder
        except yaml.MarkedYAMLError as error:
            fault = syntax_fault(text, error)
            if "nesting depth" in (error.problem or ""):
                raise builder.too_deep(fault.mark) from error
            builder.findings = list(told)
            again = fault.repaired is None or fault.mark[0] in lines
            if again or len(lines) >= MOST_REPAIRS or len(text) > LARGEST_REPAIRED:
                raise builder.stop(fault.mark, "yaml-syntax", fault.message) from error
            lines.add(fault.mark[0])
            builder.fault(fault.mark, "yaml-syntax", fault.message)
            told, text = builder.findings, fault.repaired or ""
        except yaml.YAMLError as error:
            message = f"{builder.file} holds characters that YAML does not allow."
            raise builder.stop((1, 1), "not-text", message) from error


def _tree(builder: _Builder, text: str) -> Node | None:
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    events: Iterator[Any] = iter(yaml.parse(text, Loader=loader))
    tree: Node | None = None
    for event in events:
        if isinstance(event, yaml.StreamStartEvent | yaml.StreamEndEvent):
            continue
        if isinstance(event, yaml.DocumentStartEvent | yaml.DocumentEndEvent):
            continue
        if tree is not None:
            mark = (event.start_mark.line + 1, event.start_mark.column + 1)
            raise builder.stop(mark, "yaml-syntax", "A second document begins here; keep one.")
        tree = builder.node(event, events, 1)
    return tree


def _mark_of(text: str, place: int) -> Mark:
    before = text[:place].replace("\r\n", "\n").replace("\r", "\n")
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def plain(node: Node) -> Any:
    """The tree without its marks: text, lists and dicts."""
    if isinstance(node, Text):
        return node.value
    if isinstance(node, Seq):
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, value in node.entries.items()}


def mark_at(node: Node, path: tuple[str | int, ...], *, key: bool = False) -> Mark:
    """The line and column of the part at `path`; parts of the path that the tree does not have are skipped.

    With `key`, the place of the last key rather than of its value.
    """
    mark = node.mark
    for part in path:
        if isinstance(node, Map) and isinstance(part, str) and part in node.entries:
            mark = node.key_marks[part] if key else node.entries[part].mark
            node = node.entries[part]
        elif isinstance(node, Seq) and isinstance(part, int) and part < len(node.items):
            node = node.items[part]
            mark = node.mark
    return mark
