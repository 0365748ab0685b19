"""A browser without a window, as large as a phone, told what to do over its own protocol."""

import asyncio
import base64
import json
import re
import tempfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

import aiohttp

WIDTH, HEIGHT = 390, 844
"""Pixels of a phone that is held upright."""
PATIENCE = 20
_LISTENS = re.compile(rb"ws://(127\.0\.0\.1:\d+)/")
LINES = """[...document.querySelectorAll('.xterm-rows > div')].map(row => row.textContent).join('\\n')"""


class Phone:
    """One open page."""

    def __init__(self, socket: aiohttp.ClientWebSocketResponse) -> None:
        self._socket = socket
        self._number = 0
        self.asked_for: list[str] = []
        """Every address that the page asked for."""

    async def call(self, method: str, **values: Any) -> dict[str, Any]:
        """Tell the browser something, and get what it answers."""
        self._number += 1
        await self._socket.send_json({"id": self._number, "method": method, "params": values})
        while True:
            said = await asyncio.wait_for(self._socket.receive_json(), PATIENCE)
            if said.get("method") in ("Network.requestWillBeSent", "Network.webSocketCreated"):
                self.asked_for.append(said["params"].get("url") or said["params"]["request"]["url"])
            if said.get("id") == self._number:
                result: dict[str, Any] = said.get("result", {})
                return result

    async def value_of(self, expression: str) -> Any:
        """What an expression of the page's script gives."""
        done = await self.call("Runtime.evaluate", expression=expression, awaitPromise=True)
        return done["result"].get("value")

    async def goes_to(self, address: str) -> None:
        """Open an address."""
        await self.call("Page.navigate", url=address)

    async def press(self, *keys: str) -> None:
        """Press keys, each by its sign or its name."""
        for key in keys:
            text = {"Enter": "\r"}.get(key, key if len(key) == 1 else "")
            code = {"Enter": 13, "ArrowDown": 40}.get(key, ord(key.upper()[0]))
            values = {"key": key, "text": text, "windowsVirtualKeyCode": code}
            kind = "keyDown" if text else "rawKeyDown"
            await self.call("Input.dispatchKeyEvent", type=kind, **values)
            await self.call("Input.dispatchKeyEvent", type="keyUp", key=key)

    async def shows(self, expression: str) -> None:
        """Wait until an expression of the page's script is true. Raises TimeoutError."""
        wait = (
            f"new Promise(done => {{ const look = () => ({expression}) ? done(true) : "
            "setTimeout(look, 40); look(); })"
        )
        await asyncio.wait_for(self.value_of(wait), PATIENCE)

    async def picture(self) -> bytes:
        """The page as a PNG."""
        done = await self.call("Page.captureScreenshot", format="png")
        return base64.b64decode(done["data"])


@asynccontextmanager
async def phone(program: str) -> AsyncIterator[Phone]:
    """A browser with one empty page."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        process = await asyncio.create_subprocess_exec(
            *(program, "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run"),
            *(
                "--remote-debugging-port=0",
                f"--user-data-dir={profile}",
                "--hide-scrollbars",
                "--force-device-scale-factor=2",
            ),
            *("--disable-background-networking", f"--window-size={WIDTH},{HEIGHT}", "about:blank"),
            stdout=asyncio.subprocess.DEVNULL,
            stderr=asyncio.subprocess.PIPE,
        )
        try:
            place = await asyncio.wait_for(_listening(process), PATIENCE)
            async with aiohttp.ClientSession() as session:
                async with session.get(f"http://{place}/json") as pages:
                    listed = json.loads(await pages.text())
                url = next(one for one in listed if one["type"] == "page")["webSocketDebuggerUrl"]
                async with session.ws_connect(url, max_msg_size=0) as socket:
                    page = Phone(socket)
                    for part in ("Page", "Network", "Runtime"):
                        await page.call(f"{part}.enable")
                    await page.call(
                        "Emulation.setDeviceMetricsOverride",
                        width=WIDTH,
                        height=HEIGHT,
                        deviceScaleFactor=0,
                        mobile=True,
                    )
                    yield page
        finally:
            process.kill()
            await process.communicate()


async def _listening(process: asyncio.subprocess.Process) -> str:
    assert process.stderr is not None
    async for line in process.stderr:
        if (found := _LISTENS.search(line)) is not None:
            return found[1].decode()
    raise AssertionError("the browser did not start")
