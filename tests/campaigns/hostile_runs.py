"""Runs as a stranger might write them: a true run's lines, changed at random, each line with its right digest."""

import copy
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

from guide.run.log.form import packed, unpacked
from tests.run.kept_runs import chained_anew, parsed

Lines = list[dict[str, Any]]
"""The lines of a run as data, the header first; the graph of the start is unpacked."""
Place = tuple[Any, Any]
"""A mapping or a list, and a key or an index in it."""

ODD_VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 10**9, 10**30, -(10**30), 1e308, -0.5, 2**63),
    *("", " ", "NaN", "parsec", "hello", "1/0 in", "1e400 in", "36 parsec", "9" * 5000, "-1 in"),
    *("\x1b[31mred\x1b[0m", "\x9b31m", "\u202edesrever", "\u200b", "a\nb\tc", "\x00", "\ud800"),
    *("{width}", "{nobody}", "{", "{{}}", "{" * 2000, "unsure", "none", "x" * 100_000),
    *("how-wide#1", "how-wide#99999999999999999999", "#", "../../etc/passwd", "=1+1"),
    *([], {}, [[]], {"": ""}, [None], ["x"] * 2000, {"a": {"b": {"c": []}}}),
)


def walk(data: Any) -> list[Place]:
    """Every place in nested data, from the top."""
    found: list[Place] = []
    todo = [data]
    while todo:
        here = todo.pop()
        keys = list(here) if isinstance(here, dict) else range(len(here))
        for key in keys:
            found.append((here, key))
            if isinstance(here[key], dict | list):
                todo.append(here[key])
    return found


def start(lines: Lines) -> dict[str, Any]:
    """The body of a run's first event."""
    body: dict[str, Any] = lines[1]["events"][0][2]
    return body


# --- small changes, at one place ---


def a_place(lines: Lines, pick: random.Random) -> Place:
    """A place of the events' bodies: mostly in the graph or the sheet, which hold the most."""
    body = start(lines)
    parts = [body["graph"], body["graph"]["nodes"], body["graph"]["facts"]]
    parts += [body, body["about"], lines[pick.randrange(1, len(lines))]["events"]]
    parts += [body["sheet"]] if body.get("sheet") else []
    places = walk(pick.choice(parts))
    return pick.choice(places) if places else (body, "units")


def another_value(lines: Lines, pick: random.Random) -> None:
    """A value of another kind, or one that no file of ours has."""
    holder, key = a_place(lines, pick)
    holder[key] = copy.deepcopy(pick.choice(ODD_VALUES))


def left_out(lines: Lines, pick: random.Random) -> None:
    """Something left out."""
    holder, key = a_place(lines, pick)
    del holder[key]


def added(lines: Lines, pick: random.Random) -> None:
    """Something that no version knows."""
    holder, key = a_place(lines, pick)
    odd = copy.deepcopy(pick.choice(ODD_VALUES))
    if isinstance(holder, dict):
        holder[pick.choice(("zeta", "\x1b[2J", "", "at", "fact"))] = odd
    else:
        holder.insert(int(key), odd)


def exchanged(lines: Lines, pick: random.Random) -> None:
    """Two places with each other's values."""
    (one, here), (other, there) = a_place(lines, pick), a_place(lines, pick)
    one[here], other[there] = copy.deepcopy(other[there]), copy.deepcopy(one[here])


def another_number(lines: Lines, pick: random.Random) -> None:
    """A whole number that is another one."""
    places = [(h, k) for h, k in walk(start(lines)) if isinstance(h[k], int)]
    holder, key = pick.choice(places)
    holder[key] = pick.choice((-1, 0, holder[key] + 1, 10**6, 2**31, 2**70, pick.randrange(400)))


def another_text(lines: Lines, pick: random.Random) -> None:
    """A text of the right place with signs in it that do what no text should."""
    places = [(h, k) for h, k in walk(start(lines)) if isinstance(h[k], str)]
    holder, key = pick.choice(places)
    odd = ("\x1b[2J", "\u202e", "\x9b", "\u2028", "\x07", "{nobody}", "{", " in in", "/0", "9" * 60)
    holder[key] = pick.choice((f"{holder[key]}{pick.choice(odd)}", f"{pick.choice(odd)}"))


def other_events(lines: Lines, pick: random.Random) -> None:
    """Lines in another order, twice, or of another kind."""
    number = pick.randrange(1, len(lines))
    how = pick.randrange(4)
    if how == 0:
        lines.insert(number, copy.deepcopy(lines[pick.randrange(1, len(lines))]))
    elif how == 1:
        del lines[number]
    elif how == 2:
        rest = lines[number:]
        pick.shuffle(rest)
        lines[number:] = rest
    else:
        kinds = ("started", "answered", "worked", "cut resolved", "repaired", "ended", "timed")
        more = ("hold passed", "photo added", "corrected", "unheard of", "")
        lines[number]["events"][0][1] = pick.choice((*kinds, *more))


