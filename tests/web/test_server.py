"""The page for a browser: whom it lets in, what it loads, and what a second tab does to the first."""

import asyncio
import os
import re
import shlex
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress

import pytest

from guide.cli.main import main
from guide.cli.serve import tell
from guide.errors import NO_DEVICE, UNKNOWN

pytest.importorskip("textual_serve")
from aiohttp import ClientSession, CookieJar, WSServerHandshakeError
from aiohttp.test_utils import TestServer

from guide.web.access import Access, is_loopback
from guide.web.server import FOLDER, NOT_BY_LINK, application

pytestmark = pytest.mark.needs("python:textual_serve")
ECHO = """
import sys
out = sys.stdout.buffer
def packet(kind, data): out.write(kind + len(data).to_bytes(4, "big") + data); out.flush()
out.write(b"__GANGLION__\\n"); packet(b"D", b"a job is open")
while kind := sys.stdin.buffer.read(1):
    data = sys.stdin.buffer.read(int.from_bytes(sys.stdin.buffer.read(4), "big"))
    if kind == b"M" and b"quit" in data: break
    packet(b"D", data)
"""
"""A program that speaks as an app of a tab does, and gives back what is typed."""


@asynccontextmanager
async def served(access: Access) -> AsyncIterator[tuple[ClientSession, str]]:
    """A browser's cookies, and the address that the page has."""
    server = TestServer(application(access, shlex.join([sys.executable, "-c", ECHO])))
    await server.start_server()
    try:
        async with ClientSession(cookie_jar=CookieJar(unsafe=True)) as browser:
            yield browser, f"http://127.0.0.1:{server.port}"
    finally:
        await server.close()
        await _programs_are_gone()


async def _programs_are_gone() -> None:
    """Wait until every program that a tab started has ended and was noticed, as far as there are any."""
    with suppress(ChildProcessError, TimeoutError):
        async with asyncio.timeout(2):
            while True:
                os.waitid(os.P_ALL, 0, os.WEXITED | os.WNOHANG | os.WNOWAIT)
                await asyncio.sleep(0.01)


async def told(browser: ClientSession, url: str, **headers: str) -> tuple[int, str]:
    """The status and the text of an answer."""
    async with browser.get(url, headers=headers, allow_redirects=True) as answer:
        return answer.status, (await answer.read()).decode("utf-8", "replace")


def ours(page: str) -> dict[str, str]:
    return {"Origin": page}


async def test_the_page_loads_nothing_from_elsewhere() -> None:
    async with served(Access.at("localhost")) as (browser, page):
        status, text = await told(browser, f"{page}/")
        assert status == 200
        named = re.findall(r'(?:src|href)="([^"]*)"', text)
        named += re.findall(r'url\("([^"]*)"\)', (FOLDER / "static" / "page.css").read_text())
        assert len(named) == 6
        for one in named:
            assert one == "data:," or (await told(browser, page + one))[0] == 200, one
        async with browser.get(page) as answer:
            assert answer.headers["Content-Security-Policy"].startswith("default-src 'self'; ")


async def test_another_page_or_another_name_is_refused() -> None:
    async with served(Access.at("127.0.0.1")) as (browser, page):
        for headers in ({}, {"Origin": "https://doors.example"}, {"Origin": "null"}):
            with pytest.raises(WSServerHandshakeError) as refused:
                await browser.ws_connect(f"{page}/ws", headers=headers)
            assert refused.value.status == 403
        for host in ("doors.example", "doors.example:80", "127.0.0.1.doors.example", "10.0.0.7"):
            assert (await told(browser, page, Host=host))[0] == 403


async def test_away_from_this_machine_only_the_link_opens_it() -> None:
    access = Access.at("0.0.0.0")
    async with served(access) as (browser, page):
        for path in ("/", "/ws", "/static/js/textual.js", "/?token=", "/?token=guess"):
            assert await told(browser, page + path, **ours(page)) == (403, NOT_BY_LINK)
        async with browser.get(f"{page}/?token={access.token}") as answer:
            assert (answer.status, answer.url.query_string) == (200, "")
            assert "Hingeside" in await answer.text()
        async with browser.ws_connect(f"{page}/ws", headers=ours(page)) as tab:
            assert await tab.receive_bytes() == b"a job is open"


async def test_a_new_tab_of_a_browser_closes_its_old_one() -> None:
    async with served(Access.at("localhost")) as (browser, page):
        await told(browser, page)
        async with browser.ws_connect(f"{page}/ws", headers=ours(page)) as old:
            assert await old.receive_bytes() == b"a job is open"
            closes = asyncio.ensure_future(old.receive())
            async with browser.ws_connect(f"{page}/ws", headers=ours(page)) as new:
                assert await new.receive_bytes() == b"a job is open"
                assert (await closes).type.name in ("CLOSE", "CLOSING", "CLOSED")
                await new.send_json(["stdin", "114"])
                assert await new.receive_bytes() == b"114"


@pytest.mark.parametrize(
    ("address", "loopback"),
    [("localhost", True), ("127.0.0.1", True), ("::1", True), ("0.0.0.0", False), ("van", False)],
)
def test_an_address_of_this_machine_alone_needs_no_secret(address: str, loopback: bool) -> None:
    access = Access.at(address)
    assert is_loopback(address) == loopback == (access.token == "")
    assert access.opens(access.token)
    assert access.opens("") == access.opens(None) == loopback
    assert "token" not in repr(access)


@pytest.mark.parametrize(
    ("access", "link", "said"),
    [
        (Access("localhost", ""), "http://localhost:8000/\n", "programs of this machine alone"),
        (Access("10.1.2.3", "abc"), "http://10.1.2.3:8000/?token=abc\n", "in your name"),
        (Access("fd00::7", "abc"), "http://[fd00::7]:8000/?token=abc\n", "is not encrypted"),
    ],
)
def test_what_is_open_and_to_whom_is_said(
    capsys: pytest.CaptureFixture[str], access: Access, link: str, said: str
) -> None:
    tell(access, 8000)
    printed = capsys.readouterr()
    assert printed.out == link
    assert said in printed.err


def test_a_port_that_cannot_be_had_is_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["serve", "--address", "192.0.2.7"]) == NO_DEVICE
    said = capsys.readouterr().err
    assert "192.0.2.7, port 8000, cannot be had" in said
    assert said.count("\n") == 1
    assert main(["serve", "--port", "99999"]) == UNKNOWN
