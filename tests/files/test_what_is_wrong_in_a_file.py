"""Every fault a trainer can make in one file: its place, its code, its words, and the file without it."""

from pathlib import Path
from typing import NamedTuple

import pytest

from tests.procedure.sample_procedure import CLOSET_DOOR, findings

SPOT = "§"
"""Stands in a faulty text where the finding must point."""


class Fault(NamedTuple):
    code: str
    right: str
    """What stands in the whole procedure."""
    wrong: str
    """What a trainer wrote in its place."""
    says: str
    """What the message must hold: the name that is wrong, or the way out."""


WIDTH = "length: {from: 24 in, to: 48 in, step: 1/16 in, usual: 30 in to 42 in}"
SIZE = 'size: {worked: spring-size, using: {width: width, fire: fire, mount: "= regular"}}'
CHECK = 'limit: ">= 5 s", otherwise: {go: tune}'
LEFT = "when: {hand: lh}"
UNTIL = "until: {sweep: 5 s to 7 s}"
DRILL = 'text: "Drill for the {width} leaf."'

READING = [
    Fault("duplicate-key", "edition: 2", "edition: 2\n§edition: 3", "“edition” is written twice"),
    Fault("alias", "tools: [drill]", "tools: §&kit [drill]", "“&kit”"),
    Fault("alias", "tools: [drill]", "tools: [§*kit]", "“*kit”"),
    Fault("alias", "minutes: 10", "minutes: 10\n      §<<: {card: Body}", "merge key"),
    Fault("tag", "minutes: 10", "minutes: §!!int 10", "tag:yaml.org,2002:int"),
    Fault("key-wrong", "minutes: 10", "minutes: 10\n      ? §[a, b]\n      : c", "must be a word"),
    Fault("control-character", "id: drill\n", "id: drill§\u200b\n", "U+200B"),
    Fault("control-character", "Left hand", "Left §\u202ehand", "U+202E"),
    Fault("control-character", "tools: [drill]", 'tools: [§"dr\\u0007ill"]', "U+0007"),
]

