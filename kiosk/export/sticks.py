"""Finds the stick to write a download to, among what the system says is mounted.

A path alone proves nothing: writing to a mount point with nothing mounted would land on the
card. So only what the kernel lists as mounted counts, on another device than the card.
"""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import NamedTuple

MOUNTS = Path("/proc/self/mounts")
UNDER = ("/media/", "/run/media/", "/mnt/")
KINDS = ("vfat", "exfat", "ntfs3", "fuseblk", "ext4")
"""File systems that a stick may have. Others can be read at best, or lose power badly."""


class Stick(NamedTuple):
    """A stick's folder, or in `why` the word for why there is none: `no_stick`, `foreign`."""

    folder: Path | None
    why: str = ""


def find_stick(mounts: Path = MOUNTS) -> Stick:
    """The stick to write to: the one mounted last of those that fit."""
    try:
        lines = mounts.read_text("utf-8", errors="surrogateescape").splitlines()
    except OSError:
        return Stick(None, "no_stick")
    found = [mount for mount in map(_mount, lines) if mount is not None]
    fitting = [where for where, kind in found if kind in KINDS and _is_no_part_of_the_card(where)]
    if fitting:
        return Stick(fitting[-1])
    return Stick(None, "foreign" if found else "no_stick")


def is_for_sticks(path: Path) -> bool:
    """Whether sticks are mounted under such a path, so that what is missing there is the stick."""
    return os.path.abspath(path).startswith(UNDER)


def _mount(line: str) -> tuple[Path, str] | None:
    """Where something for carrying is mounted, and its kind; None for the rest of the system."""
    fields = line.split(" ")
    if len(fields) < 3 or not fields[0].startswith("/dev/"):
        return None  # memory or the network, and nothing that is put in
    where = _unescaped(fields[1])
    return (Path(where), fields[2]) if where.startswith(UNDER) else None


def _unescaped(text: str) -> str:
    r"""The kernel writes a space as \040, and a backslash as \134."""
    return re.sub(r"\\([0-7]{3})", lambda found: chr(int(found[1], 8)), text)


def _is_no_part_of_the_card(where: Path) -> bool:
    try:
        return os.stat(where).st_dev != os.stat("/").st_dev
    except OSError:
        return False
