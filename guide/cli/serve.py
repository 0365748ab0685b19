"""`hingeside serve [--address ADDRESS] [--port N]`"""

import argparse
import asyncio
import shlex
import socket
import subprocess
import sys

from guide.cli.messages import Usage, say
from guide.errors import DONE, NO_DEVICE, HingesideError
from guide.web.access import TOKEN, Access

PORT = 8000
EXAMPLES = """\
  hingeside serve                          for a browser of this machine
  hingeside serve --address 0.0.0.0        for a phone on the same network, by the link that is printed
"""
_EVERY = {"0.0.0.0": "192.0.2.1", "::": "2001:db8::1"}
"""The two addresses that mean every one of this machine, and one of elsewhere that it would be reached from."""
EXPOSED = (
    "Anyone on this network who has the link can read your jobs and answer in your name. "
    "What goes over the network is not encrypted: use this in a network you trust. Ctrl-C ends it."
)


class NoWeb(HingesideError):
    """The part of the program for browsers is not installed."""

    status = NO_DEVICE


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "--address",
        default="localhost",
        help="where to listen; if left out, for this machine alone",
    )
    parser.add_argument("--port", default=str(PORT), help=f"if left out, {PORT}")


def run(options: argparse.Namespace) -> int:
    """Serve the app to a browser until Ctrl-C."""
    if not options.port.isascii() or not options.port.isdigit() or int(options.port) > 65535:
        raise Usage("--port is a number from 0 to 65535.")
    try:
        from guide.web.server import serve  # only those who serve have what it needs
    except ImportError as error:
        raise NoWeb(
            "Serving needs an extra part; install it with: pip install 'hingeside[web]'."
        ) from error
    access = Access.at(options.address)
    words = [sys.executable, "-m", "guide.cli.served_app"]
    command = subprocess.list2cmdline(words) if sys.platform == "win32" else shlex.join(words)
    asyncio.run(serve(access, int(options.port), command, lambda port: tell(access, port)))
    return DONE


def tell(access: Access, port: int) -> None:
    """Say where it is, and to whom it is open."""
    secret = f"/?{TOKEN}={access.token}" if access.token else "/"
    name = _reached(access.address)
    print(f"http://{f'[{name}]' if ':' in name else name}:{port}{secret}", flush=True)
    say(EXPOSED if access.token else "Open to programs of this machine alone. Ctrl-C ends it.")


def _reached(address: str) -> str:
    """The address a phone on the same network calls: nothing is sent to find it."""
    if address not in _EVERY:
        return address
    family = socket.AF_INET6 if address == "::" else socket.AF_INET
    try:
        with socket.socket(family, socket.SOCK_DGRAM) as asks:
            asks.connect((_EVERY[address], 9))
            return str(asks.getsockname()[0])
    except OSError:
        return socket.gethostname()
