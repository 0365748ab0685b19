"""Phoneme distance: which two English phrases are easily misheard for each other.

Letters become phonemes by letter-to-sound rules and a short list of irregular words. Two phrases are compared
by weighted edit distance (Levenshtein 1965; dynamic programming by Wagner and Fischer 1974), with a cost for
each pair of phonemes and for each one that is missed:

    D[i, j] = min(D[i-1, j-1] + taken(a_i, b_j), D[i-1, j] + missed(a_i), D[i, j-1] + missed(b_j))
    distance = min(1, D[m, n] / max(m, n))

No dictionary and no recogniser is used, so that the result does not depend on what is installed. The rules are
common knowledge of English spelling. The costs are our judgement, checked against the examples of the tests.
A phoneme is one character:

    a e i o u   as in cat, bed, tin, lot, cup        A E Y O U   as in day, see, high, go, two
    W Q R       as in now, boy, her                  S C T N j   as in ship, chip, thin, ring, jam
    others      as they are written
"""

import re
from functools import lru_cache

LIMIT = 0.25
"""Two phrases with a smaller distance are easily misheard for each other."""

LONGEST = 40
"""Phonemes of a phrase. Longer ones differ somewhere, and nobody says them to a machine."""

_IRREGULAR = {
    "a": "u", "again": "ugen", "are": "ar", "before": "bEfor", "board": "bord", "both": "bOT",
    "break": "brAk", "choose": "CUz", "clear": "klEr", "do": "dU", "does": "duz", "done": "dun",
    "don't": "dOnt", "door": "dor", "eight": "At", "eye": "Y", "floor": "flor", "four": "for",
    "give": "giv", "glue": "glU", "gone": "gon", "great": "grAt", "half": "haf", "have": "hav",
    "head": "hed", "hour": "Wr", "i": "Y", "i'm": "Ym", "iron": "YRn", "know": "nO", "known": "nOn",
    "lead": "led", "live": "liv", "lose": "lUz", "low": "lO", "none": "nun", "of": "uv", "off": "of",
    "one": "wun", "once": "wuns", "only": "OnlE", "other": "uTR", "own": "On", "pull": "pul",
    "push": "puS", "put": "put", "ready": "redE", "said": "sed", "says": "sez", "seven": "sevun",
    "show": "SO", "slow": "slO", "slower": "slOR", "some": "sum", "straight": "strAt", "sure": "Sur",
    "the": "Tu", "there": "Ter", "through": "TrU", "to": "tU", "too": "tU", "tread": "tred",
    "two": "tU", "was": "woz", "what": "wot", "where": "wer", "who": "hU", "window": "windO",
    "won": "wun", "would": "wud", "could": "kud", "should": "Sud", "wood": "wud", "you": "yU",
    "yellow": "yelO", "narrow": "narO", "below": "bElO", "hollow": "holO", "good": "gud",
    "foot": "fut", "aluminium": "alUminEum", "butt": "but", "blow": "blO", "throw": "TrO",
}  # fmt: skip
"""Everyday and trade words that the rules below would pronounce wrongly."""

