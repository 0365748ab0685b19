"""Rules of words that contradict each other or their condition: in a step, in an answer, in the name of a case."""

from collections.abc import Iterator
from itertools import pairwise

from guide.checker.bounds import conditions_at, said_in
from guide.checker.contrast import contrary, has_phrase, in_figures, words
from guide.checker.every_way import EveryWay
from guide.checker.manual import at_block, at_part
from guide.checker.rules.answers import shut_out
from guide.files.findings import Finding
from guide.measures import Quantity, parse
from guide.procedure.compiler import LISTED_KEYS
from guide.procedure.conditions import All, Condition, Is, facts_of
from guide.procedure.facts import Fact, Option
from guide.procedure.graph import Graph, Node
from guide.procedure.load import Loaded
from guide.text import names_in
from guide.trade import registry

TOLD = ("do", "work", "time", "check", "hold", "end")
SHORTEST_PART = 4
"""Letters of a word of an answer's name that is looked for in another answer's words."""
SHORTEST_NAME = 5
"""Letters of an answer's name that is looked for in a step's id; “no” and “top” are parts of other words."""


def say_against_text(graph: Graph) -> Iterator[Finding]:
    """Each block whose short words say the opposite of its text, or a number that the text does not have."""
    for node in graph.nodes:
        text, say = node.body.get("text", ""), node.body.get("say", "")
        if node.kind not in (*TOLD, "ask") or not text:
            continue
        told = _told_otherwise(node.id.rpartition("/")[2].replace("-", " "), text, say)
        told = told or _shown_otherwise(graph, node)
        if told:
            message = f"“{node.id}” has {told}; correct one of the two."
            yield at_block(node, "say-against-text", message)


def _told_otherwise(own: str, text: str, say: str) -> str:
    """What of a block's text, short words and id contradicts the rest; empty if nothing does."""
    pairs = (("its text", text, "its say", say), ("its id", own, "its text", text))
    for name, one, other_name, other in (*pairs, ("its id", own, "its say", say)):
        found = contrary(one, other)
        if found is not None:
            return f"“{found[0]}” in {name} and “{found[1]}” in {other_name}"
    return "other numbers in its text than in its say" if _other_number(text, say) else ""


def _shown_otherwise(graph: Graph, node: Node) -> str:
    """What of a block's text contradicts its question, its picture, or what looks right; empty if nothing does."""
    fact = graph.facts.get(node.body.get("fact", ""))
    cases = {
        "its question": fact.ask if fact is not None else "",
        "its looks_right": node.body.get("looks_right", ""),
        "the words of its picture": node.body.get("picture", {}).get("says", ""),
    }
    for name, other in cases.items():
        found = contrary(node.body["text"], other)
        if found is not None:
            return f"“{found[0]}” in its text and “{found[1]}” in {name}"
    return ""


def _other_number(text: str, say: str) -> bool:
    """Whether both have numbers, and the short words one that the text has not."""
    mine = {word for word in words(text) if word.isdigit()}
    theirs = {word for word in words(say) if word.isdigit()}
    return bool(mine) and not theirs <= mine and not mine & theirs


def label_against_words(loaded: Loaded) -> Iterator[Finding]:
    """Each answer whose words are those of another answer of its fact, or the opposite of its own name."""
    for name, fact in loaded.facts.items():
        source, path = loaded.declared[name]
        for option in fact.options.values():
            reason = _other_words(option, fact)
            if reason:
                message = (
                    f"The answer “{option.label}” is shown as {reason}; give each its own words."
                )
                place = (*path, fact.kind, option.label)
                yield at_part(source, place, "label-against-words", message, key=True)


def _other_words(option: Option, fact: Fact) -> str:
    if fact.kind != "choice":
        return ""
    told = _opposite(option)
    if told:
        return f"“{told}”"
    for other in fact.options.values():
        shown = _crossed(option, other) or (_shown_by(option, other) and not _opposite(other))
        if other is not option and shown:
            return f"“{option.text}”, and “{other.label}” as “{other.text}”"
    return ""


