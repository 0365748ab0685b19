"""The licenses of the packages that this program needs and that are installed, by their own metadata.

The page `licenses` says what they mean for somebody who passes them on.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path

OWN = "hingeside"
LONGEST = 70
"""Characters of a license's name in metadata; a longer one is its whole text, and the classifier names it."""
CARRIES = {
    "espeakng-loader": "libespeak-ng, GPL-3.0-or-later",
    "pocketsphinx": "an acoustic model, BSD",
    "pyrnnoise": "RNNoise, BSD-3-Clause",
}
"""What a package brings along that its own license does not speak of, as its files had it in November 2026."""
NOT_STATED = "not stated"

_NAME = re.compile(r"[A-Za-z0-9._-]+")
_EXTRA = re.compile(r"""extra\s*==\s*["']([^"']+)["']""")


@dataclass(frozen=True, slots=True)
class Package:
    """An installed package."""

    name: str
    version: str
    license: str
    """Its name, or “not stated”, and what the package carries."""
    extra: str
    """The extra of this program that needs it; empty if it is always needed."""


def license_of(package: Distribution) -> str:
    """The license of a package, by its metadata or else the first line of its text, and what it carries."""
    found = _stated(package) or _first_line(package) or NOT_STATED
    carried = CARRIES.get(_normal(package.name))
    return f"{found}; carries {carried}" if carried else found


def _stated(package: Distribution) -> str:
    about = package.metadata
    for key in ("License-Expression", "License"):
        text = str(about[key] or "").strip() if key in about else ""
        if text and text != "UNKNOWN" and len(text) <= LONGEST and "\n" not in text:
            return text
    named = [one for one in about.get_all("Classifier") or [] if one.startswith("License ::")]
    return ", ".join(one.rpartition(" :: ")[2] for one in named)


def _first_line(package: Distribution) -> str:
    for path in package.files or []:
        if path.name.upper().startswith(("LICENSE", "LICENCE", "COPYING")):
            lines = Path(str(path.locate())).read_text("utf-8", "replace").split("\n")
            return next((line.strip()[:LONGEST] for line in lines if line.strip()), "")
    return ""


def installed_packages(needs: Iterable[tuple[str, str]] | None = None) -> tuple[Package, ...]:
    """What this program needs, directly or by another package, as far as it is installed; by extra, then by name.

    `needs` are pairs of extra and package, those without an extra first; if left out, those of this program's own
    metadata.
    """
    found: dict[str, Package] = {}
    for extra, name in _needs(OWN) if needs is None else needs:
        _gather(name, extra, found)
    return tuple(sorted(found.values(), key=lambda one: (one.extra, one.name.casefold())))


def installed_table() -> str:
    """The packages as a section of Markdown, with a table."""
    lines = ["## Installed here", "", "| package | license | for |", "|---|---|---|"]
    lines += [
        f"| {one.name} {one.version} | {one.license} | {one.extra or 'always'} |"
        for one in installed_packages()
    ]
    return "\n".join([*lines, ""])


def _gather(name: str, extra: str, found: dict[str, Package]) -> None:
    key = _normal(name)
    if key in found:
        return
    try:
        package = distribution(name)
    except PackageNotFoundError:
        return
    found[key] = Package(package.name, package.version, license_of(package), extra)
    for needed_by_extra, one in _needs(name):
        if not needed_by_extra:
            _gather(one, extra, found)


def _needs(name: str) -> Iterator[tuple[str, str]]:
    """The requirements of an installed package, each with its extra; those without an extra first."""
    try:
        wanted = distribution(name).requires or []
    except PackageNotFoundError:
        wanted = []
    found = []
    for text in wanted:
        package, extra = _NAME.match(text), _EXTRA.search(text)
        if package is not None:
            found.append((extra[1] if extra else "", package[0]))
    return iter(sorted(found))


def _normal(name: str) -> str:
    """A package's name as the index compares it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).casefold()
