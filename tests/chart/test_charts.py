"""Charts: every block and every way of a procedure, in each form, whatever the texts hold."""

import json
import re
import xml.etree.ElementTree as Xml
from pathlib import Path

import pytest

from guide.chart import WRITERS, Picture, picture_of
from guide.cli.main import main
from guide.files.library import catalogue, find
from guide.procedure.compiler import compile_procedure
from guide.procedure.load import load

SPITE = """a "quoted" <b>text</b> & [more] {{x}} #35; `code` |pipe| \\\\N; --> n0 end"""
LIBRARY = f"""\
procedure: library
title: 'The library\\'s "stack" door'
facts:
  fire: {{yesno: {{}}, ask: '{SPITE}'}}
  sweep: {{time: {{from: 1 s, to: 30 s, step: 0.1 s}}, ask: How long?}}
steps:
  - ask: {{id: fire-door, fact: fire}}
  - do: {{id: label, when: {{fire: yes}}, text: '{SPITE}'}}
  - hold: {{id: before-drilling, reads_back: [fire]}}
  - do: {{id: drill, cuts: yes, hazards: [drilling], reads: [fire], text: Drill the leaf.}}
  - repeat:
      id: tune
      steps: [{{time: {{id: time-it, fact: sweep}}}}]
      until: {{sweep: 5 s to 7 s}}
      at_most: 4
      otherwise: {{steps: [{{do: {{id: look, text: Look for a leak.}}}}]}}
  - check: {{id: slow, fact: sweep, limit: ">= 5 s", otherwise: {{go: tune}}}}
  - end: {{id: done, outcome: finished}}
""".replace("\\'", "''")
SHIPPED = [entry.name for entry in catalogue("procedure") if not entry.own]
PROCEDURES = [name for name in SHIPPED if name != "closer-facts"]


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """A procedure with a text of every character that means something in some form of chart."""
    path = tmp_path / "library.yaml"
    path.write_text(LIBRARY)
    return path


def drawn(path: Path) -> Picture:
    graph, findings = compile_procedure(load(path))
    assert findings == []
    assert graph is not None
    return picture_of(graph)


def test_a_picture_has_every_block_and_leads_jumps_to_their_block(library: Path) -> None:
    picture = drawn(library)
    names = {box.index: box.name for box in picture.boxes}
    assert list(names.values()) == [
        "fire-door",
        "label?",
        "label",
        "before-drilling",
        "drill",
        "time-it",
        "tune",
        "look",
        "slow",
        "done",
    ]
    ways = {(names[a.source], names[a.target]): a.label for a in picture.arrows}
    assert ways["label?", "label"] == "yes"
    assert ways["tune", "time-it"] == "again, at most 4 times"
    assert ways["tune", "slow"] == "holds"
    assert ways["slow", "time-it"] == "not met"
    assert [box.name for box in picture.boxes if box.cuts] == ["drill"]
    texts = {box.name: box.text for box in picture.boxes}
    assert texts["tune"] == "until sweep 5 s to 7 s"
    assert texts["before-drilling"] == "read back fire"


LINE = re.compile(
    r"flowchart TD|---|title: \"[^\"]*\"|subgraph g\d+_\d+\[\"[^\"]*\"\]|end"
    r"|n\d+ (-->|-\.->)(\|\"[^\"|]*\"\|)? n\d+"
    r"|n\d+(\[|\[/|\[\[|\{\{|\(\[|\{)\"[^\"]*\"(\]|/\]|\]\]|\}\}|\]\)|\})"
    r"|classDef cuts stroke-width:4px|class n\d+(,n\d+)* cuts"
)


@pytest.mark.parametrize("name", PROCEDURES)
def test_every_line_of_a_mermaid_chart_is_of_the_language(name: str) -> None:
    """Flowchart syntax of Mermaid, from memory: nodes, ways, subgraphs, entities written as #number;."""
    for line in WRITERS["mermaid"](drawn(find("procedure", name))).splitlines():
        assert LINE.fullmatch(line.strip()), line


