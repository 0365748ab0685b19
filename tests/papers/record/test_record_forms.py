"""The record in its forms: what each holds, and that nothing of a text in it is more than a text."""

import io
import json
import re
from collections import Counter
from html.parser import HTMLParser
from itertools import count
from pathlib import Path

import jsonschema
import pytest
from fpdf import FPDF
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import Destination

from guide.cli.main import main
from guide.papers.record.answers import answers_data, changed_lines
from guide.papers.record.record import record_data, record_json
from guide.papers.record.record_forms import record_html, record_pdf, record_text
from guide.papers.record.rules import FAIL, verdicts
from guide.papers.rendering.paper_pdf import MARGIN
from guide.papers.rendering.pdf_letters import ENCODING, plain
from guide.run.desk import Desk
from guide.run.journal import MemoryJournal
from guide.run.session import Session
from tests.papers.carried import carried_through
from tests.run.small_procedures import begin, give, small

SCHEMA = Path(__file__).parents[3] / "guide" / "papers" / "record" / "record.schema.json"
MM = 72 / 25.4
EVIL = '</p><script>alert(1)</script>"><img src=x onerror=y>&'
Printed = pytest.CaptureFixture[str]


def with_a_photo(folder: Path) -> Session:
    """A gym store's door whose texts all come from somebody who means no good, with a photo."""
    graph = small("gym-store")
    about = {"site": EVIL, "door": EVIL, "place": EVIL, "name": "Łukasz Ő. 김", "firm": EVIL}
    session = Session.begin(MemoryJournal(), graph, device="bench", about=about)
    give(session, "wood", "yes", EVIL, "done", "36 in")
    picture = folder / "<b>hinge.jpg"
    Image.new("RGB", (1200, 900), "teal").save(picture)
    desk = Desk(session)
    desk.command("photo", str(picture))
    desk.enter(EVIL)
    desk.command("note", EVIL)
    return session


# --- JSON ---


def test_the_schema_is_the_one_that_is_published(capsys: Printed) -> None:
    assert main(["schema", "record"]) == 0
    assert capsys.readouterr().out == SCHEMA.read_text("utf-8")


@pytest.mark.parametrize(
    "name", ["demo", "adjust-dead-sweep", "inspect-stair-door", "adjust-garden-door-uk"]
)
def test_a_record_has_the_published_shape(name: str) -> None:
    session = carried_through(name)
    data = json.loads(record_json(session.state, session.journal.events()))
    jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(data)


def test_a_record_with_a_photo_and_a_note_after_the_end_has_it_too(tmp_path: Path) -> None:
    session = with_a_photo(tmp_path)
    desk = Desk(session)
    desk.command("safe", "The frame is cracked")
    desk.command("yes")
    desk.command("note", "The owner has the key.")
    data = json.loads(record_json(session.state, session.journal.events()))
    jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(data)
    assert [one["text"] for one in data["addenda"]] == ["The owner has the key."]
    assert len(data["notes"]) == 1


# --- how answers were taken ---


def test_each_answer_says_how_it_was_taken() -> None:
    session = carried_through("demo")
    how = {one["fact"]: one["how"] for one in answers_data(session.state, session.journal.events())}
    assert how["hinge"] == "schedule"
    assert how["thickness"] == "keyed"
    assert set(how.values()) <= {"keyed", "spoken", "stopwatch", "schedule", "sheet", "carried"}


def test_a_changed_answer_is_told_with_what_it_was() -> None:
    session = begin("gym-store")
    give(session, "wood", "no", "done", "36 in", "how-wide = 34 in")
    (line,) = changed_lines(session.state, session.journal.events())
    assert line.endswith("How wide is the leaf? 36 in, changed to 34 in")


@pytest.mark.parametrize("name", ["demo", "adjust-force-left-to-do", "adjust-garden-door-uk"])
def test_every_verdict_of_the_rules_is_read(name: str) -> None:
    session = carried_through(name)
    rules = record_data(session.state, session.journal.events())["rules"]
    lines = [line for line in rules if re.match(r"[a-z0-9 -]+: ", line)]
    assert len(verdicts(rules)) == len(lines) > 3
    failed = [one["rule"] for one in verdicts(rules) if one["verdict"] == FAIL]
    assert all(one in rules[0] for one in failed)
    assert bool(failed) == rules[0].startswith("Fails: ")


# --- HTML ---


class Seen(HTMLParser):
    """What a page is made of."""

    VOID = frozenset(("meta", "img", "br", "path", "circle"))

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: Counter[str] = Counter()
        self.ids: list[str] = []
        self.leads: list[str] = []
        self.scripted: list[str] = []
        self.open: list[str] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags[tag] += 1
        if tag not in self.VOID:
            self.open.append(tag)
        for name, value in attrs:
            self.ids += [value or ""] if name == "id" else []
            self.leads += [value or ""] if name in ("src", "href") else []
            self.scripted += [name] if name.startswith("on") else []

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in self.VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.VOID:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


def test_a_page_is_one_file_without_a_script_whatever_its_texts_hold(tmp_path: Path) -> None:
    session = with_a_photo(tmp_path)
    page = record_html(session.state, session.journal.events())
    seen = Seen(page)
    assert seen.open == []
    assert seen.tags["script"] == 0
    assert seen.tags["img"] == 1  # the photo, and none that a text brought
    assert seen.scripted == []
    assert all(one.startswith(("#", "data:image/")) for one in seen.leads)
    assert EVIL in seen.text
    assert all(one.isprintable() or one == "\n" for one in page)
    assert "Łukasz Ő. 김" in seen.text


