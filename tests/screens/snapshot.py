"""Pictures of the screen kept beside the tests, as SVG that any browser shows.

`HINGESIDE_SNAPSHOTS=write python -m pytest -n0 tests/screens/test_snapshots.py` draws them anew; look at every one that
has changed before you commit it.
"""

import difflib
import html
import os
import re
from pathlib import Path

from guide.screens.hingeside_app import HingesideApp

FOLDER = Path(__file__).parent / "snapshots"
WRITES = os.environ.get("HINGESIDE_SNAPSHOTS") == "write"
_ID = re.compile(r"terminal-\d+")
_FONTS = re.compile(r"@font-face \{.*?\}\s*", re.DOTALL)
"""Fonts of a server: the pictures need none, and call nobody."""
_TEXT = re.compile(r"<text[^>]*? y=\"([0-9.]+)\"[^>]*>(.*?)</text>", re.DOTALL)


def drawn(app: HingesideApp) -> str:
    """The screen as SVG, the same for the same screen."""
    svg = app.export_screenshot(simplify=True)
    return _ID.sub("terminal", _FONTS.sub("", svg)).rstrip() + "\n"


def compare(app: HingesideApp, name: str, beside: Path) -> None:
    """Compare the screen with the picture of that name, or draw that anew."""
    path, found = FOLDER / f"{name}.svg", drawn(app)
    if WRITES:
        path.write_text(found, "utf-8")
        return
    kept = path.read_text("utf-8") if path.exists() else ""
    if kept != found:
        (beside / path.name).write_text(found, "utf-8")
        lines = difflib.unified_diff(_words(kept), _words(found), "kept", "now", lineterm="", n=0)
        told = "\n".join(lines) or "The same words, in other colours."
        raise AssertionError(f"{name} looks otherwise; compare {beside / path.name}\n{told}")


def _words(svg: str) -> list[str]:
    """The words of a picture, line by line."""
    rows: dict[float, str] = {}
    for height, text in _TEXT.findall(svg):
        rows[float(height)] = rows.get(float(height), "") + html.unescape(text).replace("\xa0", " ")
    return [rows[height].rstrip() for height in sorted(rows)]