SHAPE = [
    Fault("key-unknown", "title:", "§titel:", "did you mean “title”?"),
    Fault("key-unknown", "usual:", "§usuel:", "did you mean “usual”?"),
    Fault("key-unknown", "- ask: {id: how-wide", "- §aks: {id: how-wide", "did you mean “ask”?"),
    Fault(
        "key-unknown",
        "- do: {id: turn-valve",
        "- §glue: {id: turn-valve",
        "known here: do, ask, work",
    ),
    Fault(
        "key-unknown",
        "[{do: {id: mark-left",
        "[{§glue: {id: mark-left",
        "known here: do, ask, work",
    ),
    Fault("key-unknown", "{warning: Wear", "{§warnign: Wear", "did you mean “warning”?"),
    Fault("key-unknown", "minutes: 10", "§colour: red", "known here: id, when, say"),
    Fault("key-unknown", "{lh: Left hand,", "{lh: {label: Left, §sya: left},", "“say”"),
    Fault("key-missing", "title: A closer on a closet door\n", "", "“title” is missing at the top"),
    Fault(
        "key-missing",
        "{id: how-wide, fact: width}",
        "§{id: how-wide}",
        "“fact” is missing in “ask”",
    ),
    Fault(
        "key-missing", "longest: 40}", "longest: 40}, ask: x}\n  mass: {mass: §{from: 1 kg}", "“to”"
    ),
    Fault("shape", "procedure: closet-door", "procedure: §Closet Door", "small letters and digits"),
    Fault("shape", "  hinges:", "  §Hinges:", "“Hinges” is not a name"),
    Fault("shape", "{lh: Left hand,", "{§LH: Left hand,", "“LH” is not a name"),
    Fault("shape", "edition: 2", "edition: §two", "write a whole number"),
    Fault("shape", "edition: 2", "edition: §0", "at least 1"),
    Fault("shape", "at_most: 4", "at_most: §51", "at most 50"),
    Fault("shape", "minutes: 10", "minutes: §ten", "“minutes” is “ten”"),
    Fault("shape", "cuts: true", "cuts: §maybe", "“cuts” is “maybe”; write yes or no"),
    Fault("shape", "unsure: true", "unsure: §perhaps", "write yes or no"),
    Fault("shape", "longest: 40", "longest: §0", "at least 1"),
    Fault(
        "shape",
        "outcome: finished",
        "outcome: §done",
        "finished, left-to-do, not-started, made-safe or found",
    ),
    Fault(
        "hazard-unknown", "hazards: [drilling]", "hazards: [§heights]", "drilling, ladder, spring"
    ),
    Fault("shape", "tools: [drill]", "tools: §drill", "“tools” must be a list"),
    Fault("shape", "tools: [drill]", "tools: [§[drill]]", "An entry of “tools”"),
    Fault(
        "shape",
        "id: turn-valve, text: Turn the sweep valve.",
        "id: turn-valve, text: §[a]",
        "“text”",
    ),
    Fault(
        "shape",
        "id: turn-valve, text: Turn the sweep valve.",
        'id: turn-valve, text: §""',
        "is empty",
    ),
    Fault("shape", "about: A short job", "about: §" + "so " * 700, "too long; at most 2000"),
    Fault("shape", LEFT, "when: §lh", "“when” must be a mapping"),
    Fault("shape", 'limit: ">= 5 s"', "limit: §{at least: 5 s}", "“limit” must be a line of text"),
    Fault("shape", "otherwise: {go: tune}", "otherwise: §{}", "needs steps, or go, or both"),
    Fault(
        "shape", "caution: {warning: Wear eye protection.}", "caution: §Wear goggles.", "“caution”"
    ),
    Fault("shape", "caution: {warning: Wear eye protection.}", "caution: §{}", "signal word"),
    Fault("shape", "reads_back: [hand, width]", "reads_back: §[]", "at least 1"),
    Fault("shape", "- ask: {id: how-wide, fact: width}", "- §mark the leaf", "An entry of “steps”"),
    Fault("shape", "choice: {lh: Left hand, rh: Right hand}", "choice: §{lh: Left}", "at least 2"),
    Fault("shape", "hinges: {count: {from: 2, to: 4},", "hinges: §{", "found none"),
    Fault(
        "shape",
        "label: {text: {longest: 40}",
        "label: §{yesno: {}, text: {longest: 40}",
        "yesno and text",
    ),
    Fault("shape", "fire: {yesno:", "fire: §{using: {a: b}, yesno:", "belong to a worked fact"),
    Fault("shape", SIZE, "size: §{worked: spring-size, ask: Which?}", "a worked fact is computed"),
    Fault("shape", ", ask: How many butt hinges carry the leaf?", "", "“ask” is missing"),
    Fault(
        "shape",
        "- ask: {id: how-wide, fact: width}",
        "- §{ask: {id: how-wide, fact: width}, end: {id: x, outcome: finished}}",
        "found ask and end",
    ),
]

