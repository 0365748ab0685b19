"""A small job for the tests: a kick plate screwed to a bakery's back door, and the hand that does it."""

from collections.abc import Iterator
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.run.session import Session
from guide.run.store import begin_run
from guide.screens.layout import arrange, roomy
from guide.screens.run_view import RunView

PROCEDURE = """\
procedure: fit-kick-plate
edition: 1
title: Fit a kick plate
facts:
  leaf:
    choice: {steel: Steel, wood: Wood}
    unsure: true
    ask: What is the leaf made of?
    say: Which leaf?
    find_out: Hold a magnet to it.
  width:
    length: {from: 24 in, to: 48 in, step: 1/16 in, usual: 30 in to 42 in}
    ask: How wide is the leaf?
    say: How wide?
    schedule: true
  swing_time:
    time: {from: 1 s, to: 20 s, step: 1/10 s}
    ask: How long does the leaf take to close?
    say: How long?
  flush:
    yesno: {yes: It lies flat, no: It stands off}
    ask: Does the plate lie flat?
    say: Flat?
  colour:
    text: {longest: 60}
    ask: What colour is the door?
    say: Which colour?
steps:
  - do:
      id: wedge
      text: Wedge the leaf so that it cannot move.
      say: Wedge it.
      why: A leaf that moves carries the drill with it.
      watch: One wedge slides. Use two.
      looks_right: The leaf does not stir when you push it.
      card: Setting up
      picture:
        drawing: |
          +--------+
          |  leaf  |
          +--------+
            /_ wedge
        says: The wedge stands under the latch edge.
  - do: {id: sheet-the-floor, text: Lay a dust sheet under the door., say: Dust sheet., card: Setting up}
  - ask: {id: what-leaf, fact: leaf}
  - ask: {id: how-wide, fact: width}
  - hold:
      id: before-drilling
      reads_back: [leaf, width]
      text: Hold. Read each value back aloud, against the plate, the sheet and the door, before you drill.
  - do:
      id: drill
      cuts: true
      reads: [leaf, width]
      text: "Drill the holes of the plate for a leaf {width} wide."
      say: Drill now.
      caution: {warning: Wear eye protection.}
  - time: {id: let-it-close, fact: swing_time}
  - check:
      id: lies-flat
      fact: flush
      limit: yes
      otherwise:
        steps: [{do: {id: shim, text: Shim the plate until it lies flat., say: Shim it.}}]
  - ask: {id: which-colour, fact: colour}
  - end: {id: fitted, outcome: finished, text: The plate is fitted., say: Finished.}
"""


def begin_back_door(folder: Path, **about: str) -> Session:
    """A run of the small job, kept on disk as every run is."""
    path = folder / "fit-kick-plate.yaml"
    path.write_text(PROCEDURE, "utf-8")
    return begin_run(graph_of(path), units="inch", about={"door": "Bakery, back door", **about})


def slow_clock() -> Iterator[float]:
    """Two seconds pass between any two looks at it: every key is pressed on purpose."""
    seconds = 0.0
    while True:
        seconds += 2.0
        yield seconds


class Hand:
    """Presses keys on a run view and reads what it shows, as a window of 80 by 24 does."""

    def __init__(
        self, session: Session, detail: str = "full", *, width: int = 80, height: int = 24
    ) -> None:
        ticks = slow_clock()
        self.view = RunView(session, detail, clock=lambda: next(ticks))
        self.width, self.height = width, height
        self.look()

    def look(self) -> str:
        """Everything on the screen, line by line."""
        page = self.view.page(roomy=roomy(self.height))
        fitted = arrange(page, self.width, self.height, self.view.offset)
        self.view.fitted(fitted.offset, fitted.window, fitted.more)
        lines = [fitted.bar, *fitted.middle, fitted.entry, fitted.keys]
        return "\n".join(line.text for line in lines)

    def press(self, *keys: str) -> str:
        """Press keys one by one; what the screen shows after the last."""
        shown = ""
        for key in keys:
            self.view.press(key, key if len(key) == 1 else None)
            shown = self.look()
        return shown

    def type(self, text: str) -> str:
        """Type a text and Enter."""
        return self.press(*text, "enter")

    @property
    def at(self) -> str:
        """The block the run stands at."""
        state = self.view.session.state
        return state.graph.nodes[state.at[0]].id
