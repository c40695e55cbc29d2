"""What this process holds: memory, open files, threads. Read from the kernel's own count."""

from __future__ import annotations

import ctypes
import gc
import os
import re
import threading
from dataclasses import dataclass
from pathlib import Path


def own_mb() -> float:
    """Megabytes of its own, once the C library has given back what it only keeps ready.

    Without the pages of programs and libraries, which the system drops and reads again as it
    likes: proc(5), RssAnon and VmSwap.
    """
    gc.collect()
    ctypes.CDLL(None).malloc_trim(0)
    status = Path("/proc/self/status").read_text()
    return sum(int(kb) for kb in re.findall(r"(?:RssAnon|VmSwap):\s+(\d+) kB", status)) * 1024 / 1e6


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
        return cls(own_mb(), descriptors(), threading.active_count())
