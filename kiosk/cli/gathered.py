"""Folders of downloads read for collecting: what each says it is, or why it can't be read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from kiosk.export import manifest
from kiosk.export.download import EVENTS
from kiosk.store.collected.values import Download


class Gathered(NamedTuple):
    """One download; `wrong` says why it can't be read, else it is empty."""

    of: Download
    events: Path
    wrong: str

    def lines(self) -> Iterator[bytes]:
        """Its lines as they lie there, each with its line feed; gone through anew each time."""
        if not self.events.is_file():
            return
        with self.events.open("rb") as file:
            yield from file


def gathered(folders: Iterable[Path]) -> list[Gathered]:
    """Every download in or below the folders: log by log, the earliest end first.

    So a fork is met in the order it came about, and a restart of the collection goes the same way.
    """
    inner = {path.parent for folder in folders for path in folder.rglob(manifest.NAME)}
    found = [_read(folder) for folder in inner]
    return sorted(found, key=lambda one: (one.of.log, one.of.last, one.of.first, one.of.name))


def incomplete(folders: Iterable[Path]) -> list[Path]:
    """Folders that a download was begun in, or was to go in: lines and no list, or nothing."""
    inner = {path for folder in folders for path in (folder, *folder.rglob("*")) if path.is_dir()}
    return sorted(folder for folder in inner if _is_begun(folder))


def _is_begun(folder: Path) -> bool:
    names = {path.name for path in folder.iterdir()}
    return manifest.NAME not in names and (EVENTS in names or not names)


def _read(folder: Path) -> Gathered:
    name, events = str(folder), folder / EVENTS
    try:
        said = manifest.read(folder)
        wrong = _wrong(said, events)
    except (OSError, ValueError) as error:
        said, wrong = {}, f"{manifest.NAME}: {error}"
    of = Download(
        name=name,
        key=_key(folder),
        log=str(said.get("log", "")),
        first=int(said.get("first", 1)),
        last=int(said.get("last", 0)),
        prev=str(said.get("prev", "")),
        head=str(said.get("head", "")),
        machine=str(said.get("machine", "")),
        **_made(said),
    )
    return Gathered(of, events, wrong)


def _wrong(said: dict[str, Any], events: Path) -> str:
    """What a list says that no download can be."""
    if not events.is_file():
        return f"{EVENTS} is missing; take the download again"
    if not said["log"].isalnum() or not said["log"].isascii() or len(said["log"]) > 64:
        return f"{manifest.NAME}: log is {said['log'][:24]!r}; allowed: letters and digits"
    if not 1 <= said["first"] <= said["last"] < 2**53:
        return f"{manifest.NAME}: lines {said['first']} to {said['last']}; allowed: from 1 on"
    return ""


def _made(said: dict[str, Any]) -> dict[str, int]:
    made = said.get("made", {})
    clock, wall_us = made.get("clock"), made.get("wall_us")
    quality = manifest.CLOCKS.index(clock) if clock in manifest.CLOCKS else 0
    inside = isinstance(wall_us, int) and abs(wall_us) < 2**53
    return {"made_us": wall_us if inside else 0, "quality": quality if inside else 0}


def _key(folder: Path) -> str:
    """A digest of the list: the same download is known by it wherever it lies."""
    return sha256((folder / manifest.NAME).read_bytes()).hexdigest()
