"""The words after the name of a site, and lists of doors, as they are typed."""

from guide.cli.messages import Usage


def listed(doors: str | None) -> list[str]:
    """The doors of `--doors`."""
    return [one.strip() for one in (doors or "").split(",") if one.strip()]


def only(words: list[str], what: str, word: str) -> list[str]:
    """The one word that stands after another. Raises Usage for none or several."""
    if len(words) != 1:
        raise Usage(f"Give one {what}: hingeside site NAME {word} {what}.")
    return words