def test_no_text_breaks_out_of_a_mermaid_label(library: Path) -> None:
    text = WRITERS["mermaid"](drawn(library))
    for line in text.splitlines():
        assert LINE.fullmatch(line.strip()), line
    assert "#34;quoted#34;" in text
    labels = re.findall(r'"([^"]*)"', text)
    assert all(
        set(re.sub(r"</?b>|<br/>|#\d+;", "", label)) & set('<>&#`{}[]|"\\') == set()
        for label in labels
    )


def test_no_text_breaks_out_of_a_dot_string(library: Path) -> None:
    """The DOT language, from memory: in a quoted string only a backslash and a quotation mark mean something."""
    text = WRITERS["dot"](drawn(library))
    bare = re.sub(r'"(?:[^"\\]|\\.)*"', '""', text)
    assert set(re.findall(r"[^\w\s]", bare)) <= set('{}[]=;,->"')
    assert bare.count("{") == bare.count("}")
    assert '\\"quoted\\"' in text
    escapes = re.findall(r"\\(.)", text.replace("\\\\", ""))
    assert set(escapes) <= {"n", '"'}


@pytest.mark.parametrize("name", PROCEDURES)
def test_an_svg_chart_is_xml_with_a_box_a_block(name: str) -> None:
    picture = drawn(find("procedure", name))
    root = Xml.fromstring(WRITERS["svg"](picture))
    space = "{http://www.w3.org/2000/svg}"
    assert root.tag == f"{space}svg"
    assert root.findtext(f"{space}title") == picture.title
    boxes = root.findall(f"{space}rect")
    assert len(boxes) == len(picture.boxes)
    width, height = int(root.attrib["width"]), int(root.attrib["height"])
    for box in boxes:
        assert 0 <= int(box.attrib["x"]) <= width - int(box.attrib["width"])
        assert 0 <= int(box.attrib["y"]) <= height - int(box.attrib["height"])
    ways = [path for path in root.findall(f"{space}path") if "marker-end" in path.attrib]
    assert len(ways) == len(set(picture.arrows))


def test_no_text_breaks_out_of_the_xml(library: Path) -> None:
    root = Xml.fromstring(WRITERS["svg"](drawn(library)))
    texts = ["".join(one.itertext()) for one in root.iter("{http://www.w3.org/2000/svg}text")]
    assert any('a "quoted" <b>text</b> & [more]' in text for text in texts)


def test_two_ways_that_share_a_lane_never_share_a_row() -> None:
    text = WRITERS["svg"](drawn(find("procedure", "fit-surface-closer")))
    spans: dict[str, list[tuple[int, int]]] = {}
    for start, x, end in re.findall(r'd="M\d+ (\d+)H(\d+)V(\d+)H\d+"', text):
        low, high = sorted((int(start), int(end)))
        assert all(high < first or last < low for first, last in spans.setdefault(x, []))
        spans[x].append((low, high))
    assert len(spans) > 5


def test_the_verb_prints_a_chart_in_each_form(
    library: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    picture = drawn(library)
    assert main(["chart", str(library)]) == 0
    assert capsys.readouterr().out == WRITERS["mermaid"](picture)
    for form, writer in WRITERS.items():
        assert main(["chart", str(library), "--format", form, "--json"]) == 0
        data = json.loads(capsys.readouterr().out)
        assert data == {"file": str(library), "format": form, "chart": writer(picture)}


@pytest.mark.parametrize(
    ("name", "status", "says"),
    [("closer-facts", 1, "no steps to chart"), ("no-such-file", 2, "no-such-file")],
)
def test_what_has_no_chart_is_told_in_a_sentence(
    capsys: pytest.CaptureFixture[str], name: str, status: int, says: str
) -> None:
    assert main(["chart", name]) == status
    shown = capsys.readouterr()
    assert shown.out == ""
    assert says in shown.err


def test_a_broken_file_has_no_chart(library: Path, capsys: pytest.CaptureFixture[str]) -> None:
    library.write_text(LIBRARY.replace("fact: fire}", "fact: fier}"))
    assert main(["chart", str(library)]) == 1
    shown = capsys.readouterr()
    assert shown.out == ""
    assert "“fire”" in shown.err
