"""Finds a mounted stick to write a download to."""

from __future__ import annotations

from pathlib import Path

MOUNTS = Path("/proc/self/mounts")
UNDER = ("/media/", "/run/media/", "/mnt/")
KINDS = ("vfat", "exfat", "ntfs3", "fuseblk", "ext4")


def find_stick(mounts: Path = MOUNTS) -> Path | None:
    """The first mounted stick, or None. A stick is a file system for carrying, under /media or so.

    Writing by path to a mount point with nothing mounted lands on the card, so only what the
    kernel lists as mounted counts.
    """
    try:
        lines = mounts.read_text("utf-8", errors="replace").splitlines()
    except OSError:
        return None
    found = (_stick(line.split()) for line in lines)
    return next((path for path in found if path), None)


def _stick(fields: list[str]) -> Path | None:
    if len(fields) < 3 or fields[2] not in KINDS:
        return None
    where = fields[1].encode().decode("unicode_escape")  # the kernel writes a space as \040
    return Path(where) if where.startswith(UNDER) else None
