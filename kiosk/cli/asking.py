"""Asks the running kiosk over its local socket: one JSON line out, one JSON line back."""

from __future__ import annotations

import json
import os
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

WAIT_S = 15.0
LONGEST_ADDRESS = 100  # unix(7): an address has room for 108 bytes


def socket_path(record: Path) -> Path:
    """Where the kiosk of a record listens: `week.sqlite` has `week.sqlite.sock`."""
    return record.with_name(record.name + ".sock")


def ask(record: Path, request: dict[str, Any]) -> dict[str, Any] | None:
    """The running kiosk's answer, or None if no kiosk of this record is running.

    Raises OSError if the kiosk does not answer, ValueError if its answer is not a JSON object.
    """
    with socket.socket(socket.AF_UNIX, socket.SOCK_STREAM) as line:
        line.settimeout(WAIT_S)
        try:
            with _address(socket_path(record)) as address:
                line.connect(address)
        except (FileNotFoundError, ConnectionRefusedError):
            return None
        line.sendall(json.dumps(request).encode() + b"\n")
        answer = json.loads(_read(line))
    if not isinstance(answer, dict):
        raise ValueError(f"the kiosk answered {answer!r}; an object was expected")
    return answer


def _read(line: socket.socket) -> bytes:
    with line.makefile("rb") as back:
        answer = back.readline()
    if not answer.endswith(b"\n"):
        raise ConnectionError("the kiosk ended before it had answered")
    return answer


@contextmanager
def _address(path: Path) -> Iterator[str]:
    """A socket's address; one too long for the system goes through its open folder."""
    if len(os.fsencode(path)) <= LONGEST_ADDRESS:
        yield str(path)
        return
    folder = os.open(path.parent, os.O_PATH | os.O_DIRECTORY)
    try:
        yield f"/proc/self/fd/{folder}/{path.name}"
    finally:
        os.close(folder)