def _opposite(option: Option) -> str:
    """The words of an answer that say the opposite of its name; empty if they do not."""
    own = option.label.replace("-", " ")
    return next((told for told in (option.text, option.say) if contrary(own, told)), "")


def _crossed(option: Option, other: Option) -> bool:
    """Whether the words of each answer are the name of the other."""
    own, theirs = option.label.replace("-", " "), other.label.replace("-", " ")
    crossed = has_phrase(option.text, theirs) and has_phrase(other.text, own)
    return crossed and not has_phrase(option.text, own)


def _shown_by(option: Option, other: Option) -> bool:
    """Whether a word of an answer's name, which the other's name has not, is in the other's words alone, and no such
    word of either name is where it belongs."""
    own, theirs = words(option.label.replace("-", " ")), words(other.label.replace("-", " "))
    mine = {word for word in own if word not in theirs and len(word) >= SHORTEST_PART}
    its = {word for word in theirs if word not in own and len(word) >= SHORTEST_PART}
    kept = _begun(mine, option.text) | _begun(its, other.text)
    return bool(_begun(mine, other.text)) and not kept


def _begun(wanted: set[str], text: str) -> set[str]:
    """Those of the words that a word of the text is or begins with, as “pivots” does with “pivot”."""
    return {one for one in wanted if any(word.startswith(one) for word in words(text))}


def words_against_label(graph: Graph) -> Iterator[Finding]:
    """Each block under a condition on one answer, whose id names another answer of that fact, or whose words say
    its opposite."""
    for node, target, condition in _guarded(graph):
        for one, wanted in _labels(condition):
            fact = graph.facts[one]
            told = _contradicted(fact, wanted, target, id_of=node.id)
            if told:
                message = (
                    f"“{told[0]}” is carried out where {one} is {' or '.join(wanted)}, and {told[1]}; "
                    "correct one of the two."
                )
                yield at_block(node, "words-against-label", message)
                break
        else:
            told = shut_out(graph, node, target, condition) if target is not None else None
            if told is not None:
                message = (
                    f"“{node.id.removesuffix('?')}” is about “{told[1]}”, and is not carried out for that answer of "
                    f"{told[0]}; correct one of the two."
                )
                yield at_block(node, "words-against-label", message)


def _guarded(graph: Graph) -> Iterator[tuple[Node, Node | None, Condition]]:
    """Each block or case under a condition: where the finding belongs, the block itself, and the condition."""
    for node in graph.nodes:
        if node.kind == "when" and node.edges[0].guard is not None:
            yield node, graph.nodes[node.edges[0].target], node.edges[0].guard
        elif node.kind == "by_case":
            for edge in node.edges:
                if edge.guard is not None:
                    shown = Node(node.index, edge.label, "case", {}, file=node.file)
                    shown.line, shown.column = node.line, node.column
                    low, high = edge.inside
                    first = graph.nodes[low] if high > low else None
                    yield shown, first if first and first.kind in TOLD else None, edge.guard


