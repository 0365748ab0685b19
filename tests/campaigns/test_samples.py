"""A few of the slips and of the spoilt texts that the campaigns beside this file make by the hundred."""

import tempfile
from pathlib import Path

import pytest
from fuzz import Lot, given
from mutants import held, seen_by_scenarios
from slips import OF_FORM, ROOT, SHIPPED, Slip, shipped, slips, texts

from guide.procedure.checker import check
from guide.run.replay import replay

FORM = [slip for slip in slips(seed=3, most=1) if slip.kind in OF_FORM]
SENSE = [slip for slip in slips(seed=3, most=1) if slip.kind not in OF_FORM]


def test_written_out_again_the_shipped_procedure_is_as_good_as_before(tmp_path: Path) -> None:
    for name, text in texts(shipped()).items():
        (tmp_path / name).write_text(text)
    report = check(tmp_path / ROOT, replay=replay)
    assert report.proved
    assert report.clean
    assert report.graph is not None
    assert seen_by_scenarios(report.graph) == ""


@pytest.mark.parametrize(
    "slip", [slip for slip in FORM if slip.kind != "unsure withdrawn"], ids=lambda slip: slip.kind
)
def test_a_slip_of_form_is_seen(slip: Slip) -> None:
    outcome = held(slip)
    assert outcome.checker or outcome.scenarios, slip.said


def test_the_checker_alone_sees_nearly_every_slip_of_form() -> None:
    unseen = [slip.said for slip in FORM if not held(slip).checker]
    assert len(unseen) <= 1, unseen


def test_the_scenarios_alone_see_most_slips_of_sense() -> None:
    unseen = [slip.said for slip in SENSE if not held(slip).scenarios]
    assert len(unseen) <= len(SENSE) // 3, unseen


def test_no_spoilt_text_is_answered_with_an_exception() -> None:
    lot = Lot()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path in SHIPPED.glob("*.yaml"):
            (folder / path.name).write_text(path.read_text())
        for seed in range(300):
            given(folder, seed, lot)
    assert lot.wrong == []
    assert lot.reached["read"] > 90
    assert lot.reached["proof"] > 20
