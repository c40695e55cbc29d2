"""What this process holds: memory, open files, threads. Read from the kernel's own count."""

from __future__ import annotations

import ctypes
import gc
import os
import threading
from dataclasses import dataclass
from pathlib import Path


def resident_mb() -> float:
    """Megabytes in use, once the C library has given back what it only keeps ready."""
    gc.collect()
    ctypes.CDLL(None).malloc_trim(0)
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6


def descriptors() -> int:
    """How many files are open."""
    return len(os.listdir("/proc/self/fd"))


@dataclass(frozen=True)
class Held:
    """Megabytes, open files and threads at one moment."""

    mb: float
    files: int
    threads: int

    @classmethod
    def now(cls) -> Held:
        """What is held now; memory first, since garbage may hold open files."""
        return cls(resident_mb(), descriptors(), threading.active_count())
