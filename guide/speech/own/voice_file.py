"""Files of adapted voices: where they are kept, which model each belongs to, and whether one is still valid.

A voice is a folder: `means`, the file that the recogniser reads, and `voice.json`, which says of what model it is and
what it is worth. Both are checked before the recogniser sees them, because a fault in it ends its whole process.
"""

import hashlib
import json
import re
import shutil
from collections.abc import Mapping
from importlib import util
from pathlib import Path

from guide.errors import UNKNOWN, HingesideError
from guide.files.library import own_folder
from guide.speech.engine import NoEngine

FORM = 2
"""Of the stored form. To be raised if the front end changes so much that a voice must be taught again."""
_NAME = re.compile(r"[\w-]{1,40}")


class BadVoice(HingesideError):
    """A voice that was taught cannot be used; `str` is one sentence with what to do."""

    status = UNKNOWN


def model_folder() -> Path:
    """Where the recogniser keeps its English model, found without loading it. Raises NoEngine if it is missing."""
    found = util.find_spec("pocketsphinx")
    if found is None or found.origin is None:
        raise NoEngine(
            "The library that recognises words (pocketsphinx) is not installed; "
            "“hingeside voice” says how to get it."
        )
    return Path(found.origin).parent / "model" / "en-us" / "en-us"


def model_mark(folder: Path) -> str:
    """The identity of this model: the SHA-256 of its file of means."""
    return hashlib.sha256((folder / "means").read_bytes()).hexdigest()


def voice_folder(name: str) -> Path:
    """Where a voice is kept. Raises BadVoice for what cannot be a name."""
    if not _NAME.fullmatch(name):
        raise BadVoice(
            f"“{name[:40]}” cannot name a voice; use at most 40 letters, digits and hyphens."
        )
    return own_folder("config") / "own-voice" / name


def keep(name: str, means: bytes, model: str, about: Mapping[str, object]) -> Path:
    """Keep a voice in place of an older one of the name. Raises BadVoice, and OSError if the disk refuses."""
    folder = voice_folder(name)
    folder.mkdir(parents=True, exist_ok=True)
    data = {"form": FORM, "model": model, "means": hashlib.sha256(means).hexdigest(), **about}
    # The word of what it is comes last: whatever ends this in between leaves a voice that does not hold.
    _replace(folder / "means", means)
    _replace(folder / "voice.json", (json.dumps(data, indent=1) + "\n").encode())
    return folder


def means_of(name: str) -> Path:
    """The file of means of a voice that holds. Raises BadVoice."""
    folder = voice_folder(name)
    again = f"teach it again with “hingeside voice --teach {name}”; until then recognition works without it"
    try:
        data = json.loads((folder / "voice.json").read_text("utf-8"))
        means = (folder / "means").read_bytes()
        ours = model_mark(model_folder())
    except FileNotFoundError as error:
        raise BadVoice(f"The voice “{name}” is not kept here; {again}.") from error
    except (OSError, ValueError) as error:
        raise BadVoice(f"The voice “{name}” cannot be read; {again}.") from error
    except NoEngine as error:
        raise BadVoice(str(error)) from error
    if not isinstance(data, dict) or data.get("form") != FORM or data.get("model") != ours:
        raise BadVoice(f"The voice “{name}” was taught to another recogniser; {again}.")
    if data.get("means") != hashlib.sha256(means).hexdigest():
        raise BadVoice(f"The voice “{name}” is damaged; {again}.")
    return folder / "means"


def own_means(name: str) -> tuple[str, str]:
    """The file of means that a setting names, and one sentence if it cannot be used; both empty for none."""
    if not name:
        return "", ""
    try:
        return str(means_of(name)), ""
    except BadVoice as error:
        return "", str(error)


def forget(name: str) -> bool:
    """Delete a voice; False if there was none. Raises BadVoice and OSError."""
    folder = voice_folder(name)
    if not folder.is_dir():
        return False
    shutil.rmtree(folder)
    return True


def _replace(path: Path, data: bytes) -> None:
    fresh = path.with_name(path.name + ".new")
    fresh.write_bytes(data)
    fresh.replace(path)
