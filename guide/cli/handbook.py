"""`hingeside handbook [TOPIC] [-o FILE]`: the handbook's pages, and those of the findings of `check`."""

import argparse
import io
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from guide.errors import DONE, UNKNOWN
from guide.handbook.pages import USER, page_names, page_text, page_title

if TYPE_CHECKING:
    from rich.console import Console

EXAMPLES = """\
  hingeside handbook                                    the list of pages
  hingeside handbook safety                             safety and limits
  hingeside handbook page-at-the-door -o at-the-door.pdf  a page to print
  hingeside handbook cut-without-hold                   a finding of “check”
"""
LICENSES = "licenses"
"""The page that ends with a list of what is installed."""
WIDEST = 88
"""Columns of a page, also in a wider window."""
_ASCII = str.maketrans(
    {"“": '"', "”": '"', "’": "'", "•": "*", "←": "<-", "→": "->", "…": "...", "─": "-", "━": "-"}
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "topic",
        nargs="*",
        metavar="TOPIC",
        help="the name of a page, or the code of a finding; if left out, the pages are listed",
    )
    parser.add_argument(
        "-o",
        "--output",
        metavar="FILE",
        help="the file to write: .pdf, .md or .txt; if left out, it is printed",
    )
    parser.add_argument("--json", action="store_true", help="one JSON object")


def run(options: argparse.Namespace) -> int:
    """List the pages, or print or write one."""
    from guide.cli.messages import say
    from guide.handbook.pages import FINDINGS
    from guide.text import meant, printable, short

    topic = "-".join(" ".join(options.topic).casefold().split())
    if not topic:
        return _list(as_json=options.json)
    subject = next((one for one in (USER, FINDINGS) if topic in page_names(one)), None)
    if subject is None:
        known = [*page_names(USER), *page_names(FINDINGS)]
        hint = meant(topic, known, "“hingeside handbook” lists the pages.")
        say(f"hingeside: The handbook has no page “{printable(short(topic))}”; {hint}")
        return UNKNOWN
    if subject == FINDINGS and not options.output:
        from guide.cli.check import explain

        return explain(topic, as_json=options.json)
    text = markdown_of(subject, topic)
    if options.output:
        _write(Path(options.output), text)
    elif options.json:
        data = {"topic": topic, "title": page_title(subject, topic), "text": text}
        print(json.dumps(data, ensure_ascii=False))
    else:
        _print(text)
    return DONE


def markdown_of(subject: str, topic: str) -> str:
    """The page as Markdown, with what is installed added to the page of licenses."""
    text = page_text(subject, topic)
    if (subject, topic) != (USER, LICENSES):
        return text
    from guide.handbook.licenses import installed_table  # reads what is installed

    return f"{text.rstrip()}\n\n{installed_table()}"


def _list(*, as_json: bool) -> int:
    pages = [(name, page_title(USER, name)) for name in page_names(USER)]
    if as_json:
        rows = [{"topic": name, "title": title} for name, title in pages]
        print(json.dumps({"topics": rows}, ensure_ascii=False))
        return DONE
    widest = max(len(name) for name, _ in pages)
    for name, title in pages:
        print(f"{name:<{widest}}  {title}")
    print(
        "\nRead one: hingeside handbook safety. The findings of “check”: hingeside check --explain"
    )
    return DONE


def _print(text: str) -> None:
    """The page for a terminal or a pipe; in letters of ASCII if nothing else can be shown there."""
    from rich.console import Console

    encoding = (getattr(sys.stdout, "encoding", None) or "ascii").casefold()
    console = Console(markup=False, highlight=False)
    shown = _drawn(text, console.width, console)
    sys.stdout.write(shown if "utf" in encoding else shown.translate(_ASCII))


def _drawn(text: str, columns: int, like: "Console | None" = None) -> str:
    """The page in lines, with bold and colors as the console `like` has them; without one in plain letters."""
    from rich.console import Console
    from rich.markdown import Markdown

    console = Console(
        file=io.StringIO(),
        width=min(columns, WIDEST),
        force_terminal=like.is_terminal if like else False,
        no_color=like.no_color if like else True,
        markup=False,
        highlight=False,
    )
    with console.capture() as captured:
        console.print(Markdown(text, hyperlinks=False))
    return "\n".join(line.rstrip() for line in captured.get().split("\n"))


def _write(path: Path, text: str) -> None:
    from guide.files.writing import write_beside

    ending = path.suffix.casefold()
    if ending == ".pdf":
        from guide.papers.rendering.page_pdf import page_pdf  # a PDF's library takes a while

        write_beside(path, page_pdf(text))
    elif ending == ".md":
        write_beside(path, text.encode("utf-8"))
    else:
        write_beside(path, _drawn(text, WIDEST).encode("utf-8"))
