"""A small job for the tests: a kick plate screwed to a bakery's back door, and the hand that does it."""

from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from guide.checker.check import check
from guide.procedure.graph import Graph
from guide.run.outcomes import DRAWING, HELP, KNOWN
from guide.run.prompt import Prompt
from guide.run.session import Session
from guide.run.store import begin_run
from guide.screens import step_words
from guide.screens.answers import numbered
from guide.screens.hingeside_app import HingesideApp
from guide.screens.run_view import RunView
from guide.screens.shown_run import CHOOSING
from guide.screens.words_shown import Piece

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


@cache
def back_door_graph() -> Graph:
    """The small job, checked once."""
    report = check(Path("fit-kick-plate.yaml"), PROCEDURE)
    assert report.sound, report.findings
    assert report.graph is not None
    return report.graph


def begin_back_door(folder: Path, **about: str) -> Session:
    """A run of the small job, kept on disk as every run is."""
    path = folder / "fit-kick-plate.yaml"
    path.write_text(PROCEDURE, "utf-8")
    about = {"door": "Bakery, back door", **about}
    return begin_run(back_door_graph(), units="inch", about=about)


def slow_clock() -> Iterator[float]:
    """Two seconds pass between any two looks at it: every key is pressed on purpose."""
    seconds = 0.0
    while True:
        seconds += 2.0
        yield seconds


class Hand:
    """Presses keys on a run view, and reads its words as the card has them; no window is needed."""

    def __init__(self, session: Session, detail: str = "full") -> None:
        ticks = slow_clock()
        self.view = RunView(session, detail, clock=lambda: next(ticks))

    def look(self) -> str:
        """Everything that the screen is told to show, line by line."""
        view = self.view
        state, shown = view.session.state, view.desk.shown
        door = str(state.about.get("door", ""))
        lines = [f"{door} · {state.graph.title}" if door else state.graph.title]
        if view.desk.over == HELP:
            lines.append(joined(step_words.help_words(voice=view.voiced)))
        elif view.desk.over == KNOWN:
            lines.append("Known of this opening")
            lines += [f"- {one}" for one in step_words.known_answers(state)]
            lines.append(joined(step_words.done_words(state)))
        elif view.desk.over != DRAWING:
            lines += self._step(shown)
        lines += ["! " + view.message if view.refused else view.message, view.hint()]
        lines.append("   ".join(f"{one.shown}  {one.word}" for one in view.shown_keys()))
        return "\n".join(lines)

    def _step(self, shown: Prompt) -> list[str]:
        view = self.view
        if view.desk.purpose:
            return [view.wanted, f"> {view.text}"]
        lines = ["STOP"] if shown.kind == "stop" else []
        lines += [step_words.looking_words(view.desk)]
        lines.append(joined(step_words.passed_words(shown, view.desk.detail)))
        lines.append(joined(step_words.action_words(shown, view.desk.detail)))
        lines += [
            f"{w.upper()} {said}" for w, said in step_words.cautions_of(shown, view.desk.detail)
        ]
        lines.append(joined(step_words.line_words(shown, view.desk.detail)))
        lines += [f"{name}: {value}" for name, value in shown.read_back]
        if shown.accepts.kind in CHOOSING:
            listed = numbered([one.text for one in shown.accepts.choices])
            lines += [f"{one.key} {one.text}" for one in listed]
        lines.append(joined(step_words.wanted_words(shown, view.desk.detail)))
        lines.append(f"> {view.text}" if view.typing else "")
        lines.append(joined(step_words.long_words(shown)) if view.long else "")
        return [*lines, shown.drawing if view.long else ""]

    def press(self, *keys: str) -> str:
        """Press keys one by one; what is shown after the last."""
        for key in keys:
            if len(key) == 1 and self.view.takes(key):
                self.view.write(key if self.view.retype else self.view.text + key)
            elif key == "backspace":
                self.view.write("" if self.view.retype else self.view.text[:-1])
            else:
                self.view.press(key, key if len(key) == 1 else None)
        return self.look()

    def type(self, text: str) -> str:
        """Type a text and Enter."""
        return self.press(*text, "enter")

    @property
    def at(self) -> str:
        """The block the run stands at."""
        state = self.view.session.state
        return state.graph.nodes[state.at[0]].id


def app_of(session: Session | None, *, ascii: bool | None = None) -> HingesideApp:  # noqa: A002
    """The app, with a clock that lets every key count."""
    ticks: Iterator[float] = slow_clock()
    return HingesideApp(session, clock=lambda: next(ticks), ascii=ascii)


def joined(pieces: Iterable[Piece]) -> str:
    """Words as they are read."""
    return "".join(piece if isinstance(piece, str) else piece[0] for piece in pieces)
