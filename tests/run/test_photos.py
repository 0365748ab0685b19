"""Photos of a job: added by name or from the phone's folder, kept by digest, and said when they are not as kept."""

import hashlib
import io
import os
from pathlib import Path

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from guide.cli.main import main
from guide.run import photos
from guide.run.desk import Desk
from guide.run.outcomes import PHOTO, SHOWS, Asks, Refusal, Sent
from guide.run.photos import photo_bytes, photos_folder
from guide.run.settings import Settings, save_settings
from guide.run.state import label
from guide.run.step import Refused, fold, step
from guide.run.store import open_run
from tests.run.kept_runs import kept_run
from tests.run.small_procedures import begin

Printed = pytest.CaptureFixture[str]
ORIENTATION, GPS, MAKER = 0x0112, 0x8825, 0x010F


def picture(path: Path, *, turned: int = 1, color: str = "red") -> Path:
    """A phone's photo, 40 x 20, its upper left corner white, with what a phone writes beside it."""
    image = Image.new("RGB", (40, 20), color)
    image.paste("white", (0, 0, 10, 10))
    exif = image.getexif()
    exif[ORIENTATION] = turned
    exif[MAKER] = "Invented phone"
    exif[GPS] = {1: "N", 2: (52.0, 31.0, 12.0)}
    image.save(path, exif=exif.tobytes(), quality=95)
    return path


def png(path: Path) -> Path:
    """A PNG that is no photo of a phone."""
    Image.new("P", (8, 8)).save(path)
    return path


def test_a_photo_is_added_to_the_step_with_what_it_shows(tmp_path: Path) -> None:
    session = begin("gym-store")
    desk = Desk(session)
    asked = desk.command("photo", str(picture(tmp_path / "label of the door.jpg")))
    assert asked == Asks(
        SHOWS, "What does label of the door.jpg show? Write a few words, then Enter."
    )
    assert desk.enter("The label on the hinge edge") == Sent(
        ("photo added",), "Photo label of the door.jpg is added."
    )
    (kept,) = session.state.photos
    data = photo_bytes(kept.sha256)
    assert data is not None
    assert hashlib.sha256(data).hexdigest() == kept.sha256
    assert (kept.size, kept.shows) == (len(data), "The label on the hinge edge")
    assert kept.at == label(session.state.graph, session.state.at)
    assert fold(session.journal.events()).photos == [kept]


def test_a_step_that_asks_for_a_photo_says_what_it_shows(tmp_path: Path) -> None:
    session = begin("school-photos")
    desk = Desk(session)
    assert desk.shown.photo == "The door label, readable."
    desk.command("photo")
    assert desk.purpose == PHOTO
    assert isinstance(desk.enter(str(png(tmp_path / "label.png"))), Sent)
    assert session.state.photos[0].shows == "The door label, readable."
    assert desk.shown.photos == ("label.png",)


@pytest.mark.parametrize("turned", [1, 6])
def test_the_copy_is_upright_and_says_nothing_of_place_or_phone(
    tmp_path: Path, turned: int
) -> None:
    read = photos.read_photo(picture(tmp_path / "a.jpg", turned=turned))
    with Image.open(io.BytesIO(read.data)) as copy:
        assert copy.size == ((40, 20) if turned == 1 else (20, 40))
        white = (3, 3) if turned == 1 else (16, 3)
        found = copy.convert("L").getpixel(white)
        assert isinstance(found, int | float)
        assert found > 200
        assert not copy.getexif()
    assert b"Invented" not in read.data
    assert b"Exif" not in read.data


def test_the_copy_of_a_png_has_neither_words_nor_place(tmp_path: Path) -> None:
    said = PngInfo()
    said.add_text("Author", "Invented phone")
    exif = Image.Exif()
    exif[MAKER] = "Invented phone"
    Image.new("RGBA", (9000, 3), (1, 2, 3, 4)).save(tmp_path / "a.png", pnginfo=said, exif=exif)
    read = photos.read_photo(tmp_path / "a.png")
    with Image.open(io.BytesIO(read.data)) as copy:
        assert copy.width == photos.MOST_ACROSS
        assert copy.info == {}
    assert b"Invented" not in read.data


