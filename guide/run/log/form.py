"""The form of a line: ASCII JSON with sorted keys and its own digest last, chained to the line before it.

The first line, the header, says whose file it is; each one after it holds the events that were kept together, all or
none. A line's digest is SHA-256 of its bytes before `,"digest"`. The compiled graph of a run is compressed.
"""

import base64
import binascii
import hashlib
import json
import re
import zlib
from collections.abc import Callable, Iterable
from typing import Any, NamedTuple, NoReturn

from guide.files.stored_form import STORED_FORM

LINE_AT_MOST = 1 << 20
GRAPH_AT_MOST = 1 << 20
"""Bytes of a line, and of the plain JSON of a graph. The largest procedure shipped has 0.2 MB."""
FILE_AT_MOST = 12 << 20
EVENTS_AT_MOST = 8_000
"""Bytes and events of a run. A job of a day has some hundred events."""
DEPTH_AT_MOST = 100
"""Mappings and lists within each other."""
MARK = b'"hingeside":"run"'
"""What every header holds, of whatever version."""
_END = re.compile(rb',"digest":"([0-9a-f]{64})"\}')
_END_LENGTH = 77
_TAIL = re.compile(
    rb'"n":(\d{1,9}),"offset":"[^"\\]{1,12}","prev":"([0-9a-f]{64})","utc":"[^"\\]{1,30}"'
    rb',"digest":"[0-9a-f]{64}"\}\Z'
)
_TAIL_AT_MOST = 300
"""How a line ends: its keys are sorted."""
DIGEST = re.compile(r"[0-9a-f]{64}")
"""The digest of a line, or of any other file."""
_DIGEST = re.compile(rf"(?:{DIGEST.pattern})?")
_ID = re.compile(r"[0-9a-f]{32}")
_UTC = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z")
_OFFSET = re.compile(r"[+-]\d\d:\d\d(?::\d\d)?")
_WORD = re.compile(r".{0,200}", re.DOTALL)

Unpack = Callable[[Any], Any]
"""What gives the compiled graph that a run's start holds compressed, as plain data."""


class BadLine(ValueError):
    """A line that is not what was written."""


class Header(NamedTuple):
    """The first line of a log."""

    run: str
    device: str
    program: str
    """The version of the program that began the run."""
    digest: str


EventParts = tuple[str, str, dict[str, Any]]
"""Id, kind and body of an event; the line has the rest."""


class LogLine(NamedTuple):
    """A line after the first."""

    n: int
    """Its number; the header has 0."""
    prev: str
    """The digest of the line before it."""
    at: str
    """The block at which the run stands after it."""
    by: str
    device: str
    utc: str
    offset: str
    events: tuple[EventParts, ...]
    digest: str = ""


def header_line(run: str, device: str, program: str) -> tuple[bytes, str]:
    """The first line of a log, and its digest."""
    data = {"hingeside": "run", "format": STORED_FORM, "n": 0, "prev": ""}
    return _digested(data | {"run": run, "device": device, "program": program})


def event_line(line: LogLine) -> tuple[bytes, str]:
    """A line in writing, its end of line with it, and its digest. Raises ValueError for what JSON cannot hold."""
    events = [[id_, kind, _packed(kind, body)] for id_, kind, body in line.events]
    data = {
        "n": line.n,
        "prev": line.prev,
        "at": line.at,
        "by": line.by,
        "device": line.device,
        "utc": line.utc,
        "offset": line.offset,
        "events": events,
    }
    return _digested(data)


def format_of(raw: bytes) -> int | None:
    """The number of the form that a first line names; None where it names none. Its digest is not looked at, for
    another version may make it otherwise."""
    try:
        data = json.loads(raw)
    except (ValueError, RecursionError):
        return None
    form = data.get("format") if isinstance(data, dict) else None
    return form if isinstance(form, int) and not isinstance(form, bool) else None


def read_header(raw: bytes) -> Header:
    """The first line, without its end of line. Raises BadLine."""
    data, digest = _read(raw)
    _need(set(data) == {"hingeside", "format", "n", "prev", "run", "device", "program"})
    _need((data["hingeside"], data["format"], data["prev"]) == ("run", STORED_FORM, ""))
    _need(data["n"] == 0)
    _need_texts((data["run"], _ID), (data["device"], _WORD), (data["program"], _WORD))
    return Header(data["run"], data["device"], data["program"], digest)


def read_line(raw: bytes, *, graph: bool | Unpack = True) -> LogLine:
    """A line after the first, without its end of line; with `graph` False a graph stays compressed. Raises BadLine.

    `graph` may be what unpacks a graph, for those who read many runs of one procedure.
    """
    data, digest = _read(raw)
    _need(set(data) == {"n", "prev", "at", "by", "device", "utc", "offset", "events"})
    words = ("at", "by", "device")
    _need_texts((data["utc"], _UTC), (data["offset"], _OFFSET), (data["prev"], _DIGEST))
    _need_texts(*((data[name], _WORD) for name in words))
    _need(isinstance(data["n"], int) and isinstance(data["events"], list) and data["events"] != [])
    unpack = unpacked if graph is True else graph or None
    events = tuple(_event(one, unpack) for one in data["events"])
    del data["events"]
    return LogLine(**data, events=events, digest=digest)


