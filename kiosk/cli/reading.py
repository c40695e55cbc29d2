"""What `pillarside report` says it read, and what of it is amiss."""

from __future__ import annotations

from collections.abc import Iterable

from kiosk.cli.counting import counted
from kiosk.core.report import Report
from kiosk.export.report import Told, amiss


def read_words(found: Report, downloads: int) -> str:
    """How many downloads, records and events were read, and of which drills."""
    read = [drill for drill in found.drills if drill.entries]
    drills = ", ".join(sorted({drill.machine for drill in read if drill.machine}))
    records = counted(len(read), "record") + (f" of {drills}" if drills else "")
    taken = f"{counted(downloads, 'download')}, " if downloads else ""
    return f"Read: {taken}{records}, {counted(found.entries, 'event')}."


def amiss_words(found: Report, told: Told) -> Iterable[str]:
    """What is amiss with the records, a line each."""
    return (text for drill in found.drills for text in amiss(drill, told))