def test_every_link_of_a_page_leads_somewhere() -> None:
    session = carried_through("demo")
    seen = Seen(record_html(session.state, session.journal.events()))
    assert len(seen.ids) == len(set(seen.ids))
    assert {one[1:] for one in seen.leads} <= set(seen.ids)
    assert seen.tags["svg"] == 2
    assert seen.tags["h1"] == 1


def test_a_signature_is_drawn_on_its_line(tmp_path: Path) -> None:
    signed = tmp_path / "signed.png"
    Image.new("RGBA", (400, 120)).save(signed)
    session = carried_through("adjust-office-door")
    seen = Seen(record_html(session.state, session.journal.events(), signed))
    assert [one[:22] for one in seen.leads if one.startswith("data")] == ["data:image/png;base64,"]
    pdf = PdfReader(io.BytesIO(record_pdf(session.state, session.journal.events(), signed)))
    assert len(pdf.pages[0].images) >= 1
    assert "a drawn signature" in record_text(session.state, session.journal.events(), signed)


AXE = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.mark.needs("chromium", "python:playwright", "python:axe_playwright_python")
def test_a_page_can_be_read_by_everybody_on_a_phone_and_at_night(tmp_path: Path) -> None:
    """WCAG 2.2 AA as far as axe-core can tell, light and dark; nothing is wider than a phone."""
    from axe_playwright_python.sync_playwright import Axe
    from playwright.sync_api import sync_playwright

    session = with_a_photo(tmp_path)
    (tmp_path / "record.html").write_text(
        record_html(session.state, session.journal.events()), "utf-8"
    )
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=_chromium())
        for scheme, width in (("light", 360), ("dark", 1100)):
            page = browser.new_page(
                viewport={"width": width, "height": 800},
                color_scheme=scheme,  # type: ignore[arg-type]  # a word of two
                bypass_csp=True,
            )
            page.goto((tmp_path / "record.html").as_uri())
            found = Axe().run(page, options={"runOnly": AXE})
            assert [one["id"] for one in found.response["violations"]] == []
            assert page.evaluate("document.documentElement.scrollWidth") <= width
        browser.close()


def _chromium() -> str:
    import shutil

    return shutil.which("chromium") or ""


# --- PDF ---


@pytest.mark.parametrize(
    ("name", "size", "lang"),
    [("demo", (215.9, 279.4), "en-US"), ("inspect-flat-door-uk", (210.0, 297.0), "en-GB")],
)
def test_a_pdf_has_a_first_page_bookmarks_and_a_language(
    name: str, size: tuple[float, float], lang: str
) -> None:
    session = carried_through(name)
    pdf = PdfReader(io.BytesIO(record_pdf(session.state, session.journal.events())))
    width, height = (float(one) / MM for one in pdf.pages[0].mediabox[2:])
    assert (width, height) == pytest.approx(size, abs=0.2)
    assert pdf.metadata is not None
    assert pdf.metadata.title == f"Record: {session.state.graph.title}"
    assert str(pdf.root_object["/Lang"]) == lang
    pages = {
        str(one.title): pdf.get_destination_page_number(one) or 0 for one in _flat(pdf.outline)
    }
    assert next(title for title, page in pages.items() if page == 0) == "The job"
    assert pages["Detail"] == 1
    assert pages["How to verify this record"] == max(pages.values())
    first = pdf.pages[0].extract_text()
    assert "Done by" in first
    assert f"Page 1 of {len(pdf.pages)}" in first


def _flat(outline: object) -> list[Destination]:
    """Every bookmark, with those beneath it."""
    if isinstance(outline, Destination):
        return [outline]
    assert isinstance(outline, list)
    return [one for part in outline for one in _flat(part)]


def test_nothing_on_a_page_is_cut_off(tmp_path: Path) -> None:
    """Every text is between the margins, by its own width."""
    session = with_a_photo(tmp_path)
    ruler = FPDF(unit="pt")
    ruler.core_fonts_encoding = ENCODING
    data = (
        record_pdf(one.state, one.journal.events()) for one in (session, carried_through("demo"))
    )
    seen = count()
    for page in (page for made in data for page in PdfReader(io.BytesIO(made)).pages):
        right, top = (float(one) for one in page.mediabox[2:])

        def look(
            text: str,
            cm: list[float],
            tm: list[float],
            font: dict[str, str] | None,
            size: float,
            right: float = right,
            top: float = top,
        ) -> None:
            if not text.strip() or font is None:
                return
            bold = "B" if "Bold" in font["/BaseFont"] else ""
            family = "courier" if "Courier" in font["/BaseFont"] else "helvetica"
            ruler.set_font(family, bold, size)
            longest = max(text.split("\n"), key=len).strip()
            assert tm[4] >= MARGIN * MM - 1, text
            assert tm[4] + ruler.get_string_width(plain(longest)) <= right - MARGIN * MM + 4, text
            assert 8 * MM < tm[5] < top - MARGIN * MM, text
            next(seen)

        page.extract_text(visitor_text=look)
    assert next(seen) > 100


def test_letters_that_a_pdf_cannot_print_are_said(tmp_path: Path) -> None:
    session = with_a_photo(tmp_path)
    text = PdfReader(io.BytesIO(record_pdf(session.state, session.journal.events()))).pages[0]
    assert "Lukasz O. ?" in text.extract_text()
    assert "cannot print" in text.extract_text()
    plain_one = carried_through("demo")
    made = record_pdf(plain_one.state, plain_one.journal.events())
    assert "cannot print" not in PdfReader(io.BytesIO(made)).pages[0].extract_text()
    assert made == record_pdf(plain_one.state, plain_one.journal.events())
