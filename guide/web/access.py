"""Who may use the page: only its own page under its own address, and away from this machine only with its link.

A page of somebody else in the same browser can call any address. It cannot say another origin than its own, and it
cannot read the cookie that the link sets.
"""

import hmac
import ipaddress
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field
from urllib.parse import urlsplit

TOKEN = "token"
"""The name of the link's secret part, and of the cookie that is set for it."""
HERE = ("localhost", "127.0.0.1", "::1")


def is_loopback(address: str) -> bool:
    """Whether only programs of this machine reach the address."""
    if address == "localhost":
        return True
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return False


@dataclass(frozen=True, slots=True)
class Access:
    """The rules for one address."""

    address: str
    """What is listened on."""
    token: str = field(repr=False)
    """The secret of the link; empty where the address is of this machine alone."""

    @staticmethod
    def at(address: str) -> "Access":
        """The rules for an address: away from this machine with a new secret."""
        return Access(address, "" if is_loopback(address) else secrets.token_urlsafe(24))

    def knows_host(self, host: str) -> bool:
        """Whether a request names an address of ours, and not a name that somebody led here."""
        name = urlsplit(f"//{host}").hostname or ""
        if name == self.address or name in HERE:
            return True
        if self.address not in ("0.0.0.0", "::"):
            return False
        try:
            ipaddress.ip_address(name)
        except ValueError:
            return False
        return True

    def knows_origin(self, origin: str | None, host: str) -> bool:
        """Whether a connection comes from the page of this address itself."""
        return origin == f"http://{host}"

    def opens(self, token: str | None) -> bool:
        """Whether the secret is the one of the link; always where there is none."""
        return hmac.compare_digest((token or "").encode(), self.token.encode())

    def lets_in(self, cookies: Mapping[str, str]) -> bool:
        """Whether a browser has come by the link."""
        return self.opens(cookies.get(TOKEN))