# --- large changes ---


def loops_without_end(lines: Lines, pick: random.Random) -> None:
    """Ways that lead back, past what was answered already."""
    graph = start(lines)["graph"]
    nodes = graph["nodes"]
    for _ in range(pick.choice((1, 3, 40))):
        low = pick.randrange(len(nodes))
        high = pick.randrange(low, len(nodes))
        number = len(graph["loops"])
        graph["loops"].append([low, high, pick.choice((0, 1, 10**9))])
        for edge in nodes[high][3]:
            edge[0], edge[4] = low, pick.choice((number, number, -1))


def all_go_round(lines: Lines, pick: random.Random) -> None:
    """A procedure of jumps alone."""
    graph = start(lines)["graph"]
    count = pick.choice((1, 2, 50, 5000))
    ways = [[[(n + 1) % count, "go", None, [0, count], 0]] for n in range(count)]
    graph["nodes"] = [
        [f"j{n}>", "go", {"id": f"j{n}>"}, ways[n], [0], [], "a.yaml", 1, 1] for n in range(count)
    ]
    graph["loops"] = [[0, count - 1, 0]]
    graph["limits"] = graph["untils"] = []


def repeats_in_repeats(lines: Lines, pick: random.Random) -> None:
    """Repeats within each other that each go round their most times, with nobody asked."""
    graph = start(lines)["graph"]
    depth = pick.choice((2, 5, 30))
    most = pick.choice((3, 50, 10**9))
    never = ["not", ["known", "nobody"]] if pick.random() < 0.5 else ["known", "nobody"]
    graph["nodes"] = [
        [
            *(f"r{n}", "repeat", {"id": f"r{n}"}),
            [
                [n + 1, "until", never, [0, 0], -1],
                [0, "again", None, [0, 0], n],
                [n + 1, "spent", None, [0, 0], -1],
            ],
            *([n], [], "a.yaml", 1, 1),
        ]
        for n in range(depth)
    ]
    end = {"id": "end", "outcome": "finished", "text": "Done."}
    graph["nodes"].append(["end", "end", end, [], [], [], "a.yaml", 1, 1])
    graph["loops"] = [[0, n, most] for n in range(depth)]
    graph["untils"] = [[n, never] for n in range(depth)]
    graph["limits"] = []


def huge_conditions(lines: Lines, pick: random.Random) -> None:
    """Conditions that are deep, or broad."""
    graph = start(lines)["graph"]
    edges = [edge for node in graph["nodes"] for edge in node[3]]
    name = graph["facts"][0]["name"]
    inner: Any = ["is", name, ["x"] * pick.choice((1, 10_000))]
    for _ in range(pick.choice((1, 30, 45))):
        inner = ["not", inner] if pick.random() < 0.5 else ["any", [inner]]
    if pick.random() < 0.5:
        inner = ["all", [["not", ["is", name, ["zz"]]]] * 20_000]
    for edge in pick.sample(edges, min(5, len(edges))):
        edge[2] = inner


def facts_of_themselves(lines: Lines, pick: random.Random) -> None:
    """Computed facts that need each other, in a ring or in a lattice."""
    facts = start(lines)["graph"]["facts"]
    count = pick.choice((1, 30, 400))
    names = [f"f{n}" for n in range(count)]
    for n in range(count):
        first, second = names[(n + 1) % count], names[(n + 2) % count]
        using = {"a": first, "b": second}
        more = {"computation": "chord", "gives": "length", "using": using}
        facts.append({"name": names[n], "kind": "worked", **more})
    old = facts[0]["name"]
    for holder, key in walk(start(lines)["graph"]["nodes"]):
        if holder[key] == old:
            holder[key] = names[0]


def very_many_events(lines: Lines, pick: random.Random) -> None:
    """As many events as fit, and each goes through the whole procedure again."""
    last = lines[-1]
    kind, body = pick.choice(
        (
            ("noted", {"at": "", "text": "x" * 500}),
            ("resumed", {}),
            ("paused", {}),
            ("worked", {"fact": "size", "inputs": {}, "value": "3"}),
            _an_answer_again(lines),
        )
    )
    more = {**last, "events": [["0" * 32, kind, body]]}
    lines += [more] * pick.choice((1000, 10_000))


def _an_answer_again(lines: Lines) -> tuple[str, dict[str, Any]]:
    for line in lines:
        for _, kind, body in line.get("events", ()):
            if kind == "answered":
                return "revised", body
    return "paused", {}


