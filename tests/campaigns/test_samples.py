"""A few of the slips and of the spoilt texts that the campaigns beside this file make by the hundred."""

import tempfile
from pathlib import Path

from guide.checker.check import check
from guide.run.replay import replay
from tests.campaigns.fuzz import Lot, given
from tests.campaigns.mutants import made_in, seen_by_checker, seen_by_runs, seen_by_scenarios
from tests.campaigns.slips import HELD_TO, OF_WORDS, SHIPPED, shipped, slips, texts

ROOT = "replace-a-closer.yaml"
"""Small enough for one slip of each kind; the campaign itself breaks the largest, `fit-surface-closer.yaml`."""
SLIPS = slips(seed=3, most=1, root=ROOT)


def test_written_out_again_a_shipped_procedure_is_as_good_as_before(tmp_path: Path) -> None:
    for name, text in texts(shipped(ROOT)).items():
        (tmp_path / name).write_text(text)
    report = check(tmp_path / ROOT, replay=replay)
    assert report.proved
    # The parts of other jobs are not in the folder.
    assert {one.code for one in report.findings} <= {"fact-unused", "next-unknown"}
    assert report.graph is not None
    assert seen_by_scenarios(report.graph, ROOT) == ""


def test_the_checker_alone_sees_the_slips_that_it_is_held_to(tmp_path: Path) -> None:
    some = [slip for slip in SLIPS if slip.kind in HELD_TO][::2]
    unseen = [slip.said for slip in some if not seen_by_checker(made_in(tmp_path, slip, ROOT))]
    assert len(some) >= 10
    assert len(unseen) <= 1, unseen  # the campaign holds it to 95 %


def test_the_scenarios_alone_see_most_slips(tmp_path: Path) -> None:
    some = [slip for slip in SLIPS if slip.kind not in OF_WORDS][::2]
    unseen = [slip.said for slip in some if not seen_by_runs(made_in(tmp_path, slip, ROOT))]
    assert len(unseen) <= len(some) // 3, unseen


def test_no_spoilt_text_is_answered_with_an_exception() -> None:
    lot = Lot()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path in SHIPPED.glob("*.yaml"):
            (folder / path.name).write_text(path.read_text())
        for seed in range(100):
            given(folder, seed, lot)
    assert lot.wrong == []
    assert lot.reached["read"] > 30
    assert lot.reached["proof"] > 3
