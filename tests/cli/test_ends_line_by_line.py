"""The end of a job line by line: the next job, taking up again, and the name of the door at the start."""

from tests.cli.program import hingeside

WORN_HINGES = (*("no", "stops", "nothing", "no", "", "", "no", "heavy", "no", "", "no", "hinges"),)


def test_the_next_job_begins_at_the_same_door() -> None:
    done = hingeside(
        "run",
        "find-the-fault",
        "--plain",
        lines=(*WORN_HINGES, "next job", ""),
        named="114, stair 2",
    )
    assert done.status == 0
    assert "“next job” ends this job and begins: Adjust a closer in service" in done.out
    before, after = done.out.split("A new job at the same door; 3 answers are carried over.")
    assert "\nFault found\n" in before
    assert "  Door: 114\n  Place: stair 2" in before
    assert "Fire door" not in after
    assert "--- look/seen-first" in after


def test_a_job_is_taken_up_again_by_its_name() -> None:
    hingeside("run", "fit-surface-closer", "--plain", lines=("one by one", "unsure", "yes"))
    lines = ("open the job again", "The label was found.", "back", "change", "ordinary")
    done = hingeside("run", "--resume", "fit-surface-closer", "--plain", lines=lines)
    assert "“open the job again” goes on with this job" in done.out
    assert "Taken up again. Go back to the answer that has changed" in done.out
    assert "--- may-i-drill/right-closer" in done.out
    record = hingeside("record", "fit-surface-closer").out
    assert "Taken up again: The label was found." in record
    assert "\nNot finished\n" in record


def test_the_door_may_be_left_without_a_name() -> None:
    done = hingeside("run", "fit-surface-closer", "--plain")
    assert "Door number, and its place after a comma?" in done.out
    assert "Door " not in hingeside("record", "fit-surface-closer").out