def _labels(condition: Condition) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Each fact that a condition holds to some answers, with those answers."""
    if isinstance(condition, All):
        for part in condition.parts:
            yield from _labels(part)
    elif isinstance(condition, Is):
        yield condition.fact, condition.labels


def _contradicted(
    fact: Fact, wanted: tuple[str, ...], target: Node | None, id_of: str
) -> tuple[str, str] | None:
    """The block, and what about it speaks of an answer that its condition shuts out."""
    name = id_of.removesuffix("?").rpartition("/")[2]
    labels = fact.gives_labels if fact.worked else tuple(fact.options)
    own = name.replace("-", " ")
    if not any(has_phrase(own, label.replace("-", " ")) for label in wanted):
        for label in labels:
            if label not in wanted and _named(own, label, whole=target is None):
                return name, f"its id names “{label}”"
    if target is None or not fact.options or len(wanted) != 1 or wanted[0] not in fact.options:
        return None
    option = fact.options[wanted[0]]
    for text in (target.body.get("text", ""), target.body.get("say", "")):
        found = contrary(f"{option.say} {option.label.replace('-', ' ')}", text)
        others = " ".join(o.say for o in fact.options.values() if o is not option)
        if found is not None and found[1] in words(others):
            return name, f"its words say “{found[1]}”"
    return None


def _named(own: str, label: str, *, whole: bool) -> bool:
    """Whether an id names an answer: a case by the whole id, a step by a part of it that is not a common word."""
    phrase = label.replace("-", " ")
    if whole or len(phrase) < SHORTEST_NAME:
        return own == phrase
    return has_phrase(own, phrase)


def when_missing(graph: Graph) -> Iterator[Finding]:
    """Each step whose id names one answer of a fact that is known there, or whose hazard is that of one answer, and
    that is carried out for every answer."""
    ways: EveryWay | None = None
    for node in graph.nodes:
        if node.kind not in ("do", "work"):
            continue
        gated = node.index > 0 and graph.nodes[node.index - 1].id == f"{node.id}?"
        own = "" if gated else node.id.rpartition("/")[2].replace("-", " ")
        for fact in graph.facts.values():
            label = _label_in(own, fact) or _hazard_of(node, fact)
            if not label:
                continue
            ways = ways or EveryWay(graph)
            bits = ways.always[node.index]
            if bits is None or not ways.knows(bits, fact.name) or _decided(graph, node, fact.name):
                continue
            message = (
                f"“{node.id}” names the answer “{label}” of {fact.name}, and is done for every answer; "
                "give it a when, or another name or hazard."
            )
            yield at_block(node, "when-missing", message)
            break


def _hazard_of(node: Node, fact: Fact) -> str:
    """The answer yes of a fact that a hazard of the step is named after, as fire-door is after fire; else empty."""
    named = any(
        has_phrase(one.replace("-", " "), fact.name) for one in node.body.get("hazards", ())
    )
    labels = fact.gives_labels if fact.worked else tuple(fact.options)
    return "yes" if named and "yes" in labels else ""


def _label_in(own: str, fact: Fact) -> str:
    """The one answer of a choice, of two words or more, that an id names; empty if there is none."""
    if fact.kind != "choice":
        return ""
    found = [
        label for label in fact.options if "-" in label and has_phrase(own, label.replace("-", " "))
    ]
    return found[0] if len(found) == 1 else ""


def _decided(graph: Graph, node: Node, name: str) -> bool:
    """Whether a condition around a block, or one that a part of the way there is left by, reads a fact."""
    for other in graph.nodes[: node.index]:
        around = any(low <= node.index < high for low, high in (e.inside for e in other.edges))
        if around:
            for condition in conditions_at(graph, other):
                read = set(facts_of(condition))
                if name in read or any(name in graph.inputs_of(one) for one in read):
                    return True
    return False


def words_against_fixed(graph: Graph) -> Iterator[Finding]:
    """Each computed fact with a fixed measure whose name, or the texts that show it, name another of that kind."""
    for fact in graph.facts.values():
        for wanted, filler in fact.using.items():
            value = _fixed(fact, wanted, filler)
            if value is None:
                continue
            where = next((n for n in graph.nodes if n.body.get("fact") == fact.name), None)
            where = where or next((n for n in graph.nodes if fact.name in n.shows), None)
            if where is not None and _another(graph, fact, value):
                message = (
                    f"“{fact.name}” is computed with {value}, and the words beside it name another "
                    f"{value.kind}; correct one of the two."
                )
                yield at_block(where, "words-against-fixed", message)


def _fixed(fact: Fact, wanted: str, filler: str) -> Quantity | None:
    if not filler.startswith("=") or not fact.computation:
        return None
    kind = next((i.kind for i in registry.find(fact.computation).inputs if i.name == wanted), "")
    try:
        return parse(filler.removeprefix("=").strip(), kind)
    except (ValueError, LookupError):
        return None


def _another(graph: Graph, fact: Fact, value: Quantity) -> bool:
    """Whether the block that presents a computed fact names measures of this kind, and not this one."""
    texts = [
        node.body[key]
        for node in graph.nodes
        if node.kind == "work" and node.body.get("fact") == fact.name
        for key in ("text", "say")
        if key in node.body
    ]
    said = [one.value for text in texts for one in said_in(in_figures(text), value.kind)]
    return bool(said) and value not in said


def words_against_fact(graph: Graph) -> Iterator[Finding]:
    """Each block that shows or asks for a fact where its words speak of that fact's sibling."""
    siblings = _siblings(graph)
    if not siblings:
        return
    for node in graph.nodes:
        shown = [names_in(node.body.get(key, "")) for key in ("text", "say")]
        asked = node.body.get("fact", "") if node.kind in ("ask", "time", "check") else ""
        texts = [node.body.get(key, "") for key in ("text", "say")]
        first = node.id.rpartition("/")[2].partition("-")[0]
        own = f"{first} {node.body.get('fact', '').replace('_', ' ')}"
        cases = [*zip(texts, shown, strict=True), (node.id.replace("-", " "), [asked])]
        cases += [(f"{own} {text}", names) for text, names in zip(texts, shown, strict=True)]
        for text, names in cases:
            other = next(filter(None, (_for_sibling(text, n, names, siblings) for n in names)), "")
            if other:
                message = f"“{node.id}” {other}; name the fact that its words are about, or correct the words."
                yield at_block(node, "words-against-fact", message)
                break


