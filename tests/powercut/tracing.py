"""Runs a program under strace and reads back what it did to the files of one folder.

Nothing of the program is replaced: what is recorded are the calls that its own SQLite, and its
own Python, made to the system.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

WATCHED = (
    "open openat creat close write pwrite64 writev pwritev pwritev2 ftruncate truncate fallocate "
    "fsync fdatasync sync_file_range unlink unlinkat rename renameat renameat2 link linkat "
    "symlink symlinkat mkdir mkdirat rmdir copy_file_range sendfile"
).split()
SHM = b"-shm"  # shared memory, made anew by whoever opens first
NOTHING_DONE = {"close", "sync_file_range"}
FROM_A_FOLDER = {"openat", "mkdirat", "unlinkat", "renameat"}
LONGEST = 1 << 20

_CALL = re.compile(rb"(?:\d+ +)?(\w+)\((.*)\) += (-?\d+)(?:<[^>]*>)?(?: .*)?$")
_PART = re.compile(rb'"((?:[^"\\]|\\.)*)"|(?:AT_FDCWD|\d+)(?:<([^>]*)>)?|[\w|]+')


@dataclass(frozen=True)
class Call:
    """One call that changed or synced a file: `write`, `size`, `sync`, `make`, `folder` (one was
    made), `unlink`, `rename`.

    `name` is the file's name in the folder, with / for one further in; empty for the folder itself.
    """

    what: str
    name: str
    at: int = 0
    data: bytes = b""
    to: str = ""


def need_strace() -> str:
    """Where strace is; skips the test where it is missing or may not look on."""
    found = shutil.which("strace")
    tried = found and subprocess.run([found, "true"], capture_output=True, check=False)
    if not found or not tried or tried.returncode:
        refuse = pytest.fail if os.environ.get("CI") else pytest.skip
        refuse("needs strace (apt-get install strace), and a machine that lets it look on")
    return str(found)


def traced(words: list[str], folder: Path, cwd: Path) -> list[Call]:
    """The calls of a program to the files of a folder, in their order."""
    log = folder.parent / f"{folder.name}.trace"
    watch = ["-f", "--seccomp-bpf", "-qq", "-y", "-xx", "-s", str(LONGEST), "-o", str(log)]
    command = [need_strace(), *watch, "-e", f"trace={','.join(WATCHED)}", *words]
    subprocess.run(command, cwd=cwd, check=True, capture_output=True, text=True)
    try:
        return list(_calls(log, os.fsencode(folder)))
    finally:
        log.unlink()


def _calls(log: Path, folder: bytes) -> Iterator[Call]:
    needle = folder.hex(" ").replace(" ", "\\x").encode()
    with log.open("rb") as lines:
        for line in lines:
            if needle not in line:
                continue
            match = _CALL.match(line.rstrip())
            if match is None:
                raise ValueError(f"can't read {line[:200]!r}")
            if int(match[3]) >= 0:
                yield from _call(match[1].decode(), _parts(match[2]), int(match[3]), folder)


def _parts(text: bytes) -> list[bytes]:
    """The arguments: texts decoded, a handle as the path it stands for, the rest as it is."""
    return [
        _decoded(m[1]) if m[1] is not None else _decoded(m[2]) if m[2] is not None else m[0]
        for m in _PART.finditer(text)
    ]


def _decoded(text: bytes) -> bytes:
    return bytes.fromhex(text.replace(b"\\x", b"").decode()) if text.startswith(b"\\x") else text


def _call(call: str, parts: list[bytes], result: int, folder: bytes) -> Iterator[Call]:
    """What a call did in the folder, if anything; folders within it count."""
    path = _path(parts, 0) if call in FROM_A_FOLDER else parts[0]
    if call in NOTHING_DONE or not _is_in(path, folder) or path.endswith(SHM):
        return
    name = _name(path, folder)
    match call:
        case "openat":
            if b"O_CREAT" in parts[2]:
                yield Call("make", name)
            assert b"O_TRUNC" not in parts[2], parts
        case "mkdir" | "mkdirat":
            yield Call("folder", name)
        case "pwrite64" if len(parts[1]) == result:
            yield Call("write", name, int(parts[3]), parts[1])
        case "write":
            yield Call("write", name, -1, parts[1][:result])
        case "ftruncate":
            yield Call("size", name, int(parts[1]))
        case "fsync" | "fdatasync":
            yield Call("sync", name)
        case "unlink" | "unlinkat" | "rmdir":
            yield Call("unlink", name)
        case "rename":
            yield Call("rename", name, to=_name(parts[1], folder))
        case "renameat":
            yield Call("rename", name, to=_name(_path(parts, 2), folder))
        case _:
            raise ValueError(f"a call that is not modelled: {call} {parts[:2]!r}")


def _path(parts: list[bytes], at: int) -> bytes:
    """The path that an open folder and a name in it stand for."""
    return os.path.join(parts[at], parts[at + 1])


def _is_in(path: bytes, folder: bytes) -> bool:
    return path == folder or path.startswith(folder + b"/")


def _name(path: bytes, folder: bytes) -> str:
    return os.fsdecode(os.path.relpath(path, folder)) if path != folder else ""