def _event(data: Any, unpack: Unpack | None) -> EventParts:
    _need(isinstance(data, list) and len(data) == 3)
    id_, kind, body = data
    _need_texts((id_, _ID), (kind, _WORD))
    _need(isinstance(body, dict))
    if kind == "started" and unpack is not None:
        body = body | {"graph": unpack(body.get("graph"))}
    return id_, kind, body


# --- digests ---


def plain(data: Any) -> bytes:
    """Plain JSON in the one writing that is digested: ASCII, sorted keys, no blanks, no NaN."""
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return text.encode("ascii")


def before_of(raw: bytes) -> tuple[int, str] | None:
    """The number of a line after the first, and the digest of the one before it, from how every line ends; what else it
    says is not read. None where it does not end so."""
    found = _TAIL.search(raw, max(0, len(raw) - _TAIL_AT_MOST))
    return None if found is None else (int(found[1]), found[2].decode())


def chain_of(lines: Iterable[bytes]) -> list[str]:
    """The digest of each line, without reading what they say. Raises BadLine where one is wrong or does not name the
    one before it."""
    digests: list[str] = []
    for raw in lines:
        before = digests[-1] if digests else ""
        end = _END.fullmatch(raw[-_END_LENGTH:])
        digest = hashlib.sha256(raw[:-_END_LENGTH]).hexdigest()
        _need(end is not None and end[1] == digest.encode())
        _need(b'"prev":"%b"' % before.encode() in raw)
        digests.append(digest)
    return digests


def _digested(data: dict[str, Any]) -> tuple[bytes, str]:
    before = plain(data)[:-1]
    digest = hashlib.sha256(before).hexdigest()
    return before + b',"digest":"' + digest.encode() + b'"}\n', digest


def _read(raw: bytes) -> tuple[dict[str, Any], str]:
    """A line without its digest, and the digest, which is right."""
    end = _END.fullmatch(raw[-_END_LENGTH:])
    before = raw[:-_END_LENGTH]
    _need(len(raw) < LINE_AT_MOST and end is not None and before[:1] == b"{")
    assert end is not None  # just needed
    digest = hashlib.sha256(before).hexdigest()
    _need(digest.encode() == end[1])
    data = _parsed(before + b"}")
    _need(isinstance(data, dict))
    return data, digest


def _parsed(text: bytes) -> Any:
    """Plain JSON in its one writing, of a bounded depth. Raises BadLine."""
    try:
        data = json.loads(text, parse_constant=_no_constant)
        _need_shallow(data)
        _need(plain(data) == text)
    except (ValueError, RecursionError) as error:
        raise BadLine("not the writing of a log") from error
    return data


def _no_constant(name: str) -> NoReturn:
    raise BadLine(f"{name} is not a number")


def _need_shallow(data: Any) -> None:
    level: list[Any] = [data]
    for _ in range(DEPTH_AT_MOST):
        level = [inner for one in level for inner in _within(one)]
        if not level:
            return
    raise BadLine("too deep")


def _within(data: Any) -> Iterable[Any]:
    if isinstance(data, dict):
        return data.values()
    return data if isinstance(data, list) else ()


def _need(right: bool) -> None:
    if not right:
        raise BadLine("not a line of a log")


def _need_texts(*texts: tuple[Any, re.Pattern[str]]) -> None:
    for text, form in texts:
        _need(isinstance(text, str) and form.fullmatch(text) is not None)


# --- the graph of a run's start ---


def _packed(kind: str, body: dict[str, Any]) -> dict[str, Any]:
    return body if kind != "started" else body | {"graph": packed(body["graph"])}


QUICK = 4
"""Of zlib's levels: a third of the time of the last, which a run's start waits for, and a sixteenth larger."""


def packed(graph: Any) -> dict[str, str]:
    """A compiled graph as a run's start holds it. Raises ValueError for one that is too large."""
    text = plain(graph)
    if len(text) > GRAPH_AT_MOST:
        raise ValueError("the procedure is too large to be kept")
    inner = base64.b64encode(zlib.compress(text, QUICK)).decode("ascii")
    return {"sha256": hashlib.sha256(text).hexdigest(), "zlib": inner}


def unpacked(data: Any) -> Any:
    """The compiled graph that a run's start holds compressed. Raises BadLine."""
    _need(isinstance(data, dict) and set(data) == {"sha256", "zlib"})
    assert isinstance(data, dict)  # just needed
    _need(isinstance(data["zlib"], str))
    text = _inflated(data["zlib"])
    _need(hashlib.sha256(text).hexdigest() == data["sha256"])
    return _parsed(text)


def _inflated(text: str) -> bytes:
    try:
        inflate = zlib.decompressobj()
        plain_text = inflate.decompress(base64.b64decode(text, validate=True), GRAPH_AT_MOST)
    except (ValueError, binascii.Error, zlib.error) as error:
        raise BadLine("not a graph") from error
    _need(inflate.eof and not inflate.unused_data)
    return plain_text