def _siblings(graph: Graph) -> dict[str, list[str]]:
    """Facts named alike but for their first word, such as body_along and shoe_along."""
    found: dict[str, list[str]] = {}
    for name, fact in graph.facts.items():
        head, _, rest = name.partition("_")
        found[name] = [
            other
            for other, its in graph.facts.items()
            if rest and other != name and other.partition("_")[2] == rest and its.kind == fact.kind
            if other.partition("_")[0] != head
        ]
    return {name: others for name, others in found.items() if others}


def _for_sibling(text: str, name: str, shown: list[str], siblings: dict[str, list[str]]) -> str:
    said = set(words(text))
    head = name.partition("_")[0]
    for other in siblings.get(name, ()):
        its = other.partition("_")[0]
        if its in said and head not in said and other not in shown:
            return f"has {name} where its words say “{its}”"
    return ""


def fact_repeated(graph: Graph) -> Iterator[Finding]:
    """Each text that shows one fact twice, and each list that names one twice."""
    for node in graph.nodes:
        lists = [names_in(node.body.get(key, "")) for key in ("text", "say")]
        lists += [list(node.body.get(key, ())) for key in LISTED_KEYS]
        for names in lists:
            twice = next((name for name in names if names.count(name) > 1), "")
            if twice:
                message = (
                    f"“{node.id}” has “{twice}” twice; put the other fact in, or take one out."
                )
                yield at_block(node, "fact-repeated", message)
                break


def swing_split(graph: Graph) -> Iterator[Finding]:
    """Two time blocks, one after the other, of which the second begins where the first ends, and no same_swing."""
    timed = [n for n in graph.nodes if n.kind not in ("when", "by_case")]
    for one, other in pairwise(timed):
        if one.kind == other.kind == "time" and "same_swing" not in one.body:
            ends = _after(_swing_words(graph, one), "to")
            if ends & _after(_swing_words(graph, other), "from"):
                message = (
                    f"“{other.id}” begins where “{one.id}” ends, and each needs a swing of its own; "
                    f"add same_swing: {other.id} to the first."
                )
                yield at_block(one, "swing-split", message)


def _swing_words(graph: Graph, node: Node) -> tuple[str, ...]:
    return words(f"{node.body.get('text', '')} {graph.facts[node.body['fact']].ask}")


def _after(said: tuple[str, ...], word: str) -> set[str]:
    """The nouns that follow “to the” or “from the”."""
    return {said[n + 2] for n in range(len(said) - 2) if said[n : n + 2] == (word, "the")}
