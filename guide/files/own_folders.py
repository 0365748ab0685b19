"""Where a person's own files are kept: data, settings and cache.

`HINGESIDE_HOME` moves everything to one folder. Elsewhere it is where the system keeps such things. On Linux the
three folders of the XDG Base Directory Specification are looked up here, because the library that knows every
system's costs a tenth of the start of a short command.
"""

import os
import sys
from pathlib import Path
from typing import Literal

APP = "hingeside"

Kind = Literal["data", "config", "cache"]

_XDG = {
    "data": ("XDG_DATA_HOME", ".local/share"),
    "config": ("XDG_CONFIG_HOME", ".config"),
    "cache": ("XDG_CACHE_HOME", ".cache"),
}


def own_folder(kind: Kind) -> Path:
    """The folder for what is of that kind; it need not exist yet."""
    home = os.environ.get("HINGESIDE_HOME")
    if home:
        return Path(home) / "cache" if kind == "cache" else Path(home)
    if sys.platform == "linux":
        variable, usual = _XDG[kind]
        named = os.environ.get(variable, "")
        # The specification: a path that is not absolute is to be ignored.
        base = Path(named) if Path(named).is_absolute() else Path.home() / usual
        return base / APP
    import platformdirs

    return Path(getattr(platformdirs, f"user_{kind}_dir")(APP, appauthor=False))
