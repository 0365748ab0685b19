"""A paper as one HTML file: no script, no other file, every text escaped; for a phone, a desk and a printer."""

import base64
import re
from collections.abc import Iterator
from html import escape as _escape
from pathlib import Path

from guide.drawing.svg import render_svg
from guide.papers.rendering.paper import (
    Block,
    Bullets,
    Code,
    Pairs,
    Paper,
    Photo,
    Photos,
    Section,
    Signature,
    Signatures,
    Sketch,
    Table,
    Words,
)
from guide.run.photos import small_copy
from guide.text import printable

_STYLE = Path(__file__).with_name("paper.css")
_POLICY = (
    '<meta http-equiv="Content-Security-Policy" content="default-src \'none\';'
    " style-src 'unsafe-inline'; img-src data:\">"
)
"""Nothing is loaded and nothing runs, whatever a text may hold."""
_PHOTO_PIXELS = 800
_SIGNATURE_PIXELS = 600
_RESULTS = {"PASS": "result-pass", "FAIL": "result-fail"}
"""Cells that are set apart, beside their word, by a class of the style."""


def paper_html(paper: Paper) -> str:
    """The paper as a page."""
    title = escape(f"{paper.kind}: {paper.title}")
    good = " good" if paper.good else ""
    lines = [
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        _POLICY,
        f"<title>{title}</title>\n<style>\n{_STYLE.read_text('utf-8')}</style>\n</head>\n<body>\n<main>",
        f'<header>\n<p class="kind">{escape(paper.kind)}</p>\n<h1>{escape(paper.title)}</h1>',
        f'<p class="status{good}">{escape(paper.status)}</p>',
        *(f"<p>{escape(note)}</p>" for note in paper.notes),
        "</header>",
    ]
    front = [(f"part-{number}", one) for number, one in enumerate(paper.front, 1)]
    detail = [(f"detail-{number}", one) for number, one in enumerate(paper.detail, 1)]
    for name, one in front:
        lines += _section(name, one)
    if detail:
        lines += ['<div class="detail">', '<nav aria-label="Detail">\n<ul>']
        lines += [f'<li><a href="#{name}">{escape(one.title)}</a></li>' for name, one in detail]
        lines.append("</ul>\n</nav>")
        for name, one in detail:
            lines += _section(name, one)
        lines.append("</div>")
    lines.append(f"</main>\n<footer>\n<p>{escape(paper.foot)}</p>\n</footer>\n</body>\n</html>\n")
    return "\n".join(lines)


def escape(text: str) -> str:
    """A text that is only text: what does not print is shown as a sign, and nothing in it is a tag."""
    return _escape(printable(text))


def _section(name: str, section: Section) -> Iterator[str]:
    yield f'<section aria-labelledby="{name}">\n<h2 id="{name}">{escape(section.title)}</h2>'
    for number, block in enumerate(section.blocks):
        yield from _block(block, f"{name}-{number}")
    yield "</section>"


def _block(block: Block, name: str) -> Iterator[str]:
    match block:
        case Words(text, strong):
            yield f"<p><strong>{escape(text)}</strong></p>" if strong else f"<p>{escape(text)}</p>"
        case Code(text):
            yield f"<p><code>{escape(text)}</code></p>"
        case Pairs(rows):
            yield "<dl>"
            yield from (f"<dt>{escape(one)}</dt><dd>{escape(value)}</dd>" for one, value in rows)
            yield "</dl>"
        case Table():
            yield from _table(block)
        case Bullets(lines, numbered):
            tag = "ol" if numbered else "ul"
            yield f"<{tag}>"
            yield from (f"<li>{escape(line)}</li>" for line in lines)
            yield f"</{tag}>"
        case Sketch(scene):
            drawing = render_svg(scene, f"-{name}").strip()
            yield f'<figure class="sketch">\n{drawing}\n</figure>\n<p>{escape(scene.says)}</p>'
        case Photos(photos):
            yield '<div class="photos">'
            yield from map(_photo, photos)
            yield "</div>"
        case Signatures(lines):
            yield '<div class="signatures">'
            yield from map(_signature, lines)
            yield "</div>"


def _table(table: Table) -> Iterator[str]:
    heads = "".join(f'<th scope="col">{escape(one)}</th>' for one in table.headings)
    yield f"<table>\n<thead><tr>{heads}</tr></thead>\n<tbody>"
    for first, *rest in table.rows:
        cells = "".join(
            f'<td class="{_RESULTS[cell]}">{escape(cell)}</td>'
            if cell in _RESULTS
            else f"<td>{escape(cell)}</td>"
            for cell in rest
        )
        yield f'<tr><th scope="row">{escape(first)}</th>{cells}</tr>'
    yield "</tbody>\n</table>"


def _photo(photo: Photo) -> str:
    small = small_copy(photo.data, _PHOTO_PIXELS) if photo.data is not None else None
    picture = f'<img src="{_inline(small)}" alt="{escape(photo.shows)}">' if small else ""
    caption = (
        f"{escape(photo.shows)}<br>{escape(photo.said)}<br><code>{escape(photo.sha256)}</code>"
    )
    return f"<figure>{picture}<figcaption>{caption}</figcaption></figure>"


def _signature(line: Signature) -> str:
    small = small_copy(line.drawn, _SIGNATURE_PIXELS) if line.drawn is not None else None
    name = escape(line.name)
    drawn = (
        f'<img src="{_inline(small)}" alt="Signature of {name or "the fitter"}">' if small else ""
    )
    below = f"{escape(line.role)}{f': {name}' if name else ''}. Date:"
    return f'<div><div class="sign">{drawn}</div><p>{below}</p></div>'


def _inline(picture: bytes) -> str:
    form = "png" if re.match(rb"\x89PNG", picture) else "jpeg"
    return f"data:image/{form};base64,{base64.b64encode(picture).decode('ascii')}"
