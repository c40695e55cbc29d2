"""A server where there is one, and downloads of invented drills."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.collect.server import NoServer, Server, started


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    """A private server for this run; skipped with the reason where there are no programs."""
    try:
        with started() as running:
            yield running
    except NoServer as reason:
        pytest.skip(str(reason))


@pytest.fixture(scope="module")
def victim() -> Iterator[Server]:
    """A server of its own, since it is killed again and again."""
    try:
        with started() as running:
            yield running
    except NoServer as reason:
        pytest.skip(str(reason))


@pytest.fixture
def into(server: Server) -> str:
    """The address of a new empty database."""
    return server.database()
