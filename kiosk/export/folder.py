"""Writing into a folder on a stick that may be full, pulled out or lying.

Everything goes by the open folder, never by path: once a stick is pulled out, its path would
lead to the card underneath. A file has its name only when it is whole: it is written as
`NAME.part`, synced, renamed, and its folder synced.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from kiosk.export.faults import DownloadFault, fault_of
from kiosk.export.sticks import is_for_sticks

CHUNK = 1 << 20
INSIDE = os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW | os.O_CLOEXEC
READ = os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK | os.O_CLOEXEC


class Written(NamedTuple):
    """A file that was written: its name, size in bytes and SHA-256."""

    name: str
    size: int
    sha256: str


class NotAsListed(Exception):
    """A file is no plain file, or longer than a list says; the text names it."""


class Part:
    """A file being written. It offers no seeking, so that what was hashed is what is there."""

    def __init__(self, name: str, handle: int) -> None:
        self.name, self._handle = name, handle
        self._hash, self._size = sha256(), 0

    def write(self, data: bytes) -> int:
        """Write all of the bytes; once closed, nothing (a zip archive left open still tries)."""
        if self._handle < 0:
            return len(data)
        view = memoryview(data)
        while view:
            view = view[os.write(self._handle, view) :]
        self._hash.update(data)
        self._size += len(data)
        return len(data)

    def flush(self) -> None:
        """Nothing is held back."""

    def finish(self) -> Written:
        """Sync to the stick and close."""
        os.fsync(self._handle)
        self.close()
        return Written(self.name, self._size, self._hash.hexdigest())

    def close(self) -> None:
        """Close without syncing. May be called twice."""
        handle, self._handle = self._handle, -1
        if handle >= 0:
            os.close(handle)


class Folder:
    """A folder held open."""

    def __init__(self, path: Path, handle: int) -> None:
        self.path, self._handle = path, handle

    @classmethod
    def open(cls, path: Path, mounted: bool = False) -> Folder:
        """Open a folder that is there; raises DownloadFault `gone`, `no_folder` or `not_folder`.

        With `mounted` it must be a stick's own root: under a stick just pulled out lies the card.
        """
        try:
            made = cls(path, os.open(path, os.O_RDONLY | os.O_DIRECTORY | os.O_CLOEXEC))
        except OSError as error:
            if isinstance(error, FileNotFoundError) and not mounted and not is_for_sticks(path):
                raise DownloadFault("no_folder", path) from error
            raise fault_of(error, path) from error
        if mounted and not made._is_a_root():
            made.close()
            raise DownloadFault("gone", path, "no stick is mounted there any more")
        return made

    def _is_a_root(self) -> bool:
        """Whether the folder above it is on another device."""
        try:
            return os.stat("..", dir_fd=self._handle).st_dev != os.fstat(self._handle).st_dev
        except OSError:
            return False

    def make(self, name: str) -> Folder:
        """Make a new folder inside, and open it."""
        os.mkdir(name, 0o755, dir_fd=self._handle)
        return self.inside(name)

    def at(self, name: str) -> Folder:
        """A folder inside, opened; made if it is not there. A link is not followed."""
        with suppress(FileExistsError):
            os.mkdir(name, 0o755, dir_fd=self._handle)
        return self.inside(name)

    def names(self) -> list[str]:
        """The names of all that is inside."""
        return os.listdir(self._handle)

    def inside(self, name: str) -> Folder:
        """A folder inside that is there, opened. A link is not followed."""
        return Folder(self.path / name, os.open(name, INSIDE, dir_fd=self._handle))

    def put(self, name: str, data: bytes) -> Written:
        """Write a file whole, under its own name, in folders within where its name has them."""
        above, _, rest = name.partition("/")
        if rest:
            with self.at(above) as deeper:
                done = deeper.put(rest, data)
        else:
            with self.writing(name) as part:
                part.write(data)
                done = part.finish()
            self.name_whole(name)
        self.sync()
        return done._replace(name=name)

    @contextmanager
    def reading(self, name: str) -> Iterator[int]:
        """The handle of a file inside; neither a link nor what would make one wait is followed."""
        handle = os.open(name, READ, dir_fd=self._handle)
        try:
            yield handle
        finally:
            os.close(handle)

    def plain(self, name: str, most: int) -> Iterator[bytes]:
        """The bytes of a plain file of at most so many; raises NotAsListed for anything else."""
        with self.reading(name) as handle:
            if not stat.S_ISREG(os.fstat(handle).st_mode):
                raise NotAsListed(f"{name} is no plain file")
            while data := os.read(handle, min(CHUNK, most + 1)):
                most -= len(data)
                if most < 0:
                    raise NotAsListed(f"{name} is longer than the list says")
                yield data

    def has(self, name: str) -> bool:
        """Whether something of this name is inside."""
        try:
            os.stat(name, dir_fd=self._handle, follow_symlinks=False)
        except FileNotFoundError:
            return False
        return True

    def has_folder(self, name: str) -> bool:
        """Whether a folder of this name is inside, and no link to one."""
        found = os.stat(name, dir_fd=self._handle, follow_symlinks=False)
        return stat.S_ISDIR(found.st_mode)

    def room(self) -> int:
        """Free bytes that may be used here."""
        found = os.fstatvfs(self._handle)
        return found.f_bavail * found.f_frsize

    @contextmanager
    def writing(self, name: str) -> Iterator[Part]:
        """A new file under its name with `.part`; closed in any case, named by `name_whole`."""
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_CLOEXEC
        part = Part(name, os.open(f"{name}.part", flags, 0o644, dir_fd=self._handle))
        try:
            yield part
        finally:
            part.close()

    def name_whole(self, name: str) -> None:
        """Give a synced file, or a folder, its own name, for good."""
        here = self._handle
        os.rename(f"{name}.part", name, src_dir_fd=here, dst_dir_fd=here)

    def sync(self) -> None:
        """Sync the folder's own entries."""
        os.fsync(self._handle)

    def read_back(self, written: Written) -> None:
        """Read a file again, past the cache where possible; raises DownloadFault `changed`."""
        handle = os.open(written.name, os.O_RDONLY | os.O_CLOEXEC, dir_fd=self._handle)
        try:
            with suppress(OSError):
                os.posix_fadvise(handle, 0, 0, os.POSIX_FADV_DONTNEED)
            found = sha256()
            while data := os.read(handle, CHUNK):
                found.update(data)
        finally:
            os.close(handle)
        if found.hexdigest() != written.sha256:
            raise DownloadFault("changed", self.path / written.name)

    def still_there(self) -> None:
        """Raises DownloadFault `gone` unless the path still leads to this very folder."""
        try:
            by_path, held = os.stat(self.path), os.fstat(self._handle)
        except OSError as error:
            raise DownloadFault("gone", self.path, error.strerror or "") from error
        if (by_path.st_dev, by_path.st_ino) != (held.st_dev, held.st_ino):
            raise DownloadFault("gone", self.path, "another folder is there now")

    def take_away(self, name: str) -> None:
        """Take away a file inside, as far as the stick lets us."""
        with suppress(OSError):
            os.unlink(name, dir_fd=self._handle)

    def remove(self, inner: Folder) -> None:
        """Take away a folder inside and all in it, as far as the stick lets us."""
        with suppress(OSError):
            for name in inner.names():
                inner._unlink(name)
            os.rmdir(inner.path.name, dir_fd=self._handle)
            os.fsync(self._handle)

    def _unlink(self, name: str) -> None:
        try:
            os.unlink(name, dir_fd=self._handle)
        except OSError:
            with suppress(OSError), self.inside(name) as deeper:
                self.remove(deeper)

    def close(self) -> None:
        """Let go of the folder. May be called twice."""
        handle, self._handle = self._handle, -1
        if handle >= 0:
            os.close(handle)

    def __enter__(self) -> Folder:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()
