"""The server of a crew: a PostgreSQL database that holds lines of runs and files as exact bytes, and only gets more.

A line is known by its run, number and digest, so that sending one twice is as once. The server itself checks each
line's digest; what comes back is checked here again, for the owner of a server can alter it.
"""

import logging
import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

from guide.errors import NO_DEVICE, UNKNOWN, HingesideError
from guide.text import printable

if TYPE_CHECKING:
    import psycopg

T = TypeVar("T")
TRIES = 6
"""Connections that may be lost one after the other before the work is given up; any success counts anew."""
FIRST_WAIT, LONGEST_WAIT = 0.5, 8.0
"""Seconds before a second try, doubled each time, and the most."""
LINK = "postgresql://NAME@SERVER/DATABASE"
WRITER = "hingeside_writer"
"""The role of those who push and pull: it may read and add, nothing else."""
_USUAL = {
    "connect_timeout": "10",
    "keepalives_idle": "10",
    "keepalives_interval": "5",
    "keepalives_count": "3",
    "tcp_user_timeout": "30000",
    "application_name": "hingeside",
}
"""How long a silent network is waited for; a link may say otherwise."""
_HERE = ("", "localhost", "127.0.0.1", "::1")
_FULL = "53"
"""How the codes of a server that is out of room begin."""
PREPARE = f"""
CREATE SCHEMA IF NOT EXISTS hingeside;
CREATE TABLE IF NOT EXISTS hingeside.line (
    run text COLLATE "C" NOT NULL CHECK (run ~ '^[0-9a-f]{{32}}$'),
    n integer NOT NULL CHECK (n >= 0),
    digest text COLLATE "C" NOT NULL,
    raw bytea NOT NULL CHECK (octet_length(raw) BETWEEN 78 AND 1048576),
    received timestamptz NOT NULL DEFAULT now(),
    received_from name NOT NULL DEFAULT session_user,
    PRIMARY KEY (run, n, digest),
    CHECK (substring(raw FROM octet_length(raw) - 76) = convert_to(',"digest":"' || digest || '"}}', 'UTF8')),
    CHECK (digest = encode(sha256(substring(raw FOR octet_length(raw) - 77)), 'hex'))
);
CREATE TABLE IF NOT EXISTS hingeside.file (
    name text COLLATE "C" NOT NULL CHECK (octet_length(name) BETWEEN 3 AND 400),
    digest text COLLATE "C" NOT NULL,
    follows text COLLATE "C" NOT NULL CHECK (follows ~ '^([0-9a-f]{{64}})?$'),
    raw bytea NOT NULL CHECK (octet_length(raw) <= 33554432),
    received timestamptz NOT NULL DEFAULT now(),
    received_from name NOT NULL DEFAULT session_user,
    PRIMARY KEY (name, digest),
    CHECK (digest = encode(sha256(raw), 'hex'))
);
CREATE OR REPLACE FUNCTION hingeside.only_added() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION 'lines and files are only added' USING ERRCODE = 'insufficient_privilege'; END $$;
CREATE OR REPLACE TRIGGER only_added BEFORE UPDATE OR DELETE OR TRUNCATE ON hingeside.line
    FOR EACH STATEMENT EXECUTE FUNCTION hingeside.only_added();
CREATE OR REPLACE TRIGGER only_added BEFORE UPDATE OR DELETE OR TRUNCATE ON hingeside.file
    FOR EACH STATEMENT EXECUTE FUNCTION hingeside.only_added();
DO $$ BEGIN CREATE ROLE {WRITER} NOLOGIN; EXCEPTION WHEN duplicate_object THEN NULL; END $$;
REVOKE ALL ON SCHEMA hingeside FROM PUBLIC;
REVOKE ALL ON hingeside.line, hingeside.file FROM PUBLIC;
GRANT USAGE ON SCHEMA hingeside TO {WRITER};
GRANT SELECT, INSERT (run, n, digest, raw) ON hingeside.line TO {WRITER};
GRANT SELECT, INSERT (name, digest, follows, raw) ON hingeside.file TO {WRITER};
"""


class BadLink(HingesideError):
    """The link to the server is not one; the message never repeats it, for it may hold a password."""

    status = UNKNOWN


class ServerError(HingesideError):
    """The server cannot be used; the message says why and what to do."""

    status = NO_DEVICE


