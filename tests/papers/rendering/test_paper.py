"""A paper made of sections by hand: every renderer knows every kind of block, and nothing is lost in any of them."""

import io

from pypdf import PdfReader

from guide.papers.rendering.paper import (
    Bullets,
    Code,
    Pairs,
    Paper,
    Photo,
    Photos,
    Section,
    Signature,
    Signatures,
    Table,
    Words,
    section,
    there,
)
from guide.papers.rendering.paper_html import paper_html
from guide.papers.rendering.paper_pdf import paper_pdf
from guide.papers.rendering.paper_text import paper_text

DOORS = Table(
    ("Door", "As found", "As left"),
    (("114", "4 s", "6 s"), ("115", "5 s", "5 s")),
    (": ", ", left at "),
)


def school() -> Paper:
    """Two doors of a school."""
    missing = Photo("The hinge of 114", "IMG_1.jpg; the file is MISSING here", "ab" * 32, None)
    return Paper(
        "Record",
        "Mill Street School",
        "Two doors, one with something left to do",
        (
            Section("Doors", (DOORS, Words("Both close."))),
            Section("Where", (Pairs((("Site", "Mill Street"), ("Is it open?", "Yes"))),)),
            Section("Signed", (Signatures((Signature("Done by", "A. Fitter"),)),)),
        ),
        (
            Section("Work", (Bullets(("Oil the latch.", "Set the sweep."), numbered=True),)),
            Section("Photos", (Photos((missing,)), Code("cd" * 32))),
        ),
        "Page of a school.",
        units="metric",
    )


def test_the_lines_say_once_what_stayed_as_it_was() -> None:
    lines = paper_text(school()).splitlines()
    assert "  114: 4 s, left at 6 s" in lines
    assert "  115: 5 s" in lines
    assert "  Site: Mill Street" in lines
    assert "  Is it open? Yes" in lines
    assert "  1. Oil the latch." in lines
    assert lines.index("DETAIL") < lines.index("Photos")


def test_every_form_holds_every_text() -> None:
    pdf = PdfReader(io.BytesIO(paper_pdf(school())))
    forms = {
        "text": paper_text(school()),
        "html": paper_html(school()),
        "pdf": " ".join(page.extract_text() for page in pdf.pages),
    }
    for form, text in forms.items():
        for word in (
            "Mill Street School",
            "one with something left",
            "114",
            "Both close.",
            "A. Fitter",
        ):
            assert word in text, (form, word)
        for word in ("Set the sweep.", "MISSING", "ab" * 10, "cd" * 32, "Page of a school."):
            assert word in text.replace("\n", ""), (form, word)


def test_a_cell_longer_than_a_page_goes_on_in_the_next_row() -> None:
    words = " ".join(str(number) for number in range(1500))
    paper = Paper(
        "Record", "Long", "Open", (Section("One", (Pairs((("Words", words),)),)),), (), ""
    )
    pages = PdfReader(io.BytesIO(paper_pdf(paper))).pages
    found = " ".join(page.extract_text() for page in pages).split()
    assert {str(number) for number in range(1500)} <= set(found)


def test_an_empty_section_is_left_out() -> None:
    assert section("Notes", Bullets(())) is None
    assert there((section("Notes", None), section("Doors", DOORS))) == (Section("Doors", (DOORS,)),)
