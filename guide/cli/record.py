"""`hingeside record JOB|SITE [DOOR] --format F -o FILE`, `record JOB --add TEXT`, `record --verify FILE`."""

import argparse
import re
from pathlib import Path

from guide.cli.messages import Usage, say
from guide.cli.paper_output import need_file, put_out, write_paper
from guide.errors import DONE, FOUND
from guide.papers.papers_folder import own_signature
from guide.papers.record.addenda import after_end
from guide.papers.record.answers import answers_data
from guide.papers.record.record import UNSEEN, repairs
from guide.papers.record.record_forms import FORMS
from guide.run import replies
from guide.run.catalogue import missing_lines
from guide.run.journal import Damaged
from guide.run.log.reading import Reading, read_log
from guide.run.photos import ALTERED, not_as_kept, read_photo
from guide.run.run_list import list_runs, with_others
from guide.run.settings import load_settings
from guide.run.state import State
from guide.run.store import find_run, fitting, open_run, read_run, state_of
from guide.site.site import Site
from guide.site.site_files import UnknownSite, find_site, read_site
from guide.text import printable

MOST_NAMED = 5
"""Jobs that are named if none was."""
EXAMPLES = """\
  hingeside record JOB                                  on the screen
  hingeside record JOB --format pdf -o record.pdf       for the customer and the inspector
  hingeside record JOB --add "Cover changed in March"   after the end
  hingeside record --verify JOB                         whether it was altered
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "name",
        nargs="?",
        metavar="JOB",
        help="the name of a job, or its file; or the name of a site",
    )
    parser.add_argument("door", nargs="?", metavar="DOOR", help="a door of the site")
    parser.add_argument("--format", choices=list(FORMS), default="text")
    parser.add_argument(
        "-o", "--output", metavar="FILE", help="the file to write; if left out, it is printed"
    )
    parser.add_argument(
        "--digest", metavar="HEX", help="with --verify: the last digest, as its record shows it"
    )
    parser.add_argument(
        "--add", metavar="TEXT", help="add words to an ended job; nothing in it is rewritten"
    )
    parser.add_argument(
        "--correct",
        metavar="NUMBER",
        type=int,
        help="with --add: the number, in the record, of the answer that the words correct",
    )
    parser.add_argument(
        "--signature", metavar="FILE", help="a picture of the fitter's signature, PNG or JPEG"
    )
    parser.add_argument("--verify", metavar="FILE", help="check that a record was not altered")


def run(options: argparse.Namespace) -> int:
    """Write the record of a job, or verify it."""
    if options.digest is not None and options.verify is None:
        raise Usage("--digest goes with --verify FILE.")
    if options.correct is not None and options.add is None:
        raise Usage("--correct goes with --add TEXT.")
    if options.verify is not None:
        return _verify(find_run(options.verify), options.digest)
    if options.name is None:
        raise Usage(_which_job())
    site = _site_named(options)
    if site is not None:
        return _site_record(options, site)
    path = find_run(options.name)
    if options.add is not None:
        return _add(path, options.add, options.correct)
    state, events = read_run(path)
    state = with_others(state, path)
    need_file(options.format, options.output)
    signature = _signature(options.signature)
    made = fitting(path, lambda: FORMS[options.format](state, events, signature))
    return put_out(made, options.output)


def _which_job() -> str:
    """What to write in place of a name that was left out."""
    names = [run.name for run in list_runs()]
    if not names:
        return "Name a job; there is none on this device yet."
    more = " The first screen, “hingeside”, has them all." if len(names) > MOST_NAMED else ""
    return f"Name a job. The latest here: {', '.join(names[:MOST_NAMED])}.{more}"


def _site_named(options: argparse.Namespace) -> Site | None:
    """The site that is meant; None if a job is. Raises UnknownSite where a door is named, and no site."""
    if options.door is None and Path(options.name).is_file():
        return None
    try:
        return read_site(find_site(options.name))
    except UnknownSite:
        if options.door is not None:
            raise
        return None


def _site_record(options: argparse.Namespace, site: Site) -> int:
    from guide.cli.site import report_of
    from guide.papers.site import site_report

    if options.add is not None or options.signature is not None:
        raise Usage("Words and signatures are added to a job: hingeside record JOB --add TEXT.")
    report = report_of(site, list_runs(), options.door)
    formats = site_report.FORMATS if options.door is None else site_report.DOOR_FORMATS

    def other(form: str) -> bytes:
        from guide.papers.site import site_paper

        paper = site_paper.report_paper if options.door is None else site_paper.door_paper
        return site_paper.rendered(paper(report), form)

    return write_paper(options.format, options.output, lambda form: formats[form](report), other)


def _add(path: Path, text: str, number: int | None) -> int:
    """Add an addendum to an ended job: a note, or the correction of an answer."""
    by = load_settings().name
    if not by:
        raise Usage("An addendum says who wrote it: hingeside settings name=YOUR-NAME.")
    state, events = read_run(path)
    if not state.ended:
        raise Usage(
            "This job has not ended: go on with it, and write a note or change the answer there."
        )
    draft = replies.note(state, text)
    if number is not None:
        answers = {one["number"]: one["at"] for one in answers_data(state, events)}
        if number not in answers:
            raise Usage(
                f"The record has no answer {number}; they are numbered 1 to {len(answers)}."
            )
        draft = replies.correction(answers[number], text)
    session = open_run(path, by)
    try:
        session.send(draft)
    finally:
        session.close()
    print(
        f"Added after the end, by {printable(by)}. The last digest is now {read_log(path).digest}"
    )
    return DONE


def _signature(name: str | None) -> Path | None:
    """The file named, else that of the settings. What is not a picture is said before anything is written."""
    path = Path(name).expanduser() if name is not None else own_signature()
    if path is not None:
        read_photo(path)
    return path


def _verify(path: Path, digest: str | None) -> int:
    """Say whether a run is unbroken. What is broken is said beside, and nothing of it is vouched for."""
    if digest is not None and not re.fullmatch("[0-9a-f]{64}", digest.strip().lower()):
        raise Usage("A digest has 64 signs, 0 to 9 and a to f, as the record shows it.")
    found = read_log(path)
    name = printable(path.name)
    try:
        state = state_of(found)
        ended = bool(state.ended)
    except Damaged as error:
        say(f"{name}: BROKEN. {error} Nothing after that counts.")
        return FOUND
    missing = missing_lines(found)
    if missing:
        say(f"{name}: BROKEN. {missing[0].upper()}{missing[1:]}.")
        return FOUND
    if digest is not None and digest.strip().lower() not in found.digests:
        say(f"{name}: BROKEN. No line of it has that digest; it is not the run that was recorded.")
        return FOUND
    for line in _verified(found, name, ended, digest):
        print(line)
    return _photos_verified(state)


def _photos_verified(state: State) -> int:
    """Say how many photos are as they were added. An altered one is a fault; a missing one may be elsewhere."""
    wrong = not_as_kept(state.photos)
    if state.photos:
        right = len(state.photos) - len(wrong)
        print(f"photos: {right} of {len(state.photos)} are here and as they were added")
    for one, what in wrong:
        print(f"photo {what.upper()}: {printable(one.name)}, {printable(one.shows)} ({one.sha256})")
    return FOUND if any(what == ALTERED for _, what in wrong) else DONE


def _verified(found: Reading, name: str, ended: bool, digest: str | None) -> list[str]:
    """What is said of an unbroken run."""
    lines = [f"{name}: REPAIRED. {printable(one['said'])}." for one in repairs(found.events)]
    said = f"{name}: unbroken, {len(found.events)} events in {len(found.digests)} lines"
    said += ", ended" if ended else ", not ended"
    added = len(after_end(found.events))
    said += f", {added} added after the end" if added else ""
    said += ", a further line is being written" if found.torn else ""
    if digest is None:
        return [*lines, f"{said}; {UNSEEN}: compare {found.digest}"]
    after = len(found.digests) - 1 - found.digests.index(digest.strip().lower())
    since = f"; {after} lines were added since, the last with {found.digest}" if after else ""
    return [*lines, f"{said}; it holds the line of that digest{since}"]
