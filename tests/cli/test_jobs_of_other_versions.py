"""Each verb that opens a job leaves one of another version as it is, and says so in one sentence."""

from pathlib import Path

import pytest

from tests.cli.test_exit_status import Printed, called
from tests.run.other_versions import OTHERS, folder_of

VERBS = (
    ("run", "--resume", "RUN", "--plain"),
    ("record", "RUN"),
    ("record", "RUN", "--format", "csv", "-o", "record.csv"),
    ("record", "--verify", "RUN"),
    ("template", "RUN", "-o", "template.pdf"),
)


@pytest.mark.parametrize("verb", VERBS, ids=" ".join)
@pytest.mark.parametrize("said", OTHERS)
def test_a_job_of_another_version_is_named_and_not_touched(
    capsys: Printed,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    verb: tuple[str, ...],
    said: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    path = OTHERS[said]()
    before = folder_of(path)
    for name in (path.stem, str(path)):
        words = [name if word == "RUN" else word for word in verb]
        status, out, err = called(capsys, *words)
        assert (status, out) == (3, "")
        assert err.startswith(f"hingeside: The job {path.stem} was made by ")
        assert said in err
        assert err.endswith("nothing was changed; open it with that version.\n")
        assert err.count("\n") == 1
    assert folder_of(path) == before
    assert list(tmp_path.iterdir()) == []
