"""A disk that keeps only what was synced, and of the rest what chance leaves of it.

What a program wrote since the last sync of a file may be there or not, in any order, and half of
it: sectors of 512 bytes are kept or lost each on its own. A file's name is there once its folder
was synced; names that were not come back in the order in which they were made, or not at all,
as a journalling file system has it.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from tests.powercut.tracing import Call

SECTOR = 512
SHAPES = ("none", "prefix", "subset", "torn")
"""What is left of what was not synced: nothing, all up to a moment, some, some of it in part."""


@dataclass(eq=False)
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


@dataclass(eq=False)
class Folder:
    """What a folder holds now, and what of it is safe on the disk."""

    inside: dict[str, Node] = field(default_factory=dict)
    safe: dict[str, Node] = field(default_factory=dict)


Node: TypeAlias = File | Folder
Change: TypeAlias = tuple[Folder, str, Node | None]
"""A name in a folder stands for something else from now on, or for nothing."""


@dataclass
class Disk:
    """One folder of a disk. Hand it the calls in their order; ask what is `left` at any moment.

    `changes` are those of names that were not synced; a rename is two that come together.
    """

    root: Folder = field(default_factory=Folder)
    changes: list[tuple[Change, ...]] = field(default_factory=list)

    @classmethod
    def holding(cls, safe: Mapping[str, bytes]) -> Disk:
        """A disk that has these files safe on it."""
        disk = cls()
        for name, data in safe.items():
            *above, last = name.split("/")
            at = disk.root
            for one in above:
                at.inside.setdefault(one, Folder())
                at.safe[one] = at.inside[one]
                at = _folder(at.inside[one])
            at.inside[last] = at.safe[last] = File(bytearray(data))
        return disk

    def take(self, call: Call) -> None:
        """What the next call does."""
        match call.what:
            case "make" | "folder":
                folder, last = self._place(call.name)
                if last not in folder.inside:
                    self._change((folder, last, File() if call.what == "make" else Folder()))
            case "write" | "size":
                _file(self._node(call.name)).waiting.append(call)
            case "sync":
                self._sync(self._node(call.name))
            case "unlink":
                self._change((*self._place(call.name), None))
            case "rename":
                node = self._node(call.name)
                self._change((*self._place(call.name), None), (*self._place(call.to), node))

    def _place(self, name: str) -> tuple[Folder, str]:
        above, _, last = name.rpartition("/")
        return _folder(self._node(above)), last

    def _node(self, name: str) -> Node:
        node: Node = self.root
        for one in filter(None, name.split("/")):
            node = _folder(node).inside[one]
        return node

    def _change(self, *changes: Change) -> None:
        for folder, name, node in changes:
            _put_name(folder.inside, name, node)
        self.changes.append(changes)

    def _sync(self, node: Node) -> None:
        if isinstance(node, File):
            for call in node.waiting:
                _put(node.safe, call, None)
            node.waiting.clear()
            return
        mine = [c for c in self.changes if any(folder is node for folder, _, _ in c)]
        self.changes = [c for c in self.changes if c not in mine]
        for folder, name, to in (one for changes in mine for one in changes):
            _put_name(folder.safe, name, to)

    def left(self, shape: str, chance: random.Random) -> dict[str, bytes]:
        """The files that are there after the power went, and their bytes."""
        names: dict[int, dict[str, Node]] = {}
        count = 0 if shape == "none" else chance.randint(0, len(self.changes))
        for folder, name, node in (one for changes in self.changes[:count] for one in changes):
            _put_name(names.setdefault(id(folder), dict(folder.safe)), name, node)
        found = _files(self.root, names)
        return {name: bytes(file.left(shape, chance)) for name, file in found}


def _files(
    folder: Folder, names: Mapping[int, Mapping[str, Node]], above: str = ""
) -> Iterator[tuple[str, File]]:
    """All files that can be reached by names, with those of their folders."""
    for name, node in names.get(id(folder), folder.safe).items():
        if isinstance(node, File):
            yield above + name, node
        else:
            yield from _files(node, names, f"{above}{name}/")


def _put_name(names: dict[str, Node], name: str, node: Node | None) -> None:
    if node is None:
        names.pop(name, None)
    else:
        names[name] = node


def _file(node: Node) -> File:
    assert isinstance(node, File)
    return node


def _folder(node: Node) -> Folder:
    assert isinstance(node, Folder)
    return node


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
