"""What a person sets once: one small TOML file."""

from pathlib import Path
from typing import NamedTuple

from guide.errors import UNKNOWN, HingesideError
from guide.files.library import own_folder
from guide.files.writing import why_not, write_in_place
from guide.text import meant
from guide.words.language_file import LANGUAGES

UNITS = ("inch", "metric")
DETAILS = ("full", "cards", "spoken")
YES = "yes"
NO_YES = ("no", YES)
VOICES = ("off", "on")
THEMES = ("auto", "night", "day", "terminal")
RULES = ("us", "uk", "eu", "none")
NFPA_80, IBC = ("2010", "2016"), ("2018", "2021")
"""Up to the edition of 2013 or from that of 2016; up to 2018 or from 2021."""
"""Whose rules the final readings are compared with; `guide.trade.rules.rules` says what each means."""
ENGINES = ("auto", "built-in", "added")
"""What hears words: the recogniser that comes with the package, or one that was added with a folder of its model."""
LONGEST_NAME = 80
LONGEST_FOLDER = 1000


class BadSettings(HingesideError):
    """The settings file cannot be used as it stands; the message says where and what to do."""

    status = UNKNOWN


class Settings(NamedTuple):
    """How this person works."""

    units: str = "inch"
    """`inch` or `metric`: how measures are asked and shown."""
    language: str = "en"
    """What is spoken, by its code; what stands on the screen is English."""
    detail: str = "full"
    """`full` (why, watch, looks right, picture), `cards` (a card at a time), `spoken` (the short words only)."""
    theme: str = "auto"
    """The colours: `night`, `day`, `terminal` (its own colours, and whatever has 16 of them), or `auto`."""
    name: str = ""
    """The installer's name, for the record."""
    firm: str = ""
    """The firm's name, for the record."""
    rules: str = "us"
    """Whose access and fire rules the final readings are compared with."""
    nfpa_80: str = "2016"
    """The edition of NFPA 80 that is adopted, for rules=us."""
    ibc: str = "2021"
    """The edition of the International Building Code that is adopted, for rules=us."""
    voice: str = "off"
    """Whether a run listens and speaks."""
    push_to_talk: str = "no"
    """Whether the microphone is off until a key turns it on, for one saying."""
    engine: str = "auto"
    """What hears words: `built-in` comes with the package and knows English, `added` is the one of the folder `model`,
    `auto` is the added one if there is a model, else the built-in one."""
    model: str = ""
    """The folder of the added recogniser's model; may be empty."""
    headset: str = "no"
    """Whether a headset is worn: “stop” is then heard while the guide speaks."""
    photos: str = ""
    """The folder where a phone puts its photos: the newest are offered to be added to a job; may be empty."""
    signature: str = ""
    """A picture of the person's signature, PNG or JPEG, for the record; may be empty."""
    own_voice: str = ""
    """The name of the voice that was taught (`voice --teach`); may be empty."""

    def about(self) -> dict[str, str]:
        """What a run is begun with of the person: who, and whose rules hold."""
        rules = {"rules": self.rules, "nfpa_80": self.nfpa_80, "ibc": self.ibc}
        return {"name": self.name, "firm": self.firm, **rules}


ALLOWED = {
    "units": UNITS,
    "language": tuple(LANGUAGES),
    "detail": DETAILS,
    "theme": THEMES,
    "rules": RULES,
    "nfpa_80": NFPA_80,
    "ibc": IBC,
    "voice": VOICES,
    "push_to_talk": NO_YES,
    "engine": ENGINES,
    "headset": NO_YES,
}


def longest(key: str) -> int:
    """The most characters that a setting takes."""
    return LONGEST_FOLDER if key in ("model", "photos", "signature") else LONGEST_NAME


def settings_path() -> Path:
    """Where the settings are kept."""
    return own_folder("config") / "settings.toml"


def load_settings(path: Path | None = None) -> Settings:
    """The person's settings; the usual ones where there is no file.

    Raises BadSettings for a file that is not TOML, a key that is not known or a value not offered.
    """
    path = path or settings_path()
    try:
        text = path.read_text("utf-8")
    except (FileNotFoundError, NotADirectoryError):
        return Settings()
    except (OSError, UnicodeDecodeError) as error:
        raise BadSettings(f"{path} cannot be read; correct or delete it.") from error
    import tomllib  # a start without settings needs none

    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadSettings(f"{path} is not right ({error}); correct or delete it.") from error
    except RecursionError as error:
        raise BadSettings(f"{path} cannot be read; correct or delete it.") from error
    known = Settings._fields
    for key, value in data.items():
        if key not in known:
            hint = meant(key, known, f"there are {', '.join(known)}.")
            raise BadSettings(f"{path}: the setting “{key}” is not known; {hint}")
        allowed = ALLOWED.get(key)
        if not isinstance(value, str) or (allowed and value not in allowed):
            wanted = f"one of {', '.join(allowed)}" if allowed else "a text in quotes"
            raise BadSettings(f"{path}: {key} takes {wanted}, not {value!r}.")
        if len(value) > longest(key):
            raise BadSettings(f"{path}: {key} is longer than {longest(key)} characters.")
    return Settings(**data)


def save_settings(settings: Settings, path: Path | None = None) -> None:
    """Write the settings, all of them, in one step. Raises OSError where they cannot be written."""
    path = path or settings_path()
    path.parent.mkdir(parents=True, exist_ok=True)
    lines = ["# Hingeside: how you work. Delete a line for the usual setting."]
    for name, value in settings._asdict().items():
        clean = "".join(c for c in value if c.isprintable())
        quoted = clean.replace("\\", "\\\\").replace('"', '\\"')
        lines.append(f'{name} = "{quoted}"')
    write_in_place(path, ("\n".join(lines) + "\n").encode("utf-8", "replace"))


def keep_detail(detail: str, path: Path | None = None) -> str:
    """Keep how much of a step is shown, for the runs to come; what could not be kept as one sentence, else ""."""
    try:
        save_settings(load_settings(path)._replace(detail=detail), path)
    except BadSettings as error:
        return f"This holds for this run alone: {error}"
    except OSError as error:
        return f"This holds for this run alone: {why_not(error, path or settings_path())}."
    return ""
