"""The log of the program's own faults beside the record, loaded once the window is open."""

from __future__ import annotations

import logging
from contextlib import suppress
from logging.handlers import RotatingFileHandler
from pathlib import Path

FAULTS, MOST_BYTES = ".faults", 200_000


def keep_faults(record: Path) -> None:
    """Keep errors of the program in a file beside the record too, as far as a card takes them.

    The system's own log may be lost with the power where its partition is only read.
    """
    with suppress(OSError):
        record.parent.mkdir(parents=True, exist_ok=True)
        path = record.with_name(record.name + FAULTS)
        handler = RotatingFileHandler(path, maxBytes=MOST_BYTES, backupCount=1, delay=True)
        handler.setLevel(logging.ERROR)
        handler.setFormatter(logging.Formatter("%(asctime)s %(name)s: %(message)s"))
        logging.getLogger("kiosk").addHandler(handler)
