"""A prompt as plain lines."""

import textwrap

from guide.measures import freed, held
from guide.plain.line_words import HINTS
from guide.run.pages.page import Page
from guide.run.prompt import FROM_THE_SCHEDULE, Accepts, Prompt, photo_in_words, suggestion_in_words
from guide.translation import _
from guide.words import by_name

WIDTH = 78
PLOT = (64, 12)
"""Columns and rows of a plot."""


def wrapped(text: str, indent: str = "") -> list[str]:
    """Text in lines that fit, no measure broken; every line of the text begins anew."""
    lines: list[str] = []
    for line in held(text).split("\n"):
        # A procedure's name is not broken either: it is what one types.
        wrap = textwrap.TextWrapper(
            WIDTH, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
        )
        lines += wrap.wrap(line) or [""]
    return [freed(line) for line in lines]


def rendered(prompt: Prompt, accepts: Accepts, detail: str, *, why: bool = False) -> list[str]:
    """The lines to print for a prompt, with the answers it `accepts` now. `why` adds the long words at any detail."""
    lines = [
        f"--- {', '.join(filter(None, (prompt.at, prompt.turn)))}  ({round(100 * prompt.progress)} %)"
    ]
    as_card = prompt.together(detail)
    full = (detail == "full" and (not as_card or bool(prompt.asked))) or why
    for passed in prompt.passed:
        lines += wrapped(passed.say if detail == "spoken" else passed.text)
        lines += [part for line in passed.working if full for part in wrapped(line, "    ")]
        lines += [
            part for one in passed.cautions for part in wrapped(f"{one[0].upper()}: {one[1]}")
        ]
    for word, sentence in prompt.card_cautions if as_card else prompt.cautions:
        lines += wrapped(f"{word.upper()}: {sentence}")
    if as_card:
        lines.append(prompt.card)
        lines += [part for card in prompt.card_lines for part in wrapped(f"- {card.text}", "  ")]
        lines += wrapped(prompt.text) if prompt.asked else []
    else:
        lines += wrapped(prompt.say if detail == "spoken" and prompt.say else prompt.text)
    for hole in () if as_card else prompt.holes:
        lines += wrapped(hole.text, "    ")
    for name, value in prompt.read_back:
        lines += wrapped(f"{name}: {value}", "    ")
    for one in prompt.safe:
        lines += wrapped(f"- {one}", "  ")
    for line in (*prompt.readings, *prompt.kit):
        lines += wrapped(line, "  ")
    if prompt.limit:
        lines += wrapped(_("Limit: {limit}.").format(limit=prompt.limit), "  ")
    if photo := photo_in_words(prompt, f"“{by_name('photo').word}”"):
        lines += wrapped(photo, "  ")
    lines += [part for line in prompt.working if full for part in wrapped(line, "    ")]
    if full:
        for heading, text in (
            (_("Why"), prompt.why),
            (_("Watch for"), prompt.watch),
            (_("Right when"), prompt.looks_right),
            (_("To find out"), prompt.find_out),
        ):
            if text:
                lines += wrapped(f"{heading}: {text}", "  ")
        if prompt.tools:
            lines += wrapped(_("Tools: {tools}").format(tools=", ".join(prompt.tools)), "  ")
        if prompt.parts:
            lines += wrapped(_("Parts: {parts}").format(parts=", ".join(prompt.parts)), "  ")
        if prompt.drawing:
            lines += prompt.drawing.split("\n")
        if prompt.drawing_says:
            lines += wrapped(prompt.drawing_says, "  ")
        if prompt.draws and prompt.draws.door:
            lines += wrapped(_("“draw” draws it."), "  ")
    lines += asked(prompt, accepts, as_card=as_card and prompt.card == FROM_THE_SCHEDULE)
    return lines


def page_lines(page: Page, *, ascii_only: bool = False) -> list[str]:
    """The lines to print for a page that is looked up."""
    lines = wrapped(page.title)
    for section in page.sections:
        lines += wrapped(f"{section.heading}:", "  ") if section.heading else []
        if section.plot is not None:
            from guide.drawing.plot import text_plot  # one page has them

            lines += text_plot(section.plot, *PLOT, ascii_only=ascii_only)
        lines += [part for line in section.lines for part in wrapped(f"- {line}", "  ")]
    return lines


def asked(prompt: Prompt, accepts: Accepts, *, as_card: bool = False) -> list[str]:
    """The lines for the answers and hints."""
    offered = prompt.accepts
    measured = offered.kind in ("measure", "count", "text", "values")
    lines = (
        [_("  “unsure”: {text}.").format(text=choice.text) for choice in offered.choices]
        if measured
        else [f"  {number}) {choice.text}" for number, choice in enumerate(offered.choices, 1)]
    )
    if prompt.view and accepts is not offered:
        said = _("Answered: {answer}.").format(answer=prompt.answer) + " " if prompt.answer else ""
        goes_on = _("“forward” goes on.")
        if offered.kind != "nothing":
            goes_on = _("“change” gives another answer; “forward” goes on.")
        return [*lines, *wrapped(f"{said}{goes_on}", "  ")]
    if accepts.suggestion:
        lines += wrapped(suggestion_in_words(accepts, as_card=as_card), "  ")
    if accepts.kind in HINTS:
        lines += wrapped(HINTS[accepts.kind], "  ")
    elif measured:
        lines += wrapped(f"{accepts.wanted[:1].upper()}{accepts.wanted[1:]}.", "  ")
        lines += wrapped(_("“one by one” asks each by itself."), "  ") if prompt.asked else []
    lines += [part for offer in _offers(prompt) for part in wrapped(offer, "  ")]
    if accepts.kind == "text":
        lines += wrapped(_("Put a colon before a command, such as “:pause”."), "  ")
    return lines


def _offers(prompt: Prompt) -> list[str]:
    """What an end offers beside a yes."""
    if prompt.view:
        return []
    begins = _("“{word}” begins: {title}")
    if prompt.kind == "end":
        begins = _("“{word}” ends this job and begins: {title}")
    offers = []
    if prompt.next_title:
        offers.append(begins.format(word=by_name("next job").word, title=prompt.next_title))
    if prompt.again:
        told = _("“{word}” goes on with this job, with what has changed.")
        offers.append(told.format(word=by_name("take up").word))
    return [*offers, _("Enter leaves it.")] if offers and prompt.kind == "ended" else offers
