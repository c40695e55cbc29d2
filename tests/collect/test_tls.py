"""The feed over TLS, to a server that takes nothing else: by the certificate of the right root."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from kiosk.store.collected import CollectFault, Database, Feed
from tests.collect.server import QUICK, NoServer, Server, started
from tests.recording import Playing, lesson_at

pytestmark = pytest.mark.collect

TLS = "-c ssl=on"
TLS_ONLY = "hostnossl all all all reject\nhostssl all all all trust\nlocal all all trust\n"


@pytest.fixture(scope="module")
def encrypted() -> Iterator[Server]:
    """A server with a certificate of its own for 127.0.0.1, which refuses plain connections."""
    try:
        with started() as server:
            server.stop("fast")
            certify(server)
            (server.data / "pg_hba.conf").write_text(TLS_ONLY)
            server.start(f"{QUICK} {TLS}")
            yield server
    except NoServer as reason:
        pytest.skip(str(reason))


def certify(server: Server) -> None:
    """Make the server's key and certificate, signed by itself, as its own user."""
    make = "openssl req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN=127.0.0.1"
    named = "-addext subjectAltName=IP:127.0.0.1 -keyout data/server.key -out data/server.crt"
    words = ["/bin/sh", "-c", f"umask 077; {make} {named}"]
    subprocess.run(words, cwd=server.folder, check=True, capture_output=True, **server.user)


@pytest.fixture
def playing(tmp_path: Path) -> Iterator[Playing]:
    """A kiosk's record with a lesson in it."""
    with lesson_at(tmp_path / "record.sqlite") as playing:
        yield playing


@pytest.fixture
def root(encrypted: Server, tmp_path: Path) -> Path:
    """The root that the office has handed out: the server's own certificate."""
    file = tmp_path / "root.crt"
    file.write_bytes((encrypted.data / "server.crt").read_bytes())
    return file


def test_a_feed_that_checks_the_certificate_is_taken(
    encrypted: Server, root: Path, playing: Playing
) -> None:
    name = encrypted.database().rsplit("/", 1)[1]
    address = encrypted.address(name, more=f"?sslmode=verify-full&sslrootcert={root}")
    Database(address).bring_up()

    sent = Feed(playing.record.path, Database(address)).send()

    assert sent == playing.record.head[0]


@pytest.mark.parametrize("manner", ["?sslmode=disable", "?sslmode=verify-full&sslrootcert={}"])
def test_a_feed_with_no_encryption_or_another_root_is_refused_in_plain_words(
    encrypted: Server, root: Path, playing: Playing, manner: str, tmp_path: Path
) -> None:
    other = tmp_path / "other.crt"
    make = f"openssl req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN=other -out {other}"
    words = [*make.split(), "-keyout", str(tmp_path / "other.key")]
    subprocess.run(words, check=True, capture_output=True)
    feed = Feed(playing.record.path, Database(encrypted.address(more=manner.format(other))))

    with pytest.raises(CollectFault, match="TLS") as refused:
        feed.send()

    assert "does not let this name in" in str(refused.value)
