"""A run as a chain of lines, each the exact bytes that were written. A line is known by its run, number and digest.

Each line names the digest of the one before it, so the last digest is a proof of every byte of the chain.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from guide.procedure.graph import Graph
from guide.run.journal import JournalError
from guide.run.log.form import BadLine, chain_of, read_header, unpacked
from guide.run.log.reading import bytes_of, log_in
from guide.run.step import runnable
from guide.run.store import state_of

_GRAPHS_AT_MOST = 4


@dataclass(frozen=True, slots=True)
class Chain:
    """The sound lines of one run."""

    run: str
    data: bytes
    """The lines, each with its end."""
    digests: tuple[str, ...]
    """Of each line, the header first."""

    def begins(self, other: "Chain") -> bool:
        """Whether the other is this one, or continues it."""
        return self.digests == other.digests[: len(self.digests)]


class Graphs:
    """The graphs of the runs that were read last: of many runs of one procedure it is read once."""

    def __init__(self) -> None:
        self._read: list[tuple[Any, Any, Graph | None]] = []
        """As each is packed, as plain data that nobody changes, and as it is run once it was."""

    def unpacked(self, data: Any) -> Any:
        """The graph that a start holds compressed, as plain data. Raises BadLine."""
        for packed, stored, _ in self._read:
            if packed == data:
                return stored
        stored = unpacked(data)
        self._read = [*self._read[-_GRAPHS_AT_MOST + 1 :], (data, stored, None)]
        return stored

    def of(self, stored: Any) -> Graph:
        """The same graph, ready to be run. Raises BadGraph for one that cannot be."""
        for place, (packed, known, graph) in enumerate(self._read):
            if known is stored and graph is not None:
                return graph
            if known is stored:
                made = runnable(stored)
                self._read[place] = packed, known, made
                return made
        return runnable(stored)


def sound_chain(name: Path, data: bytes, graphs: Graphs) -> Chain:
    """The chain in the bytes of a run file; a last line that was never finished is left out.

    Raises NotARun, OtherVersion or Damaged for bytes that nobody should go on with.
    """
    found = log_in(name, data, graphs.unpacked)
    state_of(found, graphs.of)
    assert found.header is not None  # its lines make a run
    return Chain(found.header.run, data[: found.size], tuple(found.digests))


def quick_chain(data: bytes) -> Chain | None:
    """The same, by the digests alone: what its lines say is not read. None where one is not as it was written."""
    lines = data.split(b"\n")[:-1]
    try:
        digests = chain_of(lines)
        run = read_header(lines[0]).run
    except (BadLine, IndexError):
        return None
    return Chain(run, data[: sum(len(line) + 1 for line in lines)], tuple(digests))


def chain_of_file(path: Path) -> Chain | None:
    """The chain of a file that is here already; None where it is not one."""
    try:
        return quick_chain(bytes_of(path))
    except JournalError:
        return None
