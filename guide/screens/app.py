"""Opening the app. Textual is imported only once it is opened."""

import gc
import sys
from typing import TYPE_CHECKING

from guide.run.session import Session
from guide.run.settings import Settings
from guide.translation import _

if TYPE_CHECKING:
    from guide.practice.practice import Practice
    from guide.screens.voice import OpenVoice
    from guide.site.new_job import NewJob

PAUSED = _("The job is paused and kept. The command hingeside continues it.")
"""Said in the terminal once the screen has gone: a person sees that nothing is lost, and how to go on."""
EVERYDAY = (700, 10, 10)
"""How often garbage is looked for while the app is open: as often as Python does by itself."""


def run_app(
    session: Session | None = None,
    settings: Settings | None = None,
    notice: str = "",
    *,
    ascii: bool | None = None,  # noqa: A002 - the plain word for it
    open_voice: "OpenVoice | None" = None,
    practice: "Practice | None" = None,
    job: "NewJob | None" = None,
) -> int:
    """Open the app at a run, at a practice door, at the name of a new job's door, or at its first screen; give the
    exit status.

    A run left unfinished is paused in its journal, and its session closed. `notice` is shown at once;
    `ascii` None looks at the locale; `open_voice` makes the
    voice, if one is wanted.
    """
    gc.disable()
    from guide.screens.hingeside_app import HingesideApp

    app = HingesideApp(
        session, settings, notice, ascii=ascii, open_voice=open_voice, practice=practice, job=job
    )
    gc.freeze()  # what was loaded stays: a look for garbage that passes over it is too short to hold up a key
    gc.set_threshold(*EVERYDAY)
    gc.enable()
    status = app.run() or 0
    if app.parting:
        sys.stderr.write(f"hingeside: {app.parting}\n")
    if app.paused:
        sys.stdout.write(f"{PAUSED}\n")
    return status
