"""Texts of the program in another language, by the standard library's gettext; the domain is `hingeside`.

A text for a person is marked as `_("…")`, with named places in braces that are filled afterwards; one that depends on a
count as `ngettext("{count} job", "{count} jobs", count)`. A catalogue must be
in use before the module of a text is imported: texts that are constants are looked up once. Without a catalogue each
text is what is written in the source, and gettext is not imported.
"""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gettext import NullTranslations

DOMAIN = "hingeside"
_catalogue: "NullTranslations | None" = None


def _(text: str) -> str:
    """The text in the language of the catalogue in use; as it is, if there is none."""
    return text if _catalogue is None else _catalogue.gettext(text)


def ngettext(one: str, several: str, count: int) -> str:
    """The form of a text for so many, in the language of the catalogue in use; a language may have more than two."""
    if _catalogue is None:
        return one if count == 1 else several
    return _catalogue.ngettext(one, several, count)


def use_catalogue(folder: Path) -> bool:
    """Use the catalogue of that folder for the person's language (LANGUAGE, LC_ALL, LC_MESSAGES or LANG).

    It is the file `LANGUAGE/LC_MESSAGES/hingeside.mo`. Returns whether there is one.
    """
    import gettext  # only where a catalogue is wanted

    global _catalogue  # noqa: PLW0603 - a language is one for the whole process
    found = gettext.find(DOMAIN, folder)
    _catalogue = gettext.translation(DOMAIN, folder) if found else None
    return bool(found)
