"""Files written whole or not at all, also where the power goes in the middle of it."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path


def write_whole(to: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write files into the folder `to`, made where it is missing; their paths.

    All are written and synced under names of their own before the first takes its place; an older
    file of a name gives way. Raises OSError, and then each file is either the old one or the new.
    """
    to.mkdir(parents=True, exist_ok=True)
    parts = [(to / f"{name}.part", to / name) for name in files]
    try:
        for (part, _), data in zip(parts, files.values(), strict=True):
            _synced(part, data)
        for part, whole in parts:
            part.replace(whole)
    finally:
        for part, _ in parts:
            part.unlink(missing_ok=True)
    _sync_folder(to)
    return tuple(whole for _, whole in parts)


def _synced(path: Path, data: bytes) -> None:
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _sync_folder(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