def test_the_newest_of_the_phone_s_folder_are_offered_until_they_are_added(
    tmp_path: Path, own_home: Path
) -> None:
    uploads = tmp_path / "uploads"
    uploads.mkdir()
    for number, name in enumerate(("IMG_1.jpg", "IMG_2.jpg", "notes.txt")):
        color = ("red", "blue", "green")[number]
        made = uploads / name
        if name.endswith("jpg"):
            picture(made, color=color)
        else:
            made.write_text("The door sticks in wet weather.")
        os.utime(made, (number, number))
    save_settings(Settings(photos=str(uploads)))
    desk = Desk(begin("school-photos"))
    asked = desk.command("photo")
    assert asked.told.splitlines()[1].startswith("1 IMG_2.jpg (")
    assert asked.told.splitlines()[2].startswith("2 IMG_1.jpg")
    assert "notes" not in asked.told
    desk.enter("1")
    assert desk.session.state.photos[0].name == "IMG_2.jpg"
    assert "\n1 IMG_1.jpg (" in desk.command("photo").told
    desk.command("cancel")
    assert isinstance(desk.command("photo", "1"), Sent)
    assert desk.command("photo").told.startswith("There is no new photo in ")


def test_what_is_not_a_photo_is_refused_in_a_sentence(tmp_path: Path) -> None:
    whole = picture(tmp_path / "whole.jpg").read_bytes()
    files = {
        "cut.jpg": (whole[: len(whole) // 2], "damaged"),
        "page.jpg": (b"<html>", "not a JPEG or PNG"),
        "IMG_7.HEIC": (b"\0\0\0\x18ftypheic" + b"\0" * 40, "HEIC"),
        "empty.png": (b"", "not a JPEG or PNG"),
        "head.png": (b"\x89PNG\r\n\x1a\n", "damaged"),
    }
    desk = Desk(begin("gym-store"))
    for name, (data, said) in files.items():
        (tmp_path / name).write_bytes(data)
        told = desk.command("photo", str(tmp_path / name))
        assert isinstance(told, Refusal), name
        assert said in told.told, name
    for name in ("none.jpg", "", "\0", "x" * 5000):
        assert isinstance(desk.command("photo", str(tmp_path / name)), Refusal)
    assert desk.session.state.photos == []
    assert not photos_folder().exists()


def test_a_picture_of_too_many_pixels_is_not_decoded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(photos, "MOST_PIXELS", 700)
    with pytest.raises(photos.BadPhoto, match="megapixels"):
        photos.read_photo(picture(tmp_path / "wide.jpg"))


@pytest.mark.parametrize("digest", ["../../etc/passwd", "f" * 63, "F" * 64, "0" * 64 + "\n"])
def test_a_run_names_a_photo_by_its_digest_alone(digest: str, tmp_path: Path) -> None:
    """Nothing that a stranger's run says leads to another file."""
    session = begin("gym-store")
    event = session.journal.events()[0]
    body: dict[str, object] = {"at": label(session.state.graph, session.state.at), "sha256": digest}
    body |= {"original": "0" * 64, "name": "../../a.jpg", "bytes": 9, "shows": "A door"}
    stranger = type(event)(
        "1", event.run, "bench", session.state.seq + 1, event.utc, "photo added", body
    )
    with pytest.raises(Refused):
        step(session.state, stranger)
    assert photo_bytes(digest) is None


def test_a_missing_and_an_altered_photo_are_said(tmp_path: Path, capsys: Printed) -> None:
    path = kept_run()
    session = open_run(path)
    desk = Desk(session)
    for name, color in (("left.jpg", "red"), ("right.jpg", "blue")):
        desk.command("photo", str(picture(tmp_path / name, color=color)))
        desk.enter(f"The {name[:-4]} leaf")
    left, right = session.state.photos
    session.close()
    assert main(["record", "--verify", str(path)]) == 0
    assert "photos: 2 of 2 are here and as they were added" in capsys.readouterr().out
    (photos_folder() / f"{left.sha256}.jpg").unlink()
    assert main(["record", "--verify", str(path)]) == 0
    assert "photo MISSING: left.jpg, The left leaf" in capsys.readouterr().out
    (photos_folder() / f"{right.sha256}.jpg").write_bytes(b"\xff\xd8\xffanother")
    assert main(["record", "--verify", str(path)]) == 1
    assert "photo ALTERED: right.jpg, The right leaf" in capsys.readouterr().out
    assert main(["record", str(path)]) == 0
    text = capsys.readouterr().out
    assert "the file is MISSING here" in text
    assert "the file is ALTERED here" in text


def test_a_photo_may_follow_the_end_and_is_told_apart(tmp_path: Path) -> None:
    session = begin("gym-store")
    desk = Desk(session)
    desk.command("safe", "The frame is cracked")
    desk.command("yes")
    assert session.state.ended == "made-safe"
    desk.command("photo", str(picture(tmp_path / "crack.jpg")))
    desk.enter("The crack")
    assert session.state.photos[0].after_end
