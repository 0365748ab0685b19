"""What a person sees of the app: the text of every cell that it gives the terminal."""

from textual.pilot import Pilot

from guide.screens.hingeside_app import HingesideApp


def seen(app: HingesideApp) -> str:
    """The whole screen, line by line."""
    return "\n".join(lines_seen(app))


def lines_seen(app: HingesideApp) -> list[str]:
    """The lines of the screen, each as wide as the window."""
    return [strip.text for strip in app.screen._compositor.render_strips()]


def words_seen(app: HingesideApp) -> str:
    """The words of the screen, however they are broken over lines."""
    return " ".join(seen(app).split())


def place_of(app: HingesideApp, text: str) -> tuple[int, int]:
    """Column and row of the first place where a text stands."""
    for row, line in enumerate(lines_seen(app)):
        if text in line:
            return line.index(text), row
    raise AssertionError(f"{text!r} is not on the screen:\n{seen(app)}")


async def resized(app: HingesideApp, pilot: Pilot[int], columns: int, rows: int) -> None:
    """Make the window another size, and wait until the screen has it: the library fits it a moment later."""
    await pilot.resize_terminal(columns, rows)
    for _ in range(100):
        await pilot.pause(0.02)
        if app.screen.size == (columns, rows) and len(lines_seen(app)) == rows:
            await pilot.pause(0.05)
            return
    raise AssertionError(f"the screen is still {app.screen.size}")
