"""Facts, givens and answers that nothing goes by; ends that say the wrong thing of the job."""

from pathlib import Path

from guide.checker.check import check

SHARED = """\
facts:
  fire: {yesno: {}, ask: Is it a fire door?}
  way_out: {yesno: {}, ask: Is it a way out?}
"""
ROOT = """\
procedure: office-door
title: The office's door
facts_in: [shared.yaml]
steps:
  - ask: {id: fire-door, fact: fire}
  - do: {id: label, when: {fire: yes}, text: Read the label.}
  - end: {id: done, outcome: finished}
"""


def found(folder: Path, root: str, **others: str) -> list[tuple[str, str]]:
    for name, text in {"office_door": root, **others}.items():
        (folder / f"{name.replace('_', '-')}.yaml").write_text(text)
    report = check(folder / "office-door.yaml")
    return [(finding.code, Path(finding.file).name) for finding in report.findings]


def test_a_shared_fact_that_no_file_of_the_folder_uses(tmp_path: Path) -> None:
    assert found(tmp_path, ROOT, shared=SHARED) == [("fact-unused", "shared.yaml")]


def test_a_shared_fact_that_another_procedure_of_the_folder_uses(tmp_path: Path) -> None:
    other = ROOT.replace("office-door", "hall-door").replace("fire", "way_out")
    assert found(tmp_path, ROOT, shared=SHARED, hall_door=other) == []


def test_a_file_of_facts_by_itself_is_not_blamed_for_what_nobody_gathers_yet(
    tmp_path: Path,
) -> None:
    (tmp_path / "shared.yaml").write_text(SHARED)
    assert check(tmp_path / "shared.yaml").findings == []


def test_a_fact_used_by_a_computation_alone_is_used(tmp_path: Path) -> None:
    root = """\
procedure: office-door
title: The office's door
facts:
  width: {length: {from: 24 in, to: 48 in, step: 1/16 in}, ask: How wide is the leaf?}
  mark: {worked: chord, using: {width: width, angle: "= 12 deg"}}
steps:
  - ask: {id: how-wide, fact: width}
  - work: {id: the-mark, fact: mark}
  - end: {id: done, outcome: finished}
"""
    assert found(tmp_path, root) == []


def test_what_an_included_part_uses_may_be_given(tmp_path: Path) -> None:
    outer = """\
procedure: office-door
title: The office's door
counts_on: [fire]
facts_in: [shared.yaml]
steps:
  - include: {id: tonight, file: tonight.yaml}
"""
    inner = """\
procedure: tonight
title: What stays tonight
counts_on: [fire]
facts_in: [shared.yaml]
steps:
  - do: {id: label, when: {fire: yes}, text: It must close by itself tonight.}
"""
    shared = "facts:\n  fire: {yesno: {}, ask: Is it a fire door?}\n"
    assert found(tmp_path, outer, shared=shared, tonight=inner) == []
    lost = inner.replace("when: {fire: yes}, ", "")
    assert found(tmp_path, outer, shared=shared, tonight=lost) == [
        ("counts-on-unused", "office-door.yaml"),
        ("counts-on-unused", "tonight.yaml"),
    ]


def test_a_question_whose_when_was_lost(tmp_path: Path) -> None:
    shared = "facts:\n  fire: {yesno: {}, ask: Is it a fire door?}\n"
    lost = ROOT.replace("when: {fire: yes}, ", "")
    assert found(tmp_path, lost, shared=shared) == [("answer-unused", "office-door.yaml")]


END = """\
procedure: office-door
title: The office's door
facts:
  fits: {{yesno: {{}}, ask: Does the closer fit?}}
steps:
  - ask: {{id: fits-it, fact: fits}}
  - end: {{id: not-this, when: {{fits: no}}, outcome: finished, text: {text}}}
  - end: {{id: done, outcome: finished}}
"""


def test_words_that_refuse_and_an_outcome_that_does_not(tmp_path: Path) -> None:
    refusing = [("finished-refusing", "office-door.yaml")]
    assert found(tmp_path, END.format(text="Drill nothing. Ask for another closer.")) == refusing
    assert found(tmp_path, END.format(text="Do not fit it.")) == refusing
    assert found(tmp_path, END.format(text="It fits on the old holes.")) == []
    on = "Turn nothing., leads_to: replace-a-closer"
    assert found(tmp_path, END.format(text=on)) == []