_RULES = tuple(
    (re.compile(letters), sounds)
    for letters, sounds in (
        (r"\bkn", "n"), (r"\bgn", "n"), (r"\bwr", "r"), (r"\bwh", "w"), (r"\bx", "z"),
        (r"tch", "C"), (r"ch", "C"), (r"sch", "sk"), (r"sh", "S"), (r"th", "T"), (r"ph", "f"),
        (r"ck", "k"), (r"dge", "j"), (r"ng\b", "N"), (r"nge", "nj"), (r"qu", "kw"), (r"gh\b", ""),
        (r"ation", "ASun"), (r"[st]ion", "Sun"), (r"ture\b", "CR"),
        (r"eigh", "A"), (r"aigh", "A"), (r"igh", "Y"), (r"ought", "ot"), (r"aught", "ot"),
        (r"mb\b", "m"), (r"(?<=[bdfgkpt])le\b", "ul"), (r"(?<=[bdfgkpt])les\b", "ulz"),
        (r"(?<=[^aeiou])ed\b", "d"), (r"ee", "E"), (r"ea", "E"), (r"ie(?=[a-z])", "E"), (r"ie\b", "Y"),
        (r"ai", "A"), (r"ay", "A"), (r"ey\b", "E"), (r"ei", "A"), (r"oa", "O"), (r"oe\b", "O"),
        (r"oo", "U"), (r"ou", "W"), (r"ow", "W"), (r"oi", "Q"), (r"oy", "Q"), (r"au", "o"), (r"aw", "o"),
        (r"ew", "U"), (r"ue\b", "U"), (r"ui", "U"), (r"old", "Old"), (r"olt", "Olt"), (r"ind\b", "Ynd"),
        (r"a(?=[bcdfgklmnpstvz]e\b)", "A"), (r"i(?=[bcdfgklmnpstvz]e\b)", "Y"),
        (r"o(?=[bcdfgklmnpstvz]e\b)", "O"), (r"u(?=[bcdfgklmnpstvz]e\b)", "U"),
        (r"a(?=[bcdfgklmnpstvz]es\b)", "A"), (r"i(?=[bcdfgklmnpstvz]es\b)", "Y"),
        (r"o(?=[bcdfgklmnpstvz]es\b)", "O"), (r"e(?=re\b)", "E"), (r"i(?=re\b)", "Y"),
        (r"(?<=[a-z])e\b", ""), (r"er", "R"), (r"ir", "R"), (r"ur", "R"), (r"ear", "Er"),
        (r"o\b", "O"), (r"(?<=[a-z])y\b", "E"), (r"(?<=[^aeiou])y(?=[^aeiou])", "i"),
        (r"c(?=[eiy])", "s"), (r"c", "k"), (r"g(?=[iy]|e[^rtal])", "j"), (r"x", "ks"), (r"q", "k"),
        (r"ss", "s"), (r"(?<=[bdglmnrvy])s\b", "z"), (r"([bdfgklmnprtvz])\1", r"\1"),
    )
)  # fmt: skip
"""Letters and their phonemes; at each place in a word the first rule that fits applies."""

_NUMBERS = dict(
    enumerate(
        ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
    )
)

TAKEN_FOR = frozenset(
    frozenset(pair)
    for pair in (
        ("five", "nine"),
        ("four", "for"),
        ("latch", "last"),
        ("no", "now"),
        ("on", "off"),
        ("one", "four"),
        ("yes", "yet"),
        ("can", "can't"),
    )
)
"""Phrases that are misheard for each other in a noisy room although their phonemes differ more. Radio procedure
changes five and nine for this reason: “fife”, “niner” (ICAO Annex 10, volume II, pronunciation of numbers)."""

_VOWELS = "aeiouAEYOUWQR"
_NEAR = (
    ("pb", 0.3), ("td", 0.3), ("kg", 0.3), ("fv", 0.3), ("sz", 0.3), ("SC", 0.4), ("Cj", 0.3),
    ("Tf", 0.3), ("Ts", 0.5), ("Tt", 0.5), ("Tv", 0.5), ("mn", 0.4), ("nN", 0.3), ("rl", 0.6), ("rw", 0.6),
    ("wv", 0.5), ("sS", 0.5), ("zj", 0.6), ("ptk", 0.6), ("bdg", 0.6), ("hf", 0.6),
    ("iE", 0.3), ("ie", 0.4), ("ea", 0.4), ("eA", 0.4), ("EA", 0.6), ("ou", 0.4), ("oO", 0.4), ("uU", 0.4),
    ("OU", 0.6), ("AY", 0.6), ("aW", 0.5), ("oW", 0.5), ("au", 0.5), ("QO", 0.6), ("uR", 0.4), ("YQ", 0.6),
)  # fmt: skip
"""Groups of phonemes that are near each other, and the cost of each pair in a group; else the cost is 1."""

_COST = {(a, b): cost for group, cost in reversed(_NEAR) for a in group for b in group if a != b}
_SOUNDS = "abcdefghijklmnopqrstuvwxyzAEYOUWQRSCTN"
_ROUNDING = 1e-9
_WEAK = {"h": 0.4, "u": 0.5, "i": 0.6, "n": 0.7, "l": 0.7, "r": 0.7, "t": 0.7, "d": 0.7}
"""The cost of missing a phoneme that is easily missed; else the cost is 1."""


