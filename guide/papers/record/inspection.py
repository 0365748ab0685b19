"""The items that a fire door's inspection record must have, as far as the run knows them.

Source: NFPA 80 (2013), 5.2.2.4, eleven items; 5.2.2, kept for at least three years. Not checked against later editions.
"""

from guide.run.state import State
from guide.run.texts import show_fact

BLANK = "________"
"""For the pen: the run does not know it."""
FIRE = "fire"
US = "us"
DESCRIBED = ("leaves", "special", "leaf", "frame", "closer_seen", "closer", "arm", "mount")
"""Facts that describe the opening."""
NOT_SAID = (None, "ordinary")
"""What describes nothing: what is not known, and an ordinary leaf."""
KEPT = "Keep this record for at least three years (NFPA 80 5.2.2, 2013)."


def items(state: State, when: str) -> list[tuple[str, str]]:
    """Each item with its value, or a blank; nothing for a door that is not a fire door, or where other rules than those
    of the United States hold. `when` is the local time."""
    if state.known(FIRE) != "yes" or state.about.get("rules", US) != US:
        return []
    about = state.about
    firm = about.get("firm", "")
    known = [show_fact(state, name) for name in DESCRIBED if state.known(name) not in NOT_SAID]
    return [
        ("Date", when),
        ("Facility", about.get("site") or BLANK),
        ("Address of the facility", BLANK),
        ("Names of those who inspect", about.get("name") or BLANK),
        ("Company and its address", f"{firm}, {BLANK}" if firm else BLANK),
        ("Signature", BLANK),
        ("This record is of one door", f"run {state.run[:8]}"),
        ("Opening and where it is", _opening(state)),
        ("Type and description", f"fire door; {'; '.join(known)}" if known else "fire door"),
        ("Looked at and worked", "what was asked, read and done is listed below"),
        ("Deficiencies", "under “What remains” and the rules, below; else none found"),
    ]


def _opening(state: State) -> str:
    parts = [state.about.get(key, "") for key in ("door", "place")]
    return ", ".join(part for part in parts if part) or BLANK
