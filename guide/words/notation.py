"""The notation of sequences in a language file: `<whole> and <fraction>`, `[may be left out]`, `(this | that)`.

`<ones:2-7>` is the part of a list of words whose values lie from 2 to 7.
"""

import re

from guide.words.nodes import Either, Maybe, Node, Ref, Seq, Word

_TOKEN = re.compile(r"<[^<>\s]+>|[\[\]()|]|[^\s\[\]()|<>]+|\S")
_CLOSING = {"[": "]", "(": ")"}


def read_notation(text: str) -> Node:
    """The tree of a sequence; ValueError, with the text, where it is not well formed."""
    tokens = _TOKEN.findall(text)
    node, rest = _either(tokens, text)
    if rest:
        raise ValueError(f"“{text}” has a “{rest[0]}” too many.")
    return node


def _either(tokens: list[str], text: str) -> tuple[Node, list[str]]:
    found = []
    while True:
        node, tokens = _sequence(tokens, text)
        found.append(node)
        if not tokens or tokens[0] != "|":
            return (found[0] if len(found) == 1 else Either(tuple(found))), tokens
        tokens = tokens[1:]


def _sequence(tokens: list[str], text: str) -> tuple[Node, list[str]]:
    items: list[Node] = []
    while tokens and tokens[0] not in "])|":
        token, tokens = tokens[0], tokens[1:]
        if token in _CLOSING:
            inner, tokens = _either(tokens, text)
            if not tokens or tokens[0] != _CLOSING[token]:
                raise ValueError(f"“{text}” has a “{token}” that is not closed.")
            tokens = tokens[1:]
            items.append(Maybe(inner) if token == "[" else inner)
        elif token.startswith("<") and len(token) > 2:
            items.append(Ref(token[1:-1]))
        elif token in "<>":
            raise ValueError(f"“{text}” has a “{token}” that names no rule.")
        else:
            items.append(Word(token))
    if not items:
        raise ValueError(f"“{text}” has an empty place; write [ ] around what may be left out.")
    return (items[0] if len(items) == 1 else Seq(tuple(items))), tokens
