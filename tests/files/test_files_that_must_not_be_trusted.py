"""Files that no trainer meant to write: each is told in one clear sentence, and nothing breaks."""

import json
import os
from pathlib import Path

import pytest

from guide.cli.main import main
from guide.files.findings import Finding
from guide.procedure.compiler import compile_procedure
from guide.procedure.load import load
from tests.procedure.sample_procedure import CLOSET_DOOR, compiled, findings

HEAD = "procedure: closet-door\ntitle: A closer on a closet door\n"


def found_in(path: Path) -> list[Finding]:
    return compile_procedure(load(path))[1]


def written(folder: Path, data: bytes) -> Path:
    path = folder / "closet-door.yaml"
    path.write_bytes(data)
    return path


NOT_A_PROCEDURE = {
    "empty": (b"", "empty", (1, 1)),
    "only comments": (b"# How to hang a door closer\n", "empty", (1, 1)),
    "only a document mark": (b"---\n", "empty", (1, 1)),
    "binary": (b"\x89PNG\r\n\x1a\n\xff\xfe", "not-text", (1, 1)),
    "not UTF-8, on the second line": (b"procedure: a\ntitle: T\xfcr\n", "not-text", (2, 1)),
    "a NUL": (b"procedure: a\ntitle: \x00\n", "not-text", (2, 8)),
    "UTF-16": ("procedure: closet-door\n".encode("utf-16"), "not-text", (1, 1)),
    "UTF-16 without its mark": ("procedure: a\n".encode("utf-16-le"), "not-text", (1, 2)),
    "a text": (b"Hang the closer.\n", "shape", (1, 1)),
    "a list": (b"- ask: {id: how-wide, fact: width}\n", "shape", (1, 1)),
    "two documents": (HEAD.encode() + b"---\nprocedure: b\n", "yaml-syntax", (4, 1)),
    "indented with tabs": (HEAD.encode() + b"steps:\n\t- do: {id: a}\n", "yaml-syntax", (4, 1)),
    "a brace left open": (HEAD.encode() + b"facts: {width: {\n", "yaml-syntax", (4, 1)),
    "lists in lists without end": (
        HEAD.encode() + b"steps: " + b"[" * 10_000,
        "too-deep",
        (3, None),
    ),
    "ten thousand levels": (
        HEAD.encode() + b"steps: " + b"[" * 10_000 + b"]" * 10_000,
        "too-deep",
        (3, None),
    ),
    "ten thousand levels of block lists": (
        HEAD.encode() + b"steps:\n  " + b"- " * 10_000,
        "too-deep",
        (4, None),
    ),
    "a thousand levels of mappings": (
        b"".join(b" " * n + b"steps:\n" for n in range(1000)),
        "too-deep",
        (60, None),
    ),
    "a list of nearly a million": (
        HEAD.encode() + b"steps: [" + b"a," * 900_000 + b"]",
        "too-large",
        (3, 8),
    ),
    "lists of lists, many": (
        HEAD.encode() + b"steps:\n" + (b"  - [" + b"a," * 19_000 + b"]\n") * 20,
        "too-large",
        (11, None),
    ),
    "more than two megabytes": (b"# long\n" * 400_000, "too-large", (1, 1)),
}


@pytest.mark.parametrize("name", NOT_A_PROCEDURE)
def test_what_is_no_procedure_is_told_in_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    data, code, (line, column) = NOT_A_PROCEDURE[name]
    path = written(tmp_path, data)
    assert main(["check", str(path), "--json"]) == 1
    out, err = capsys.readouterr()
    assert err == ""
    (one,) = json.loads(out)["findings"]
    assert (one["code"], one["line"]) == (code, line), one
    if column is not None:
        assert one["column"] == column, one
    assert len(one["message"]) < 300
    assert one["message"].endswith(".")


def test_a_brace_left_open_is_told_with_the_line_it_began_on(tmp_path: Path) -> None:
    text = CLOSET_DOOR.replace("which-hand, fact: hand}", "which-hand, fact: hand")
    (one,) = findings(tmp_path, text)
    assert "“{” on line 21 is not closed" in one.message


def test_a_file_that_is_not_there_is_an_unknown_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(tmp_path / "closet-dor.yaml")]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("hingeside: There is no procedure")
    assert len(err.splitlines()) == 1