@lru_cache(maxsize=4096)
def sounds(saying: str) -> str:
    """The phonemes of a phrase, without the pauses between its words."""
    words = re.findall(r"[a-z']+|\d+", saying.casefold().replace("’", "'"))
    return "".join(_of_word(word) for word in words)


@lru_cache(maxsize=4096)
def _of_word(word: str) -> str:
    if word.isdigit():
        number = _NUMBERS.get(int(word)) if len(word) < 3 else None
        return _of_word(number) if number else "".join(_of_word(_NUMBERS[int(d)]) for d in word)
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    word = word.replace("'", "")
    found, place = "", 0
    while place < len(word):
        for letters, said in _RULES:
            match = letters.match(word, place)
            if match is not None and match.end() > place:
                found += match.expand(said)
                place = match.end()
                break
        else:
            found += word[place]
            place += 1
    return re.sub(r"(.)\1", r"\1", found)


def distance(one: str, other: str) -> float:
    """The phoneme distance of two phrases: 0 for the same phonemes, 1 for nothing in common.

    `alike` compares it with LIMIT and stops as early as it can; this gives the whole number.
    """
    return _apart(sounds(one), sounds(other), 1.0)


def _apart(a: str, b: str, most: float) -> float:
    """The distance of two rows of phonemes; 1 as soon as it is known to be `most` or more."""
    if not a or not b:
        return float(a != b)
    longest = max(len(a), len(b))
    missed = [_WEAK.get(sound, 1.0) for sound in b]
    row = [0.0]
    for cost in missed:
        row.append(row[-1] + cost)
    for sound in a:
        skipped = _WEAK.get(sound, 1.0)
        before, row = row, [row[0] + skipped]
        for place, heard in enumerate(b):
            least = before[place] if sound == heard else before[place] + _taken(sound, heard)
            least = min(least, before[place + 1] + skipped, row[place] + missed[place])
            row.append(least)
        if min(row) >= most * longest:
            return 1.0
    return min(1.0, row[-1] / longest)


@lru_cache(maxsize=1 << 16)
def alike(one: str, other: str) -> bool:
    """Whether two phrases are easily misheard for each other."""
    if _plain(one, other) in TAKEN_FOR:
        return True
    a, b = sounds(one), sounds(other)
    if len(a) > LONGEST or len(b) > LONGEST or _far(a, b) or _far(b, a):
        return False
    return _apart(a, b, LIMIT) < LIMIT


def _far(a: str, b: str) -> bool:
    """Whether a lower bound of the distance, which ignores the order of the phonemes, is above LIMIT.

    Each phoneme of the first row is missed or taken for some phoneme of the other. This alone decides nearly all
    pairs, in far less time.
    """
    least = _least(b)
    return sum([least[sound] for sound in a]) > LIMIT * max(len(a), len(b)) + _ROUNDING


@lru_cache(maxsize=4096)
def _least(row: str) -> dict[str, float]:
    """For each phoneme: the least cost of missing it or of taking it for one of this row."""
    missed = [_WEAK.get(sound, 1.0) for sound in _SOUNDS]
    return dict(zip(_SOUNDS, map(min, missed, missed, *map(_costs, set(row))), strict=True))


@lru_cache(maxsize=64)
def _costs(heard: str) -> list[float]:
    """The cost of taking each phoneme for this one."""
    return [0.0 if sound == heard else _taken(sound, heard) for sound in _SOUNDS]


def _plain(one: str, other: str) -> frozenset[str]:
    return frozenset((_evenly_spaced(one), _evenly_spaced(other)))


@lru_cache(maxsize=4096)
def _evenly_spaced(saying: str) -> str:
    return " ".join(saying.casefold().split())


def _taken(sound: str, heard: str) -> float:
    """The cost of taking one phoneme for another."""
    both_vowels = sound in _VOWELS and heard in _VOWELS
    return _COST.get((sound, heard), 0.8 if both_vowels else 1.0)
