"""The desk's command `photo`: a file is named or picked by its number, then said what it shows."""

from datetime import UTC, datetime
from pathlib import Path

from guide.run import replies
from guide.run.desk_view import DeskView
from guide.run.desk_words import Way
from guide.run.outcomes import PHOTO, SHOWS, Outcome
from guide.run.photos import CleanPhoto, keep_photo, named, newest, offered_folder, read_photo
from guide.run.step import Refused
from guide.run.texts import filled
from guide.run.when import when
from guide.text import printable
from guide.translation import _

WRITE_FILE = _("Write the name of the photo's file, then Enter.")
PICK_FILE = _("Which photo? Write its number, or the name of another file, then Enter.\n{listed}")
NONE_NEW = _("There is no new photo in {folder}. Write the name of the photo's file, then Enter.")
WRITE_SHOWS = _("What does {name} show? Write a few words, then Enter.")
ADDED = _("Photo {name} is added.")


def photo(desk: DeskView, name: str, words: str, by: Way) -> Outcome:
    """Add a photo to the step that is looked at; without words it asks which."""
    desk.offered = newest(desk.session.state.photos)
    if words.strip():
        return file_named(desk, words)
    return desk.wants(PHOTO, _which(desk.offered))


def file_named(desk: DeskView, text: str) -> Outcome:
    """The file, by its name or by its number among those offered. Where a step wants a photo, it says of what."""
    state = desk.session.state
    number = text.strip()
    if not number:
        raise Refused(WRITE_FILE)
    listed = number.isascii() and number.isdigit() and 0 < int(number) <= len(desk.offered)
    read = read_photo(desk.offered[int(number) - 1] if listed else named(text))
    node = state.graph.nodes[(desk.at or state.at)[0]]
    if "photo" in node.body:
        return _add(desk, read, filled(state, node.body["photo"], node))
    asks = desk.wants(SHOWS, WRITE_SHOWS.format(name=read.name))
    desk.photo = read
    return asks


def shown(desk: DeskView, text: str) -> Outcome:
    """What the photo shows, in the person's words."""
    assert desk.photo is not None  # its words are wanted
    return _add(desk, desk.photo, text)


def _add(desk: DeskView, read: CleanPhoto, shows: str) -> Outcome:
    at, changing = desk.at, desk.changing
    draft = replies.photo(desk.session.state, read, shows, at)
    keep_photo(read)  # on the disk before the run names it
    sent = desk.send(draft, ADDED.format(name=read.name))
    desk.look(at, changing=changing)
    return sent


def _which(offered: list[Path]) -> str:
    folder = offered_folder()
    if folder is None:
        return WRITE_FILE
    if not offered:
        return NONE_NEW.format(folder=printable(str(folder)))
    listed = (
        f"{number} {printable(path.name)}{_taken(path)}" for number, path in enumerate(offered, 1)
    )
    return PICK_FILE.format(listed="\n".join(listed))


def _taken(path: Path) -> str:
    try:
        moment = datetime.fromtimestamp(path.stat().st_mtime, UTC)
    except (OSError, ValueError, OverflowError):
        return ""
    return f" ({when(moment.isoformat())})"