def test_the_other_files_are_still_checked(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written(tmp_path, b"")
    assert main(["check", "no-such-thing", str(path), "--json"]) == 2
    out = capsys.readouterr().out
    assert json.loads(out)["findings"][0]["code"] == "empty"


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    (one,) = found_in(tmp_path)
    assert one.code == "cannot-read"
    assert "is not a file" in one.message


def test_a_pipe_that_nobody_writes_to_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "closet-door.yaml"
    os.mkfifo(pipe)
    assert [one.code for one in found_in(pipe)] == ["cannot-read"]


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null"])
def test_a_device_is_not_read(device: str) -> None:
    assert [one.code for one in found_in(Path(device))] == ["cannot-read"]


def test_a_link_in_a_circle_is_no_file(tmp_path: Path) -> None:
    link = tmp_path / "closet-door.yaml"
    link.symlink_to(link)
    assert [one.code for one in found_in(link)] == ["cannot-read"]


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000])
def test_a_name_no_file_can_have_is_no_file(name: str) -> None:
    assert [one.code for one in found_in(Path(name))] == ["cannot-read"]


def test_a_mark_at_the_beginning_and_line_ends_of_other_systems_are_accepted(
    tmp_path: Path,
) -> None:
    assert found_in(written(tmp_path, b"\xef\xbb\xbf" + CLOSET_DOOR.encode())) == []
    assert found_in(written(tmp_path, CLOSET_DOOR.replace("\n", "\r\n").encode())) == []
    assert found_in(written(tmp_path, CLOSET_DOOR.replace("\n", "\r").encode())) == []


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_line_is_counted_and_shown_whatever_ends_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], end: str
) -> None:
    text = CLOSET_DOOR.replace("minutes: 10", "minutes: ten\u200b").replace("\n", end)
    path = written(tmp_path, text.encode())
    assert main(["check", str(path)]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert "closet-door.yaml:42:19: error [control-character]" in lines[0]
    assert lines[1] == "          minutes: ten�"
    assert lines[2].index("^") == lines[1].index("�")


def test_a_bomb_of_repeats_is_not_expanded(tmp_path: Path) -> None:
    lines = ["a0: &a0 [x, x]"]
    lines += [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]" for n in range(1, 30)]
    found = findings(tmp_path, "\n".join(lines))
    assert {one.code for one in found} <= {"alias", "key-unknown", "key-missing", "too-many"}
    assert len(found) <= 101


def test_a_tag_makes_nothing(tmp_path: Path) -> None:
    made = tmp_path / "made"
    tag = f'!!python/object/apply:os.mkdir ["{made}"]'
    found = findings(tmp_path, CLOSET_DOOR.replace("tools: [drill]", f"tools: {tag}"))
    assert [one.code for one in found] == ["tag"]
    assert not made.exists()


@pytest.mark.parametrize("key", ["1", "null", "~", "true", "'width of leaf'"])
def test_a_key_is_the_text_it_was_written_as(tmp_path: Path, key: str) -> None:
    text = CLOSET_DOOR.replace("minutes: 10", f"{key}: 10")
    (one,) = findings(tmp_path, text)
    assert one.code == "key-unknown"
    assert key.strip("'") in one.message


@pytest.mark.parametrize(
    "written_as", ["no", "yes", "12:30", "010", "1e3", "~", "null", "0x1F", ".5"]
)
def test_a_text_stays_what_was_written(tmp_path: Path, written_as: str) -> None:
    text = CLOSET_DOOR.replace("text: Turn the sweep valve.", f"text: {written_as}")
    graph, found = compiled(tmp_path, text)
    assert found == []
    assert graph is not None
    index = graph.index_of("turn-valve")
    assert index is not None
    assert graph.nodes[index].body["text"] == written_as


def test_nothing_in_a_file_reaches_the_terminal_as_a_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = CLOSET_DOOR.replace("minutes: 10", '"min\\e[2Jutes\\nx": \u202e10\x1b[2J')
    path = written(tmp_path, text.encode())
    assert main(["check", str(path)]) == 1
    out = capsys.readouterr().out
    assert "\x1b" not in out
    assert "\u202e" not in out


def test_a_long_key_is_quoted_by_its_beginning(tmp_path: Path) -> None:
    (one,) = findings(
        tmp_path, CLOSET_DOOR.replace("minutes: 10", "? " + "m" * 5000 + "\n      : 10")
    )
    assert one.code == "key-unknown"
    assert len(one.message) < 300


def test_half_a_character_from_an_editor_is_told(tmp_path: Path) -> None:
    text = CLOSET_DOOR.replace("Turn the sweep valve.", "Turn the \ud800 valve.")
    _, found = compile_procedure(load(tmp_path / "closet-door.yaml", text))
    assert [one.code for one in found] == ["control-character"]


def test_thousands_of_misspelt_facts_are_no_long_wait(tmp_path: Path) -> None:
    facts = "".join(f"  leaf_{n}: {{yesno: {{}}, ask: Is leaf {n} hung?}}\n" for n in range(300))
    asks = "".join(f"  - ask: {{id: ask-{n}, fact: lefa_{n}}}\n" for n in range(10_000))
    found = findings(tmp_path, f"{HEAD}facts:\n{facts}steps:\n{asks}")
    assert len(found) == 101
