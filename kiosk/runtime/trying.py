"""`python -m kiosk.runtime.trying RECORD [SETTINGS]`: whether this version starts on a copy of it.

No window is opened, no port read, nothing sent; what the start records goes into the copy. It ends
with 1 and the reason as its last line where a kiosk would only show a fault.
"""

from __future__ import annotations

import sys
from dataclasses import fields, replace
from pathlib import Path

from kiosk.content.settings import read_settings
from kiosk.runtime.settings import Settings
from kiosk.runtime.start import start


def why_not(record: Path, settings: Path | None) -> str:
    """Why no kiosk runs here; empty if one does."""
    known = {field.name for field in fields(Settings)}
    settled, problems = read_settings(settings) if settings else ({}, ())
    wanted = {name: value for name, value in settled.items() if name in known}
    wanted |= {"record": record, "port": "", "feed": "", "problems": problems}
    wanted |= {"file": str(settings.absolute())} if settings else {}
    running = start(replace(Settings(), **wanted))
    try:
        if running.loop is None:
            return running.fault or "it shows a fault"
        view = running.latest()
        return f"{view.title}" if view.screen == "record_fault" else ""
    finally:
        running.stop()


if __name__ == "__main__":
    said = why_not(Path(sys.argv[1]), Path(sys.argv[2]) if sys.argv[2:] else None)
    if said:
        sys.stderr.write(f"{said}\n")
    sys.exit(1 if said else 0)
