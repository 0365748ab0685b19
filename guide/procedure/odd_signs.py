"""Signs that a word processor puts into a comparison, and the same comparison in the signs that are read."""

SIGNS = {"≤": "<=", "≥": ">=", "⩽": "<=", "⩾": ">=", "≦": "<=", "≧": ">="}
CURLY = "“”„‟‘’‚‛«»"


def plain_signs(text: str) -> str:
    """The comparison as it can be read, in quotes; empty if it has none of these signs."""
    plain = text.strip(CURLY).strip()
    for odd, sign in SIGNS.items():
        plain = plain.replace(odd, sign)
    return f'"{plain}"' if plain != text.strip() else ""
