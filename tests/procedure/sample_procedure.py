"""One whole procedure without a fault, and how the tests read and compile such texts."""

from pathlib import Path

from guide.files.findings import Finding
from guide.procedure.compiler import compile_procedure
from guide.procedure.graph import Graph, Node
from guide.procedure.load import load

CLOSET_DOOR = """\
procedure: closet-door
edition: 2
title: A closer on a closet door
about: A short job with every kind of block.
facts:
  hand:
    choice: {lh: Left hand, rh: Right hand}
    unsure: true
    ask: Which hand is it?
    find_out: See the knuckles.
  fire: {yesno: {yes: Labelled, no: Not labelled}, ask: Is there a fire label?, schedule: true}
  width:
    length: {from: 24 in, to: 48 in, step: 1/16 in, usual: 30 in to 42 in}
    ask: How wide is the leaf?
    say: How wide?
  hinges: {count: {from: 2, to: 4}, ask: How many butt hinges carry the leaf?}
  sweep: {time: {from: 1 s, to: 30 s, step: 0.1 s}, ask: How long from 90 to 12 degrees?}
  label: {text: {longest: 40}, ask: What does the label say?}
  size: {worked: spring-size, using: {width: width, fire: fire, mount: "= regular"}}
steps:
  - ask: {id: which-hand, fact: hand}
  - ask: {id: fire-label, fact: fire}
  - ask: {id: how-wide, fact: width}
  - ask: {id: how-many, fact: hinges}
  - ask: {id: read-label, fact: label, when: {fire: yes}}
  - work: {id: spring, fact: size, text: "EN size {size}."}
  - by_case:
      id: by-hand
      cases:
        - {id: left, when: {hand: lh}, steps: [{do: {id: mark-left, text: Mark from the left.}}]}
        - id: other
          when: {hand: [rh, unsure]}
          steps: [{do: {id: mark-right, text: Mark from the right.}}]
  - hold: {id: before-drilling, reads_back: [hand, width]}
  - do:
      id: drill
      cuts: true
      text: "Drill for the {width} leaf."
      caution: {warning: Wear eye protection.}
      hazards: [drilling]
      tools: [drill]
      minutes: 10
  - repeat:
      id: tune
      steps:
        - do: {id: turn-valve, text: Turn the sweep valve.}
        - time: {id: time-it, fact: sweep}
      until: {sweep: 5 s to 7 s}
      at_most: 4
      otherwise: {steps: [{end: {id: slow, outcome: made-safe, text: Hand it to the foreman.}}]}
  - check: {id: slow-enough, fact: sweep, limit: ">= 5 s", otherwise: {go: tune}}
  - end: {id: done, outcome: finished}
"""


def findings(folder: Path, text: str, **others: str) -> list[Finding]:
    """What is said of a procedure of this text, with other files beside it."""
    return compiled(folder, text, **others)[1]


def compiled(folder: Path, text: str, **others: str) -> tuple[Graph | None, list[Finding]]:
    """The graph of a procedure of this text; `others` are the files beside it, without `.yaml`."""
    for name, other in others.items():
        (folder / f"{name}.yaml").write_text(other)
    path = folder / "closet-door.yaml"
    path.write_text(text)
    return compile_procedure(load(path))


def graph_of_text(folder: Path, text: str, **others: str) -> Graph:
    """The graph of a procedure in which nothing is wrong."""
    graph, found = compiled(folder, text, **others)
    assert not found, found
    assert graph is not None
    return graph


def node(graph: Graph, node_id: str) -> Node:
    """The node of this id."""
    index = graph.index_of(node_id)
    assert index is not None, f"no {node_id} in {[one.id for one in graph.nodes]}"
    return graph.nodes[index]


def ways(graph: Graph, node_id: str) -> dict[str, str]:
    """Where each way out of a node leads: label to id."""
    return {edge.label: graph.nodes[edge.target].id for edge in node(graph, node_id).edges}
