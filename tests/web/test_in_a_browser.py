"""The app in a real browser as large as a phone: it asks nobody else for anything, and a closed tab loses nothing."""

import asyncio
import shlex
import shutil
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.run.kept_runs import kept_run

if TYPE_CHECKING:
    from tests.web.browser import Phone

pytestmark = pytest.mark.needs("chromium", "python:textual_serve")
PATIENCE = 30


@asynccontextmanager
async def served() -> AsyncIterator[str]:
    """The address of the app on this machine."""
    from guide.web.access import Access
    from guide.web.server import serve

    port: asyncio.Future[int] = asyncio.get_running_loop().create_future()
    command = shlex.join([sys.executable, "-m", "guide.cli.served_app"])
    task = asyncio.create_task(serve(Access.at("localhost"), 0, command, port.set_result))
    try:
        yield f"localhost:{await port}"
    finally:
        task.cancel()
        with suppress(asyncio.CancelledError):
            await task


async def opens(page: "Phone", run: Path, times: int) -> None:
    """Press Enter at the list of jobs until the job says that it was continued. Raises TimeoutError.

    A key that comes before the list is up does not count, and a job at its hold takes none.
    """
    async with asyncio.timeout(PATIENCE):
        while run.read_bytes().count(b'"resumed"') < times:
            await page.press("Enter")
            await asyncio.sleep(0.2)


async def test_a_closed_tab_is_gone_on_with_from_what_is_kept() -> None:
    from tests.web.browser import phone

    run = kept_run()
    chromium = shutil.which("chromium")
    assert chromium is not None
    async with served() as place, phone(chromium) as page:
        for times in (1, 2):
            await page.goes_to(f"http://{place}/")
            await page.shows("document.activeElement.className == 'xterm-helper-textarea'")
            await page.shows("document.querySelector('.terminal') !== null")
            assert await page.value_of("innerWidth + ' ' + document.body.scrollWidth") == "390 390"
            await opens(page, run, times)
            await page.goes_to("about:blank")
        others = [
            one for one in page.asked_for if f"//{place}/" not in one and one != "about:blank"
        ]
        assert others == []
        assert any(one.startswith(f"ws://{place}/ws?width=4") for one in page.asked_for)
