"""Remembers what was changed, and what stood there before, so that it can be undone later.

Each change is on the disk before the next is begun, so that a cut in the middle can be undone
or gone on with.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from typing import Any

from kiosk.installing.changes import (
    Before,
    Change,
    File,
    Folder,
    Masked,
    Mounted,
    Packages,
    Unit,
    User,
)
from kiosk.installing.computer import CannotInstall, Computer

KINDS: dict[str, type[Any]] = {
    kind.__name__.lower(): kind for kind in (File, Folder, Masked, Mounted, Packages, Unit, User)
}


class Journal:
    """The list of what was changed on a computer, in `path`."""

    def __init__(self, computer: Computer, path: str) -> None:
        self._computer, self._path = computer, path

    def entries(self) -> list[tuple[Change, Before]]:
        """What was changed, oldest first. Raises `CannotInstall` if it can't be read."""
        place = self._computer.at(self._path)
        if not place.is_file():
            return []
        try:
            return [_entry(written) for written in json.loads(place.read_text("utf-8"))]
        except (ValueError, KeyError, TypeError) as error:
            raise CannotInstall(f"{place}: {error}; it was changed by hand") from None

    def make(self, changes: Sequence[Change]) -> Iterator[Change]:
        """Make what does not stand yet, one after the other; each made is given back."""
        for change in changes:
            if change.stands(self._computer):
                continue
            before = change.make(self._computer)
            self._keep([*self.entries(), (change, before)])
            yield change

    def undo(self) -> Iterator[tuple[Change, str]]:
        """Take all back, last first; each with what had to be left."""
        kept = self.entries()
        while kept:
            change, before = kept[-1]
            left = change.undo(self._computer, before)
            kept.pop()
            self._keep(kept)
            yield change, left

    def _keep(self, entries: list[tuple[Change, Before]]) -> None:
        place = self._computer.at(self._path)
        if not entries:
            place.unlink(missing_ok=True)
            return
        place.parent.mkdir(parents=True, exist_ok=True)
        written = [_written(change, before) for change, before in entries]
        self._computer.write(self._path, json.dumps(written, indent=1), 0o600)


def _written(change: Change, before: Before) -> dict[str, Any]:
    kind = type(change)
    return {"kind": kind.__name__.lower(), "with": asdict(change), "before": before}  # type: ignore[call-overload]


def _entry(written: dict[str, Any]) -> tuple[Change, Before]:
    values = {
        name: tuple(value) if isinstance(value, list) else value
        for name, value in written["with"].items()
    }
    return KINDS[written["kind"]](**values), written["before"]