NAMES = [
    Fault("id-twice", "id: how-many", "id: §how-wide", "already used on line 23"),
    Fault("id-twice", "id: other\n", "id: §left\n", "“by-hand/left”"),
    Fault("name-reserved", "id: drill\n", "id: §counts-on\n", "choose another id"),
    Fault("name-reserved", "{id: done,", "{id: §end-of-part,", "choose another id"),
    Fault(
        "name-reserved", "longest: 40}", "longest: 40}, ask: x}\n  §known: {yesno: {}", "rename it"
    ),
    Fault("name-reserved", "rh: Right hand", "rh: Right hand, §unsure: Not sure", "unsure: true"),
    Fault("fact-unknown", "id: how-wide, fact: width", "id: how-wide, fact: §widht", "“width”"),
    Fault("fact-unknown", DRILL, 'text: §"Drill for {wdith}."', "did you mean “width”?"),
    Fault(
        "fact-unknown",
        "{warning: Wear eye protection.}",
        '{warning: §"The leaf is {weight}."}',
        "“weight”",
    ),
    Fault("fact-unknown", "reads_back: [hand, width]", "reads_back: [hand, §door]", "“door”"),
    Fault("fact-unknown", "cuts: true", "cuts: true\n      reads: [§heigth]", "“heigth”"),
    Fault("fact-unknown", LEFT, "when: {hnad: §lh}", "did you mean “hand”?"),
    Fault("fact-unknown", LEFT, "when: {known: §hnad}", "did you mean “hand”?"),
    Fault(
        "fact-unknown", "using: {width: width,", "using: {width: §widht,", "did you mean “width”?"
    ),
    Fault("fact-unknown", CHECK, 'limit: §">= seep", otherwise: {go: tune}', "“sweep”"),
    Fault("block-unknown", "{go: tune}", "{go: §tuen}", "did you mean “tune”?"),
    Fault("block-unknown", "{go: tune}", "{go: §by-hand/left}", "did you mean “by-hand”?"),
    Fault("label-unknown", LEFT, "when: {hand: §left}", "its answers are lh, rh, unsure"),
    Fault("label-unknown", "[rh, unsure]", "[rh, §unsur]", "did you mean “unsure”?"),
    Fault("label-unknown", "when: {fire: yes}", "when: {fire: §unsure}", "its answers are yes, no"),
    Fault("computation-unknown", "worked: spring-size", "worked: §spring-sise", "spring-size"),
    Fault(
        "word-twice", "rh: Right hand", "§rh: {label: Right hand, also: [LH]}", "both “lh” and “rh”"
    ),
    Fault("brace-stray", DRILL, 'text: §"Drill {width for the leaf."', "write “{{”"),
    Fault("brace-stray", DRILL, 'text: §"Drill {The width}."', "not a fact's name"),
    Fault("brace-stray", "tools: [drill]", 'tools: [§"{width} drill"]', "not filled in here"),
    Fault(
        "brace-stray", "say: How wide?", 'say: §"How wide, {hand}?"', "write the words themselves"
    ),
    Fault("find-out-missing", "    find_out: See the knuckles.\n", "", "add find_out"),
    Fault("no-end", "  - end: {id: done, outcome: finished}\n", "", "finish every way"),
    Fault(
        "fact-circle",
        "  size:",
        '  §swing: {worked: chord, using: {width: swing, angle: "= 90 deg"}}\n  size:',
        "computed from itself",
    ),
]

