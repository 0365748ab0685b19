"""The shape of a record as JSON, from which `record.schema.json` is written; no record is read or made by it.

`python -m guide.papers.record.record_schema > guide/papers/record/record.schema.json` writes it anew.
"""

import json
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from guide.papers.record.record import FORM
from guide.procedure.outcomes import OUTCOMES

_VERDICTS = Literal["pass", "fail", "authority decides", "not measured", "not applicable"]
Digest = Field(pattern="^([0-9a-f]{64})?$")
Utc = str


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", use_attribute_docstrings=True)


class FactValue(_Part):
    """A fact that is known at the end."""

    question: str
    value: str
    """In exact writing, as the run keeps it."""
    shown: str
    """For a person, in the units of the job."""
    computed: bool


class Taken(_Part):
    """The last answer of a question, and how it was taken."""

    number: int
    """Its number in the record; `--correct` names it."""
    at: str
    """The block that asked it."""
    fact: str
    question: str
    value: str
    shown: str
    how: Literal["keyed", "spoken", "stopwatch", "carried", "schedule", "sheet", "together"]
    """`schedule` and `sheet`: confirmed as they have it; `together`: as it stood on a card of questions, confirmed with
    the others there."""
    other_of: str
    """`schedule` or `sheet`, where that has another value; else empty."""
    other: str
    """That other value, for a person."""
    by: str
    utc: Utc
    local: str
    """By the clock of the device, with its zone."""


class Changed(_Part):
    """An answer that another took the place of."""

    at: str
    question: str
    before: str
    after: str
    by: str
    utc: Utc
    local: str


class Computed(_Part):
    """A computed value that was shown."""

    fact: str
    value: str
    shown: str
    computation: str
    """Its name in `hingeside work`."""
    source: str
    working: list[str]


class CutMade(_Part):
    """Work that cannot be undone."""

    at: str
    on: dict[str, str]
    """The facts it was done on."""
    done: bool
    resolution: Literal["remade", "plugged", "abandoned"] | None


class FoundAndLeft(_Part):
    """A reading off the door, first and last."""

    asked: str
    found: str
    left: str


class RoundRead(_Part):
    """One time round a part that is done again."""

    round: int
    turned: list[str]
    done: list[str]
    read: dict[str, str]


class Heard(_Part):
    """A spoken answer."""

    utc: Utc
    at: str
    question: str
    words: str
    confidence: float | None
    value: str
    read_back: str
    became: str


class Verdict(_Part):
    """A rule with what the last readings make of it."""

    rule: str
    verdict: _VERDICTS
    said: str


class Turn(_Part):
    """What belongs to one of several things in turn, such as one leaf of a pair."""

    turn: str
    """Which of them: `First leaf`."""
    facts: dict[str, FactValue]
    answers: list[Taken]
    computed: list[Computed]
    cuts: list[CutMade]
    holes: dict[str, Any] | None
    closer: dict[str, str]
    found_and_left: list[FoundAndLeft]
    rounds: list[RoundRead]
    rules: list[str]
    verdicts: list[Verdict]


class Timed(_Part):
    """A time by stopwatch."""

    utc: Utc
    at: str
    value: str
    swings: list[str]
    dropped: list[str]


class PhotoAdded(_Part):
    """A photo; its file is found by the digest alone."""

    utc: Utc
    at: str
    step: str
    shows: str
    name: str
    bytes: int
    sha256: str = Digest
    """Of the copy that is kept, without what a camera writes beside the picture."""
    original_sha256: str = Digest
    """Of the file as it was."""
    after_the_end: bool
    file: Literal["kept", "missing", "altered"]
    """How the file was found when this record was made."""


class Note(_Part):
    """A note before the end."""

    utc: Utc
    local: str
    at: str
    text: str


class Addendum(_Part):
    """What was added after the end."""

    utc: Utc
    local: str
    by: str
    device: str
    kind: Literal["noted", "corrected", "photo added"]
    at: str
    about: str
    """The question whose answer is corrected; else empty."""
    text: str


class Repair(_Part):
    """What was removed from the run's file before it was gone on with."""

    utc: Utc
    cause: str
    aside: str
    sha256: str
    bytes: int
    lines: int
    said: str


class Entry(_Part):
    """One event of the run's log."""

    seq: int
    utc: Utc
    kind: str
    body: dict[str, Any]
    by: str
    offset: str
    line_digest: str = Digest


class Record(_Part):
    """The record of one job on one opening."""

    hingeside: Literal["record"]
    form: Literal[1]
    """Raised when a key goes or changes its meaning; a key that is only new does not raise it."""
    run: str
    procedure: str
    edition: int
    title: str
    digest: str
    """Of the compiled procedure."""
    units: Literal["inch", "metric"]
    sheet: str | None
    about: dict[str, str]
    """Site, door, place, name, firm and the settings of the job."""
    started: Utc
    last: Utc
    started_local: str
    last_local: str
    outcome: str = Field(pattern=f"^({'|'.join(('open', *OUTCOMES))})$")
    why: str
    route: list[str]
    """The blocks passed, in order."""
    facts: dict[str, FactValue]
    answers: list[Taken]
    changed: list[Changed]
    computed: list[Computed]
    cuts: list[CutMade]
    holes: dict[str, Any] | None
    """Where the holes go, as `hingeside work holes` has it; null where no numbers are known."""
    closer: dict[str, str]
    found_and_left: list[FoundAndLeft]
    rounds: list[RoundRead]
    remains: list[str]
    inspection: dict[str, str]
    """Items of NFPA 80 5.2.2.4 for a fire door by rules of the United States; else empty."""
    heard: list[Heard]
    rules: list[str]
    verdicts: list[Verdict]
    timed: list[Timed]
    not_blind: list[str]
    photos: list[PhotoAdded]
    photos_not_taken: list[str]
    notes: list[Note]
    addenda: list[Addendum]
    people: list[str]
    devices: list[str]
    events: int
    repaired: list[Repair]
    last_digest: str = Digest
    turns: list[Turn]
    """Where the job had several things in turn, each of them; the keys above then tell of the last. Else empty."""
    cannot_be_seen: str
    """What no verification of a file can find."""
    journal: list[Entry]


def record_schema() -> dict[str, Any]:
    """The JSON Schema of a record."""
    made = Record.model_json_schema()
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:hingeside:record:{FORM}",
        **made,
    }


def written_schema() -> str:
    """The schema as its file holds it."""
    return json.dumps(record_schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    print(written_schema(), end="")
