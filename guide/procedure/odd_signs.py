"""Signs that a word processor puts into a comparison, or a hand in the wrong order, and those that are read."""

import re

SIGNS = {"≤": "<=", "≥": ">=", "⩽": "<=", "⩾": ">=", "≦": "<=", "≧": ">="}
TURNED = re.compile(r"(=\s*(?P<turned>[<>])|(?P<apart>[<>])\s+=|(?P<doubled>=)\s*=)\s*")
"""`=<`, `=>`, `< =` and `==` at the beginning of a comparison."""
CURLY = "“”„‟‘’‚‛«»"


def plain_signs(text: str) -> str:
    """The comparison as it can be read, in quotes; empty if it has none of these signs."""
    plain = text.strip(CURLY).strip()
    for odd, sign in SIGNS.items():
        plain = plain.replace(odd, sign)
    match = TURNED.match(plain)
    if match is not None:
        order = match["turned"] or match["apart"] or ""
        plain = f"{order}= {plain[match.end() :]}"
    return f'"{plain}"' if plain != text.strip() else ""