TYPES = [
    Fault("unit-wrong", "from: 24 in", "from: §24 lb", "length"),
    Fault("unit-wrong", "from: 24 in", "from: §24", "write “24 in” or “24 mm”"),
    Fault("unit-wrong", "step: 1/16 in", "step: §a sixteenth", "no number"),
    Fault("unit-wrong", "usual: 30 in to 42 in", "usual: §30 to 42", "has no unit"),
    Fault("unit-wrong", "usual: 30 in to 42 in", "usual: §42 in to 30 in", "greater measure first"),
    Fault("unit-wrong", UNTIL, "until: {sweep: §5 in to 7 in}", "time"),
    Fault("unit-wrong", UNTIL, "until: {sweep: §5 to 7}", "has no unit"),
    Fault(
        "unit-wrong", LEFT, 'when: {width: §"> 36"}', "“36” has no unit; write “36 in” or “36 mm”"
    ),
    Fault("unit-wrong", 'limit: ">= 5 s"', 'limit: §">= 5 deg"', "time"),
    Fault("unit-wrong", 'limit: ">= 5 s"', 'limit: §">= width"', "cannot be compared"),
    Fault(
        "unit-wrong",
        "time: {id: time-it, fact: sweep}",
        "time: {id: time-it, fact: §width}",
        "not a time",
    ),
    Fault("range-wrong", "from: 24 in, to: 48 in", "from: 48 in, to: 24 in", "swap from and to"),
    Fault("range-wrong", "{from: 2, to: 4}", "§{from: 4, to: 2}", "swap from and to"),
    Fault("range-wrong", "{from: 2, to: 4}", "§{from: 4, to: 4}", "has one value"),
    Fault("range-wrong", "from: 24 in, to: 48 in", "from: 48 in, to: 48 in", "has one value"),
    Fault("range-wrong", "step: 1/16 in", "step: §0 in", "more than nothing"),
    Fault("range-wrong", "usual: 30 in to 42 in", "usual: §30 in to 60 in", "narrow it"),
    Fault("comparison-wrong", LEFT, 'when: {hand: §"> 3"}', "write one of lh, rh, unsure"),
    Fault("comparison-wrong", LEFT, "when: {width: §wide}", "does not compare"),
    Fault("comparison-wrong", LEFT, "when: {width: [§wide]}", "has no labels"),
    Fault("comparison-wrong", LEFT, "when: {hinges: §4 to 2}", "smaller number first"),
    Fault("comparison-wrong", LEFT, 'when: {hinges: §"> 2 in"}', "“> 2” or “1 to 3”"),
    Fault("comparison-wrong", LEFT, 'when: {label: §"> 3"}', "cannot be compared"),
    Fault("condition-wrong", LEFT, "when: §{}", "A condition is a mapping"),
    Fault("condition-wrong", LEFT, "when: {hand: §{lh: rh}}", "a label, a list of labels"),
    Fault("condition-wrong", LEFT, "when: {hand: §[]}", "empty"),
    Fault("condition-wrong", LEFT, "when: {any: §{hand: lh}}", "needs a list of conditions"),
    Fault("condition-wrong", LEFT, "when: {not: §lh}", "A condition is a mapping"),
    Fault("condition-wrong", LEFT, "when: {known: §[hand]}", "the name of one fact"),
    Fault("fact-worked", "id: how-wide, fact: width", "id: how-wide, fact: §size", "work block"),
    Fault("fact-asked", "{id: spring, fact: size,", "{id: spring, fact: §width,", "use ask"),
    Fault("part-wrong", SIZE, "size: §{worked: handing}", "name one with part"),
    Fault("part-wrong", "worked: spring-size", "part: §din, worked: spring-size", "take part out"),
    Fault(
        "input-wrong",
        "using: {width: width,",
        "using: {width: width, §wind: fire,",
        "no input “wind”",
    ),
    Fault("input-wrong", "using: {width: width,", "using: {width: §hand,", "“hand” is a choice"),
    Fault("input-wrong", "fire: fire,", "fire: §hand,", "can also be lh, rh"),
    Fault("input-wrong", '"= regular"', '§"= sideways"', "regular, top-jamb, parallel"),
    Fault("input-wrong", "using: {width: width,", 'using: {width: §"= 900",', "has no unit"),
    Fault("input-wrong", "using: {width: width,", 'using: {width: §"= 40 ft",', "outside"),
    Fault(
        "input-wrong", "using: {width: width,", "using: {width: width, §sheet: fire,", "by itself"
    ),
    Fault(
        "input-wrong", SIZE, "size: §{worked: spring-size, using: {fire: fire}}", "also needs width"
    ),
    Fault(
        "input-wrong",
        "say: How wide?",
        "sheet: §{computation: chord, using: {width: width}}",
        "also needs angle",
    ),
    Fault(
        "computation-unknown",
        "say: How wide?",
        "sheet: {computation: §sheet-body-alogn}",
        "sheet-body-along",
    ),
]


def placed(fault: Fault) -> tuple[str, tuple[int, int] | None]:
    """The faulty file, and the line and column its finding must name."""
    assert CLOSET_DOOR.count(fault.right) == 1, f"“{fault.right}” must name one place"
    text = CLOSET_DOOR.replace(fault.right, fault.wrong)
    if SPOT not in text:
        return text, None
    before = text[: text.index(SPOT)]
    return text.replace(SPOT, ""), (before.count("\n") + 1, len(before) - before.rfind("\n"))


def test_the_whole_procedure_is_without_a_fault(tmp_path: Path) -> None:
    assert findings(tmp_path, CLOSET_DOOR) == []


@pytest.mark.parametrize(
    "fault", [*READING, *SHAPE, *NAMES, *TYPES], ids=lambda f: f"{f.code}: {f.wrong[:40]}"
)
def test_a_fault_is_told_once_in_its_place_with_a_way_out(tmp_path: Path, fault: Fault) -> None:
    text, place = placed(fault)
    found = findings(tmp_path, text)
    assert [one.code for one in found] == [fault.code], found
    if place is not None:
        assert (found[0].line, found[0].column) == place, found
    assert fault.says in found[0].message, found
    assert found[0].file.endswith("closet-door.yaml")
    assert found[0].message[-1] in ".?"
    assert found[0].message.isprintable()