class Server:
    """A server, reached again and again over a connection that may be bad."""

    def __init__(self, url: str, wait: Callable[[float], None] = time.sleep) -> None:
        """Nothing is connected yet. Raises BadLink, or ServerError where the driver is not installed."""
        self._psycopg = _driver()
        self._settings = self._read(url)
        self._wait = wait
        self._open: psycopg.Connection[Any] | None = None

    @property
    def name(self) -> str:
        """The server and its database, without anything secret."""
        host, database = (
            self._settings.get("host") or "this machine",
            self._settings.get("dbname", ""),
        )
        return printable(f"{database} on {host}" if database else host)

    @property
    def place(self) -> str:
        """Which database it is, whatever name one connects by; what this device has seen there is kept under it."""
        settings = {"host": "", "port": "5432", "dbname": "", **self._settings}
        return printable("{host}:{port}/{dbname}".format_map(settings))

    def prepare(self) -> None:
        """Make what lines are kept in, and the role that may add and read; twice is as once."""
        self.do(lambda connection: connection.execute(PREPARE))

    def do(
        self,
        work: "Callable[[psycopg.Connection[Any]], T]",
        when_lost: Callable[[], None] = lambda: None,
    ) -> T:
        """Do some work that may be done twice, on a new connection whenever one is lost.

        Raises ServerError after TRIES in a row, and at once for what another try would not change.
        """
        psycopg = self._psycopg
        for number in range(TRIES):
            try:
                return work(self._connection())
            except (psycopg.OperationalError, psycopg.InterfaceError) as error:
                lasting = self._lasting(error)
                self.close()
                if lasting:
                    raise ServerError(lasting) from None  # what the driver says may hold the link
                when_lost()
                if number < TRIES - 1:
                    self._wait(min(LONGEST_WAIT, FIRST_WAIT * 2**number))
            except psycopg.Error as error:
                self.close()
                raise ServerError(self._refused(error)) from None
        raise ServerError(
            f"The server ({self.name}) was not reached in {TRIES} tries. What came through is kept; "
            "look at the network and the link, and call it again."
        )

    def close(self) -> None:
        """Let go of the connection; more than once does nothing."""
        if self._open is not None:
            self._open.close()
            self._open = None

    def _connection(self) -> "psycopg.Connection[Any]":
        if self._open is None or self._open.closed:
            self._open = self._psycopg.connect(**self._settings, autocommit=True)
        return self._open

    def _read(self, url: str) -> dict[str, Any]:
        if not url.startswith(("postgresql://", "postgres://")):
            raise BadLink(f"A link to a server is written {LINK}.")
        try:
            found: dict[str, Any] = self._psycopg.conninfo.conninfo_to_dict(url)
        except self._psycopg.Error:
            raise BadLink(f"The link to the server cannot be read; write {LINK}.") from None
        if found.get("host", "") not in _HERE and not str(found.get("host")).startswith("/"):
            found.setdefault("sslmode", "require")
        return {**_USUAL, **found}

    def _lasting(self, error: "psycopg.Error") -> str:
        """Why another try would be no better, as a sentence; empty where it may be."""
        said = str(error)
        if error.sqlstate is not None and error.sqlstate.startswith(_FULL):
            return f"The server ({self.name}) has no room left; tell its owner."
        if self._open is not None:
            return ""
        if "SSL" in said and "not support" in said:
            return (
                f"The server ({self.name}) does not encrypt, so nothing was sent. "
                "Ask its owner to turn SSL on; inside a network you trust add ?sslmode=disable to the link."
            )
        if "FATAL" in said and "starting up" not in said and "too many" not in said:
            return (
                f"The server ({self.name}) does not let you in; look at the name, the password "
                "and the database."
            )
        return ""

    def _refused(self, error: "psycopg.Error") -> str:
        errors = self._psycopg.errors
        if isinstance(error, (errors.UndefinedTable, errors.InvalidSchemaName)):
            return (
                f"The server ({self.name}) is not prepared; its owner calls “hingeside crew init”."
            )
        if isinstance(error, errors.InsufficientPrivilege):
            return (
                f"You may not do this on the server ({self.name}); its owner writes "
                f"“GRANT {WRITER} TO NAME”."
            )
        if isinstance(error, errors.CheckViolation):
            return f"The server ({self.name}) does not accept a line as it was sent; nothing of it was kept."
        code = error.sqlstate or type(error).__name__
        return f"The server ({self.name}) refuses, with the code {code}; tell its owner."


def _driver() -> Any:
    try:
        import psycopg  # only those who share a server have it
        import psycopg.conninfo
        import psycopg.errors
    except ImportError:
        raise ServerError(
            "A crew's server needs an extra part; install it with: pip install 'hingeside[crew]'."
        ) from None
    logging.getLogger("psycopg").setLevel(logging.CRITICAL)  # what it logs may hold the link
    return psycopg
