"""Draw the handbook's pictures anew: `python -m tests.handbook.pictures [FOLDER]`.

Two are steps of the shipped demonstration job, as the app shows them in a window of 80 columns and 24 rows with the
theme `night`; one is a regular arm from above, as the drawings of a job show it. Run it after the app's look or the
words of these steps have changed, and commit the result.
"""

import asyncio
import re
import sys
from pathlib import Path

from guide.checker.graph_cache import graph_of
from guide.drawing.for_step import DoorFacts, scene_for
from guide.drawing.svg import render_svg
from guide.files.library import find
from guide.handbook.pages import FOLDER
from guide.procedure.scenario_file import load_scenario
from guide.procedure.sheet_cache import sheet_of
from guide.run.rehearse import rehearse
from guide.run.session import Session
from guide.run.settings import Settings
from guide.run.state import label
from guide.screens.hingeside_app import HingesideApp

PICTURES = {"drilling": "holes/drill-pilot-leaf", "hold": "holes/before-drilling-numbers"}
"""The name of each picture, and the step it shows."""
WINDOW = (80, 24)


def demo_at(step: str) -> Session:
    """The demonstration job, carried through to that step."""
    scenario = load_scenario(find("scenario", "demo"))
    (number,) = (n for n, answer in enumerate(scenario.answers) if answer.at == step)
    begun = scenario.model_copy(
        update={"answers": scenario.answers[:number], "scenario": "reading room"}
    )
    sheet = sheet_of(find("sheet", scenario.sheet)).to_json()
    session = rehearse(begun, graph_of(find("procedure", scenario.procedure)), sheet).session
    assert session is not None
    assert label(session.state.graph, session.state.at) == step
    return session


async def picture(step: str) -> str:
    """The app at that step, as SVG that needs nothing from the network."""
    app = HingesideApp(demo_at(step), Settings(theme="night"))
    async with app.run_test(size=WINDOW) as pilot:
        await pilot.pause()
        drawn = app.export_screenshot(title="hingeside")
    drawn = re.sub(r"terminal-\d+", "terminal", drawn)  # a number of this run
    drawn = re.sub(r"@font-face \{.*?\}\s*", "", drawn, flags=re.DOTALL)
    return drawn.replace("Fira Code,monospace", "monospace").replace("Fira Code", "monospace")


def parts() -> str:
    """A regular arm from above, the leaf part open, with the names of its parts."""
    drawn = render_svg(scene_for(DoorFacts("regular", "left"), 100, 40, view="plan", angle=40.0))
    return drawn.replace("<svg ", '<svg style="background:white" ', 1)  # seen on dark pages too


def main(folder: Path) -> None:
    """Write every picture."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "parts.svg").write_text(parts(), "utf-8")
    for name, step in PICTURES.items():
        (folder / f"{name}.svg").write_text(asyncio.run(picture(step)), "utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if sys.argv[1:] else FOLDER / "pictures")
