"""A shell completes verbs, options, names of the library, jobs, and inputs with their choices."""

from pathlib import Path

import pytest

from guide.cli.completing import finder_for
from guide.cli.main import VERBS, main
from guide.files.library import runs_folder


def following(line: str) -> set[str]:
    """What the last word of the line can become."""
    finder = finder_for(line, VERBS)
    found: list[str] = []
    words = line.removeprefix("hingeside ")
    while (one := finder.rl_complete(words, len(found))) is not None:
        found.append(one)
    return {one.rstrip().rpartition(" ")[2] for one in found}


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("hingeside reh", {"rehearse"}),
        ("hingeside run --res", {"--resume"}),
        ("hingeside run fit-s", {"fit-surface-closer"}),
        ("hingeside run first-", set()),  # a part that others include
        ("hingeside run fit-surface-closer --sheet generic-", {"generic-a", "generic-b"}),
        ("hingeside practice 0", {f"0{number}" for number in range(1, 10)}),
        ("hingeside work spring-", {"spring-size", "spring-turns"}),
        ("hingeside work spring-size ra", set()),
        ("hingeside work spring-size mount=p", {"mount=parallel"}),
        ("hingeside work spring-size mount=parallel wid", {"width="}),
        ("hingeside settings units=", {"units=inch", "units=metric"}),
        ("hingeside check --explain cut-w", {"cut-without-hold"}),
        ("hingeside handbook word", {"words-of-the-trade"}),
        ("hingeside completion f", {"fish"}),
    ],
)
def test_a_line_is_completed(line: str, wanted: set[str]) -> None:
    found = following(line)
    if line.endswith("practice 0"):
        found = {one[:2] for one in found}
    assert found == wanted


def test_jobs_and_the_files_of_this_folder_are_offered(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    runs_folder().mkdir(parents=True)
    (runs_folder() / "fit-surface-closer-monday.run").write_bytes(b"")
    (tmp_path / "my-procedure.yaml").write_text("procedure: my-procedure", "utf-8")
    monkeypatch.chdir(tmp_path)
    assert following("hingeside record fit") == {"fit-surface-closer-monday"}
    assert following("hingeside check my") == {"my-procedure.yaml"}


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_gets_the_lines_that_set_it_up(
    shell: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["completion", shell]) == 0
    lines = capsys.readouterr().out
    assert "hingeside" in lines
    assert "_ARGCOMPLETE" in lines