def very_many_at_once(lines: Lines, pick: random.Random) -> None:
    """One line with very many events."""
    one = pick.choice((["0" * 32, "paused", {}], ["1" * 32, "resumed", {}]))
    lines[-1]["events"] += [one] * pick.choice((5000, 60_000))


def very_much_of_it(lines: Lines, pick: random.Random) -> None:
    """A list of the graph with very many entries."""
    graph = start(lines)["graph"]
    places = [(h, k) for h, k in walk(graph) if isinstance(h[k], list) and h[k]]
    holder, key = pick.choice(places)
    holder[key] = [pick.choice(holder[key])] * pick.choice((3000, 30_000))


def deep(lines: Lines, pick: random.Random) -> None:
    """Mappings in mappings."""
    holder, key = a_place(lines, pick)
    inner: Any = "x"
    for _ in range(pick.choice((60, 95, 150, 900))):
        inner = {"a": inner} if pick.random() < 0.5 else [inner]
    holder[key] = inner


def another_sheet(lines: Lines, pick: random.Random) -> None:
    """A sheet that is not one."""
    start(lines)["sheet"] = pick.choice(
        ("hello", [], {}, {"sheet": "hello"}, {"sheet": 3}, {"sheet": "a", "form": 1}, 0, True)
    )


def other_units(lines: Lines, pick: random.Random) -> None:
    """Units, names and values that do not go together."""
    body = start(lines)
    key = pick.choice(("units", "about", "supplied", "title", "procedure", "digest", "offset"))
    body[key] = copy.deepcopy(pick.choice(("parsec", *ODD_VALUES)))


def other_photos(lines: Lines, pick: random.Random) -> None:
    """Photos that name other files, are of another size or say odd words; very many of them, and some where no photo
    can be."""
    photos = [event[2] for line in lines for event in line["events"] if event[1] == "photo added"]
    photo = copy.deepcopy(pick.choice(photos))
    odd: dict[str, tuple[Any, ...]] = {
        "sha256": ("../../../etc/passwd", "f" * 64, "F" * 64, "0" * 63, "a/b", "\x00" * 64),
        "original": ("f" * 64, "..", photo["sha256"]),
        "name": (
            "../../etc/passwd",
            "x" * 400,
            "x" * 401,
            "\x1b[2J.jpg",
            "\u202egpj.exe",
            "/dev/zero",
        ),
        "bytes": (0, 1, 10**9, 10**12, -1, True, "1"),
        "shows": ("", "\x1b[31mred", "{nobody}", "<img src=x>", "=1+1", "x" * 100_000),
        "at": ("", "nowhere", "how-wide#99", "wedge#1"),
    }
    for key in pick.sample(sorted(odd), pick.choice((1, 1, 2, 6))):
        photo[key] = pick.choice((*odd[key], *ODD_VALUES))
    event = ["2" * 32, "photo added", photo]
    lines.insert(
        pick.randrange(2, len(lines) + 1),
        {**lines[-1], "events": [event] * pick.choice((1, 1, 2, 400))},
    )


SMALL: tuple[Callable[[Lines, random.Random], None], ...] = (
    *(another_value, left_out, added, exchanged, another_number, another_text, other_events),
)
LARGE: tuple[Callable[[Lines, random.Random], None], ...] = (
    *(loops_without_end, all_go_round, repeats_in_repeats, huge_conditions, facts_of_themselves),
    *(very_many_events, very_many_at_once, very_much_of_it, deep, another_sheet, other_units),
    *(other_photos, other_photos),
)


def unpacked_lines(path: Path) -> Lines:
    """A true run as data, its graph too."""
    lines = parsed(path)
    body = start(lines)
    body["graph"] = unpacked(body["graph"])
    return lines


def hostile(true: Lines, pick: random.Random) -> tuple[str, Lines]:
    """A hostile run, and how it was made."""
    lines = copy.deepcopy(true)
    few = pick.choice((1, 1, 1, 2, 5))
    chosen = pick.choices(SMALL, k=few) if pick.random() < 0.6 else [pick.choice(LARGE)]
    for change in chosen:
        try:
            change(lines, pick)
        except (LookupError, TypeError, AttributeError, ValueError):
            continue  # an earlier change has left nothing for this one to change
    return "+".join(change.__name__ for change in chosen), lines


def write(path: Path, lines: Lines) -> bool:
    """Write a run with right digests; False where not even its writer could write it so."""
    if len(lines) < 2:
        return False
    first = copy.copy(lines[1])
    try:
        (id_, kind, body), *more = first["events"]
        first["events"] = [[id_, kind, {**body, "graph": packed(body["graph"])}], *more]
    except (LookupError, TypeError, ValueError, RecursionError):
        first = lines[1]
    try:
        chained_anew(path, [lines[0], first, *lines[2:]])
    except (TypeError, ValueError, RecursionError):
        return False
    return True
