"""The page and the connection of each tab to an app of its own; nothing of it comes from elsewhere.

The terminal in the page and the app's process behind it are textual-serve's; the page, its rules and its end are here.
"""

import asyncio
import logging
import secrets
import signal
from collections.abc import Awaitable, Callable
from contextlib import suppress
from pathlib import Path

from aiohttp import web
from textual_serve.server import Server

from guide.errors import NO_DEVICE, HingesideError
from guide.web.access import TOKEN, Access

FOLDER = Path(__file__).resolve().parent
BROWSER = "browser"
"""The cookie that tells one browser from another."""
LEAVES = 2
"""Seconds that an open tab has to leave: its app ends at once, and a phone that is gone never answers."""
RULES = (
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; connect-src 'self' ws://{host}; "
    "frame-ancestors 'none'; base-uri 'none'; form-action 'none'"
)
"""What a browser may load for the page: nothing from anywhere else."""
NOT_BY_LINK = "Open the link that “hingeside serve” printed."
Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


class ServeError(HingesideError):
    """The page cannot be served; the message says why and what to do."""

    status = NO_DEVICE


class Tabs:
    """The open tabs: one for each browser, for a run has one writer."""

    def __init__(self, command: str) -> None:
        """`command` starts the app of a tab."""
        self._server = Server(command, title="Hingeside")
        self._open: dict[str, asyncio.Future[web.WebSocketResponse]] = {}
        self.download = self._server.handle_download
        self.statics = Path(self._server.statics_path)

    async def connect(self, request: web.Request) -> web.StreamResponse:
        """Start the app of a tab. An older tab of the same browser is closed first: it may be one that was lost."""
        browser = request.cookies.get(BROWSER, "")
        await self._close(browser)
        app = asyncio.ensure_future(self._server.handle_websocket(request))
        self._open[browser] = app
        try:
            return await app
        finally:
            if self._open.get(browser) is app:
                del self._open[browser]

    async def close_all(self, _: web.Application) -> None:
        """Close every tab; each app pauses its run."""
        for browser in list(self._open):
            await self._close(browser)

    async def _close(self, browser: str) -> None:
        app = self._open.pop(browser, None)
        if app is not None:
            app.cancel()
            await asyncio.wait([app], timeout=LEAVES)


def application(access: Access, command: str) -> web.Application:
    """The page, its parts and its connection, for those whom `access` lets in."""
    tabs = Tabs(command)

    @web.middleware
    async def guard(request: web.Request, handler: Handler) -> web.StreamResponse:
        if not access.knows_host(request.host):
            raise web.HTTPForbidden(text="This page is not served under that name.")
        if request.path == "/ws" and not access.knows_origin(
            request.headers.get("Origin"), request.host
        ):
            raise web.HTTPForbidden(text="Another page may not use this one.")
        if access.token and TOKEN in request.query and access.opens(request.query[TOKEN]):
            raise _welcomed(access)
        if not access.lets_in(request.cookies):
            raise web.HTTPForbidden(text=NOT_BY_LINK)
        return await handler(request)

    async def page(request: web.Request) -> web.StreamResponse:
        response = web.Response(
            text=(FOLDER / "page.html").read_text("utf-8"), content_type="text/html"
        )
        if BROWSER not in request.cookies:
            response.set_cookie(BROWSER, secrets.token_hex(16), httponly=True, samesite="Strict")
        return response

    async def add_rules(request: web.Request, response: web.StreamResponse) -> None:
        response.headers["Content-Security-Policy"] = RULES.format(host=request.host)
        response.headers["Referrer-Policy"] = "no-referrer"
        response.headers["X-Content-Type-Options"] = "nosniff"

    app = web.Application(middlewares=[guard])
    app.router.add_get("/", page)
    app.router.add_get("/ws", tabs.connect)
    app.router.add_get("/download/{key}", tabs.download)
    app.router.add_static("/static", tabs.statics)
    app.router.add_static("/page", FOLDER / "static")
    app.on_response_prepare.append(add_rules)
    app.on_shutdown.append(tabs.close_all)
    return app


def _welcomed(access: Access) -> web.HTTPFound:
    """To the page without the secret in its address, which is now in a cookie that no page can read."""
    response = web.HTTPFound("/")
    response.set_cookie(TOKEN, access.token, httponly=True, samesite="Strict")
    return response


async def serve(access: Access, port: int, command: str, ready: Callable[[int], None]) -> None:
    """Serve the page until a signal ends the program; `ready` gets the port.

    Raises ServeError where the address or the port cannot be had.
    """
    logging.getLogger("textual-serve").setLevel(logging.CRITICAL)
    runner = web.AppRunner(
        application(access, command), access_log=None, shutdown_timeout=LEAVES
    )  # an access log would hold the link
    await runner.setup()
    try:
        await web.TCPSite(runner, access.address, port).start()
    except OSError as error:
        await runner.cleanup()
        raise ServeError(
            f"{access.address}, port {port}, cannot be had ({error.strerror or 'in use'}); "
            "choose another --port, or an address of this machine."
        ) from error
    ends = asyncio.Event()
    with suppress(NotImplementedError):  # not on Windows, where Ctrl-C is an exception
        for number in (signal.SIGINT, signal.SIGTERM):
            asyncio.get_running_loop().add_signal_handler(number, ends.set)
    try:
        ready(runner.addresses[0][1])
        await ends.wait()
    finally:
        await runner.cleanup()
