"""A disk that keeps only what was synced, and of the rest what chance leaves of it.

What a program wrote since the last sync of a file may be there or not, in any order, and half of
it: sectors of 512 bytes are kept or lost each on its own. A file's name is there once its folder
was synced; names that were not come back in the order in which they were made, or not at all,
as a journalling file system has it.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from tests.powercut.tracing import Call

SECTOR = 512
SHAPES = ("none", "prefix", "subset", "torn")
"""What is left of what was not synced: nothing, all up to a moment, some, some of it in part."""


@dataclass
class File:
    """A file's bytes as they are safe on the disk, and what waits."""

    safe: bytearray = field(default_factory=bytearray)
    waiting: list[Call] = field(default_factory=list)

    def left(self, shape: str, chance: random.Random) -> bytearray:
        """What a cut leaves of it."""
        found = bytearray(self.safe)
        for call in _kept(self.waiting, shape, chance):
            _put(found, call, chance if shape == "torn" else None)
        return found


@dataclass
class Disk:
    """One folder of a disk. Hand it the calls in their order; ask what is `left` at any moment."""

    files: dict[str, File] = field(default_factory=dict)
    named: dict[str, File] = field(default_factory=dict)
    renaming: list[tuple[Call, File | None]] = field(default_factory=list)

    @classmethod
    def holding(cls, safe: Mapping[str, bytes]) -> Disk:
        """A disk that has these files safe on it."""
        files = {name: File(bytearray(data)) for name, data in safe.items()}
        return cls(dict(files), dict(files))

    def take(self, call: Call) -> None:
        """What the next call does."""
        match call.what:
            case "make":
                if call.name not in self.files:
                    self.files[call.name] = File()
                    self.renaming.append((call, self.files[call.name]))
            case "write" | "size":
                self.files[call.name].waiting.append(call)
            case "sync":
                self._sync(call.name)
            case "unlink":
                del self.files[call.name]
                self.renaming.append((call, None))
            case "rename":
                self.files[call.to] = self.files.pop(call.name)
                self.renaming.append((call, None))

    def _sync(self, name: str) -> None:
        if name:
            file = self.files[name]
            for call in file.waiting:
                _put(file.safe, call, None)
            file.waiting.clear()
        else:
            self.named = dict(self.files)
            self.renaming.clear()

    def left(self, shape: str, chance: random.Random) -> dict[str, bytes]:
        """The files that are there after the power went, and their bytes."""
        names = self._names_left(shape, chance)
        return {name: bytes(file.left(shape, chance)) for name, file in names.items()}

    def _names_left(self, shape: str, chance: random.Random) -> dict[str, File]:
        names = dict(self.named)
        count = 0 if shape == "none" else chance.randint(0, len(self.renaming))
        for call, file in self.renaming[:count]:
            if call.what == "make" and file is not None:
                names[call.name] = file
            elif call.what == "rename" and call.name in names:
                names[call.to] = names.pop(call.name)
            elif call.what == "unlink":
                names.pop(call.name, None)
        return names


def _kept(waiting: list[Call], shape: str, chance: random.Random) -> Iterable[Call]:
    if shape == "none":
        return ()
    if shape == "prefix":
        return waiting[: chance.randint(0, len(waiting))]
    return [call for call in waiting if chance.random() < 0.5]


def _put(found: bytearray, call: Call, torn: random.Random | None) -> None:
    """Do one write or change of size; `torn` keeps each sector or not."""
    if call.what == "size":
        del found[call.at :]
        found.extend(bytes(call.at - len(found)))
        return
    at = len(found) if call.at < 0 else call.at
    found.extend(bytes(max(0, at - len(found))))
    for start in range(0, len(call.data), SECTOR):
        if torn is None or torn.random() < 0.5:
            piece = call.data[start : start + SECTOR]
            found.extend(bytes(max(0, at + start - len(found))))
            found[at + start : at + start + len(piece)] = piece
