"""What can stand at a place of the command line, for a shell that completes it.

A shell that was set up by `hingeside completion` calls the program with the variable `_ARGCOMPLETE` set; the library
argcomplete then reads the line, and asks `words_for` for what can stand there.
"""

import argparse
import importlib
from collections.abc import Callable, Iterable, Mapping
from typing import Any

import argcomplete
from argcomplete.completers import BaseCompleter, FilesCompleter
from argcomplete.finders import CompletionFinder


def complete(line: str, verbs: Mapping[str, str]) -> None:
    """Write what can follow in `line` for the shell, and leave; `verbs` are the verbs with what they do."""
    argcomplete.autocomplete(_parser(line, verbs), default_completer=_Words())


def finder_for(line: str, verbs: Mapping[str, str]) -> CompletionFinder:
    """The library's object that completes `line`."""
    return CompletionFinder(_parser(line, verbs), default_completer=_Words())


def _parser(line: str, verbs: Mapping[str, str]) -> argparse.ArgumentParser:
    """The verbs, with the options of the one that the line has; the modules of the others are not imported."""
    parser = argparse.ArgumentParser(prog="hingeside", allow_abbrev=False)
    parser.add_argument("--version", action="store_true")
    each = parser.add_subparsers(dest="verb")
    words = line.split()
    for verb, about in verbs.items():
        one = each.add_parser(verb, help=about, allow_abbrev=False)
        if verb in words[1:2]:
            importlib.import_module(f"guide.cli.{verb}").arguments(one)
    return parser


class _Words(BaseCompleter):
    """The words for a place that argparse itself knows no choices of; else files."""

    def __call__(
        self,
        *,
        prefix: str,
        action: argparse.Action,
        parser: argparse.ArgumentParser,
        parsed_args: argparse.Namespace,
    ) -> Iterable[str]:
        words = _WORDS.get((getattr(parsed_args, "verb", ""), action.dest))
        files = [] if words is not None and "/" not in prefix else FilesCompleter()(prefix)
        return [*(words(parsed_args) if words is not None else ()), *files]


def _of_library(kind: str) -> Callable[[Any], Iterable[str]]:
    def words(_: Any) -> Iterable[str]:
        from guide.files.library import catalogue

        return [entry.name for entry in catalogue(kind)]

    return words


def _procedures(_: Any) -> Iterable[str]:
    """Those that can be run by themselves."""
    from guide.files.library import catalogue
    from guide.files.titles import title_in

    return [entry.name for entry in catalogue("procedure") if title_in(entry.path)]


def _jobs(_: Any) -> Iterable[str]:
    from guide.files.library import runs_folder

    return [path.stem for path in runs_folder().glob("*.run")]


def _sites(_: Any) -> Iterable[str]:
    from guide.site.site_files import ENDING, site_paths

    return [path.name.removesuffix(ENDING) for path in site_paths()]


def _computations(_: Any) -> Iterable[str]:
    from guide.trade.registry import COMPUTATIONS

    return list(COMPUTATIONS)


def _inputs(parsed: Any) -> Iterable[str]:
    """`key=` for each input of the computation, and `key=choice` for those that are one."""
    from guide.trade.registry import COMPUTATIONS

    found = []
    for one in COMPUTATIONS[parsed.name].inputs if parsed.name in COMPUTATIONS else ():
        choices = ("yes", "no") if one.kind == "yesno" else one.options
        found += [f"{one.name}={choice}" for choice in choices] or [f"{one.name}="]
    return found


def _settings(_: Any) -> Iterable[str]:
    from guide.run.settings import ALLOWED, Settings

    found = []
    for name in Settings._fields:
        allowed = ALLOWED.get(name, ())
        found += [f"{name}={value}" for value in allowed] or [f"{name}="]
    return found


def _topics(_: Any) -> Iterable[str]:
    from guide.handbook.pages import USER, page_names

    return page_names(USER)


def _codes(_: Any) -> Iterable[str]:
    from guide.handbook.pages import FINDINGS, page_names

    return page_names(FINDINGS)


def _with_files(words: Callable[[Any], Iterable[str]]) -> Callable[[Any], Iterable[str]]:
    """The words, and the files of this folder that can be meant instead."""

    def both(parsed: Any) -> Iterable[str]:
        from pathlib import Path

        return [*words(parsed), *(path.name for path in sorted(Path.cwd().glob("*.yaml")))]

    return both


_WORDS: dict[tuple[str, str], Callable[[Any], Iterable[str]]] = {
    ("run", "procedure"): _with_files(_procedures),
    ("run", "door"): _with_files(_of_library("scenario")),
    ("run", "sheet"): _with_files(_of_library("sheet")),
    ("run", "resume"): _jobs,
    ("run", "site"): _sites,
    ("rehearse", "scenarios"): _with_files(_of_library("scenario")),
    ("check", "files"): _with_files(_of_library("procedure")),
    ("check", "explain"): _codes,
    ("chart", "file"): _with_files(_procedures),
    ("work", "name"): _computations,
    ("work", "inputs"): _inputs,
    ("site", "words"): lambda parsed: ["new", *_sites(parsed)],
    ("plan", "sheet"): _with_files(_of_library("sheet")),
    ("practice", "door"): _of_library("practice door"),
    ("record", "name"): lambda parsed: [*_jobs(parsed), *_sites(parsed)],
    ("record", "verify"): _jobs,
    ("template", "inputs"): _jobs,
    ("sheet", "action"): lambda _: ("new", "edit"),
    ("sheet", "name"): _of_library("sheet"),
    ("settings", "changes"): _settings,
    ("handbook", "topic"): _topics,
}
"""What can stand at an argument of a verb; at all others, files."""
