"""The pepper: a random key beside the record that only the kiosk's own user can read.

A record that is carried away without it gives no PIN away. It is never part of a download.
"""

from __future__ import annotations

import os
import re
import secrets
from pathlib import Path

SIZE = 32


def pepper_path(record: Path) -> Path:
    """Where the pepper of a record lies: `week.sqlite` has `week.sqlite.pepper`."""
    return record.with_name(record.name + ".pepper")


def pepper_for(record: Path) -> bytes:
    """The pepper of a record: 32 bytes, made at random the first time.

    Raises OSError if it can't be read or made, ValueError if the file was cut or changed.
    Where it was lost a new one is made, and every PIN issued before has stopped working.
    """
    path = pepper_path(record)
    if not path.exists():
        _make(path)
    text = path.read_text("ascii", errors="replace").strip()
    if not re.fullmatch(rf"[0-9a-f]{{{2 * SIZE}}}", text):
        raise ValueError(f"{path}: cut or changed; allowed: {2 * SIZE} hexadecimal digits")
    return bytes.fromhex(text)


def _make(path: Path) -> None:
    """Write a new pepper whole or not at all; the first of two writers wins."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f"{path.name}.{secrets.token_hex(4)}.part")
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_hex(SIZE) + "\n")
        file.flush()
        os.fsync(file.fileno())
    _put(part, path)


def _put(part: Path, path: Path) -> None:
    try:
        os.link(part, path)
    except FileExistsError:
        pass
    except OSError:  # a file system without links, such as a stick's
        part.replace(path)
    part.unlink(missing_ok=True)
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
