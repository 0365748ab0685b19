"""A PostgreSQL of the tests' own, on a socket in a folder of its own, and a connection to it that breaks."""

import os
import shutil
import socket
import subprocess
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, Self

PROGRAMS = "usr/lib/postgresql/*/bin"
SOCKET = ".s.PGSQL.5432"
OWNER, ANNA, BEN = "owner", "anna", "ben"
PASSWORD = "Larkhill%40door 9"
ENTRY = "local all owner trust\nlocal all all scram-sha-256\n"
QUICK = "-c fsync=off -c synchronous_commit=off -c full_page_writes=off"
"""What makes a server quick, and a power cut its end."""
ONLY_HERE = "-c listen_addresses="


def _program(name: str) -> str:
    places = [*map(str, sorted(Path("/").glob(PROGRAMS))), os.environ.get("PATH", "")]
    found = shutil.which(name, path=os.pathsep.join(places))
    assert found is not None
    return found


def _call(*words: str, folder: Path) -> None:
    """Run a program of PostgreSQL, which root may not: then as nobody."""
    other = {"user": "nobody", "extra_groups": []} if os.getuid() == 0 else {}
    # The server keeps its output open, so it goes nowhere.
    subprocess.run(
        words, cwd=folder, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **other
    )  # type: ignore[call-overload]


@contextmanager
def database(settings: str = QUICK) -> Iterator[Path]:
    """A server that runs; the folder of its socket."""
    folder = Path(tempfile.mkdtemp(prefix="pg-"))
    data = str(folder / "data")
    try:
        if os.getuid() == 0:
            shutil.chown(folder, "nobody")
        quickly = ("-A", "trust", "--no-sync", "-E", "UTF8", "--locale=C")
        _call(_program("initdb"), "-D", data, "-U", OWNER, *quickly, folder=folder)
        (folder / "data" / "pg_hba.conf").write_text(ENTRY)
        control = _program("pg_ctl")
        _call(
            control,
            "start",
            "-w",
            "-D",
            data,
            "-o",
            f"-k {folder} {ONLY_HERE} {settings}",
            folder=folder,
        )
        try:
            yield folder
        finally:
            _call(control, "stop", "-m", "immediate", "-D", data, folder=folder)
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def said_by(folder: Path, *statements: str) -> list[Any]:
    """What the server tells the owner of the database after these statements."""
    import psycopg

    with psycopg.connect(
        host=str(folder), user=OWNER, dbname="postgres", autocommit=True
    ) as connection:
        for one in statements[:-1]:
            connection.execute(one)
        done = connection.execute(statements[-1])
        return done.fetchall() if done.description else []


class BadConnection:
    """A way to the server that is cut after so many bytes, each time it is used anew."""

    def __init__(self, folder: Path, sent: int, got: int = 1 << 30) -> None:
        """`sent` and `got` are the bytes that one connection lets through in each direction."""
        self.cut = 0
        """Connections that were cut."""
        self._to = str(folder / SOCKET)
        self._most = (sent, got)
        self._listens = socket.create_server(("127.0.0.1", 0))
        self.port = self._listens.getsockname()[1]

    def __enter__(self) -> Self:
        threading.Thread(target=self._accept, daemon=True).start()
        return self

    def __exit__(self, *_: object) -> None:
        self._listens.close()

    def _accept(self) -> None:
        with suppress(OSError):  # closed: the test has ended
            while True:
                near, _ = self._listens.accept()
                far = socket.socket(socket.AF_UNIX)
                far.connect(self._to)
                for one, other, most in zip((near, far), (far, near), self._most, strict=True):
                    pass_on = (one, other, most)
                    threading.Thread(target=self._pass_on, args=pass_on, daemon=True).start()

    def _pass_on(self, one: socket.socket, other: socket.socket, most: int) -> None:
        with suppress(OSError):  # the other direction was cut
            while data := one.recv(4096):
                other.sendall(data[:most])
                most -= len(data)
                if most < 0:
                    self.cut += 1
                    break
        for end in (one, other):
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