def test_only_what_can_be_lived_with_is_a_warning(tmp_path: Path) -> None:
    for fault in [*READING, *SHAPE, *NAMES, *TYPES]:
        levels = {one.level for one in findings(tmp_path, placed(fault)[0])}
        assert levels == ({"warning"} if fault.code == "find-out-missing" else {"error"}), fault


def with_all(*faults: Fault) -> str:
    text = CLOSET_DOOR
    for fault in faults:
        text = text.replace(fault.right, fault.wrong)
    return text.replace(SPOT, "")


def codes(folder: Path, text: str) -> list[str]:
    return sorted(one.code for one in findings(folder, text))


def test_six_faults_of_names_and_types_are_told_at_once(tmp_path: Path) -> None:
    text = with_all(
        Fault("unit-wrong", "from: 24 in", "from: 24", ""),
        Fault("computation-unknown", "worked: spring-size", "worked: spring-sise", ""),
        Fault("fact-unknown", "id: how-many, fact: hinges", "id: how-many, fact: hinge", ""),
        Fault("label-unknown", LEFT, "when: {hand: left}", ""),
        Fault("brace-stray", DRILL, 'text: "Drill {here."', ""),
        Fault("block-unknown", "{go: tune}", "{go: tuen}", ""),
    )
    assert codes(tmp_path, text) == [
        "block-unknown",
        "brace-stray",
        "computation-unknown",
        "fact-unknown",
        "label-unknown",
        "unit-wrong",
    ]


def test_six_faults_of_reading_and_shape_are_told_at_once(tmp_path: Path) -> None:
    text = with_all(
        Fault("duplicate-key", "edition: 2", "edition: 2\nedition: 3", ""),
        Fault("tag", "minutes: 10", "minutes: !!int 10", ""),
        Fault("control-character", "Left hand", "Left \u202ehand", ""),
        Fault("key-unknown", "usual:", "usuel:", ""),
        Fault("key-missing", "{id: how-wide, fact: width}", "{id: how-wide}", ""),
        Fault("shape", "at_most: 4", "at_most: four", ""),
    )
    assert codes(tmp_path, text) == [
        "control-character",
        "duplicate-key",
        "key-missing",
        "key-unknown",
        "shape",
        "tag",
    ]


def test_every_fault_of_one_condition_is_told(tmp_path: Path) -> None:
    wrong = 'when: {hnad: lh, any: [{width: "> 36"}, {fire: perhaps}], not: {hinges: many}}'
    text = CLOSET_DOOR.replace(LEFT, wrong)
    assert codes(tmp_path, text) == [
        "comparison-wrong",
        "fact-unknown",
        "label-unknown",
        "unit-wrong",
    ]


def test_an_unknown_computation_is_not_held_against_what_reads_its_fact(tmp_path: Path) -> None:
    text = with_all(
        Fault("", "worked: spring-size", "worked: spring-sise", ""),
        Fault("", LEFT, 'when: {size: "> 3"}', ""),
    )
    assert codes(tmp_path, text) == ["computation-unknown"]


def test_after_a_hundred_faults_a_file_is_told_to_begin_with_those(tmp_path: Path) -> None:
    asks = "".join(f"  - ask: {{id: ask-{n}, fact: leaf_{n}}}\n" for n in range(1000))
    found = findings(tmp_path, CLOSET_DOOR.replace("\nsteps:\n", f"\nsteps:\n{asks}"))
    assert len(found) == 101
    assert "fix them and check again" in next(f.message for f in found if f.code == "too-many")


def test_a_fact_named_like_a_key_of_facts_is_helped_as_any_other(tmp_path: Path) -> None:
    text = CLOSET_DOOR.replace("  hinges:", "  time: {count: {form: 1, to: 2}, ask: x}\n  hinges:")
    found = findings(tmp_path, text)
    assert ("key-unknown", "The key “form” is not known; did you mean “from”?") in [
        (one.code, one.message) for one in found
    ]
