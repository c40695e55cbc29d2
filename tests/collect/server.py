"""A private PostgreSQL server in a folder of its own, on a free port, for one run of tests."""

from __future__ import annotations

import os
import pwd
import shutil
import socket
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from tempfile import mkdtemp

import psycopg

WHERE = Path("/usr/lib/postgresql")
OLDEST = 15
QUICK = "-c shared_buffers=256MB -c max_wal_size=4GB -c listen_addresses=127.0.0.1 -c fsync=off"
_names = count(1)


class NoServer(Exception):
    """No PostgreSQL programs are on this computer; the text says what to install."""


def programs() -> Path:
    """The folder of the newest server's programs; raises NoServer."""
    found = sorted(
        (int(folder.name) for folder in WHERE.glob("*") if (folder / "bin" / "initdb").exists()),
        reverse=True,
    )
    if not found or found[0] < OLDEST:
        raise NoServer("no PostgreSQL 15 or later here: apt-get install postgresql")
    return WHERE / str(found[0]) / "bin"


@dataclass
class Server:
    """A running server; its folder belongs to whoever runs it, who is never root."""

    bin: Path
    folder: Path
    port: int

    def run(self, program: str, *words: str) -> subprocess.CompletedProcess[str]:
        """Run one of its programs as the user the server runs as."""
        return subprocess.run(
            [self.bin / program, *words],
            capture_output=True,
            text=True,
            check=True,
            cwd=self.folder,
            **self.user,
        )

    @property
    def user(self) -> dict[str, str]:
        """Whose processes they are, as `subprocess` takes it: never root's."""
        return {"user": "postgres", "group": "postgres"} if os.getuid() == 0 else {}

    def start(self, more: str = QUICK) -> None:
        """Start it and wait until it answers."""
        options = f"-p {self.port} -k {self.folder} {more}"
        log = str(self.folder / "log")
        self.run("pg_ctl", "start", "-w", "-D", str(self.data), "-l", log, "-o", options)

    def stop(self, how: str = "immediate") -> None:
        """Stop it; `immediate` is as a power cut, for the database."""
        self.run("pg_ctl", "stop", "-w", "-D", str(self.data), "-m", how)

    @property
    def data(self) -> Path:
        """Where its files lie."""
        return self.folder / "data"

    def address(self, database: str = "postgres", user: str = "postgres", more: str = "") -> str:
        """The address as `--into` takes it."""
        return f"postgresql+psycopg://{user}@127.0.0.1:{self.port}/{database}{more}"

    def database(self) -> str:
        """A new empty database; its address."""
        name = f"tried_{next(_names)}"
        with self.connect() as connection:
            connection.execute(f"CREATE DATABASE {name}")
        return self.address(name)

    def connect(self, database: str = "postgres", user: str = "postgres") -> psycopg.Connection:
        """A plain connection, each statement by itself."""
        return psycopg.connect(
            host="127.0.0.1", port=self.port, dbname=database, user=user, autocommit=True
        )


@contextmanager
def started() -> Iterator[Server]:
    """A server that is gone afterwards; raises NoServer."""
    found = programs()
    folder = Path(mkdtemp(prefix="pillarside-pg-"))
    if os.getuid() == 0:
        user = pwd.getpwnam("postgres")
        os.chown(folder, user.pw_uid, user.pw_gid)
    server = Server(found, folder, _free_port())
    try:
        words = "-A trust -U postgres -E UTF8 --no-sync --no-instructions".split()
        server.run("initdb", "-D", str(server.data), *words)
        server.start()
        yield server
        server.stop()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])
