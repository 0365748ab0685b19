"""A run of another version of the program is not damaged: it is left as it is, and named so."""

import pytest

from guide.files.stored_form import STORED_FORM
from guide.run.journal import OtherVersion
from guide.run.log.reading import read_log
from guide.run.log.writing import Log
from guide.run.run_list import list_runs
from guide.run.store import open_run, read_run
from tests.run.kept_runs import chained_anew, kept_run, parsed, tamper
from tests.run.other_versions import OTHERS, folder_of, run_with_a_film


def test_a_run_carries_the_number_of_its_form() -> None:
    assert parsed(kept_run())[0]["format"] == STORED_FORM


@pytest.mark.parametrize("said", OTHERS)
def test_it_is_left_untouched_and_named_so(said: str) -> None:
    path = OTHERS[said]()
    before = folder_of(path)
    for use in (read_log, read_run, open_run, Log.open):
        with pytest.raises(OtherVersion) as found:
            use(path)
        sentence = str(found.value)
        assert said in sentence
        assert sentence.startswith(f"The job {path.stem} was made by a")
        assert sentence.endswith("; nothing was changed; open it with that version.")
        assert folder_of(path) == before


@pytest.mark.parametrize("said", OTHERS)
def test_it_stays_on_the_list_with_what_it_is(said: str) -> None:
    path, sound = OTHERS[said](), kept_run("Library stacks")
    before = folder_of(path)
    listed = {run.path: run for run in list_runs()}
    assert said in listed[path].problem
    assert listed[sound].door == "Library stacks"
    assert folder_of(path) == before


def test_what_is_damaged_after_a_strange_kind_is_left_to_the_version_that_knows_it() -> None:
    path = run_with_a_film()
    tamper(path, 6, b'"at":"', b'"at":"x')
    before = folder_of(path)
    with pytest.raises(OtherVersion, match="“film added”"):
        open_run(path)
    assert folder_of(path) == before


def test_a_strange_kind_reaches_the_person_without_signs_that_a_terminal_obeys() -> None:
    path = kept_run()
    lines = parsed(path)
    lines[-1]["events"][0][1] = "\x1b[2Jphoto"
    with pytest.raises(OtherVersion, match=r"“�\[2Jphoto”"):
        read_log(chained_anew(path, lines))
