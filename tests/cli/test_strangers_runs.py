"""A run whose writer was not this program: every digest right, and its parts of any type. It is read or refused."""

import random
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from guide.cli.main import main
from guide.run.log.form import LogLine, event_line, read_header, read_line
from tests.run.kept_runs import kept_session, lines_of, path_of
from tests.run.small_procedures import give

ODD: tuple[Any, ...] = (
    *(None, 0, -1, 10**30, 1.5, True, "", "x", "\x1b[2J", "36 in", "no such"),
    *([], {}, [[]], {"a": 1}, ["x", "x", "x"]),
)
CHANGES = 80
Place = tuple[int, tuple[str | int, ...]]
"""A line, and the way to one of its parts."""


def parts_of(data: Any, way: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """The way to each part of a body."""
    if way:
        yield way
    inner = (
        data.items()
        if isinstance(data, dict)
        else enumerate(data)
        if isinstance(data, list)
        else ()
    )
    for key, value in inner:
        yield from parts_of(value, (*way, key))


def changed(lines: list[LogLine], place: Place, odd: Any) -> list[LogLine]:
    """The lines with another thing at one place."""
    number, way = place
    made = deepcopy(lines)
    target: Any = made[number].events[0][2]
    for key in way[:-1]:
        target = target[key]
    target[way[-1]] = odd
    return made


def files_of(path: Path, seed: int) -> Iterator[tuple[Place, bytes]]:
    """Copies of a run, each changed at one place and chained anew."""
    header, *raw = lines_of(path)
    lines = [read_line(line[:-1]) for line in raw]
    places = [(n, way) for n, line in enumerate(lines) for way in parts_of(line.events[0][2])]
    pick = random.Random(seed)
    for _ in range(CHANGES):
        place = pick.choice(places)
        texts, previous = [header], read_header(header[:-1]).digest
        for line in changed(lines, place, pick.choice(ODD)):
            text, previous = event_line(line._replace(prev=previous))
            texts.append(text)
        yield place, b"".join(texts)


def test_it_is_read_or_refused_in_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    session = kept_session()
    give(session, "hold", "begin", "done")
    session.close()
    sent = tmp_path / "sent.run"
    for place, content in files_of(path_of(session), seed=12):
        sent.write_bytes(content)
        for call in (("record", str(sent)), ("record", "--verify", str(sent))):
            status = main(list(call))
            out, err = capsys.readouterr()
            assert status in (0, 1, 2, 3), place
            assert (out == "") == (status != 0), place
            assert err.count("\n") == (status != 0), place
            assert all(char.isprintable() for char in (out + err).replace("\n", "")), place
    assert [one.name for one in tmp_path.iterdir()] == ["sent.run"]
