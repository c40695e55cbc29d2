"""Many drills' records in one PostgreSQL database: taken in, judged, and read for reports.

`Database` is one address, `Taking` takes downloads in, `CollectFault` says in one word why
collecting can't go on.
"""

from __future__ import annotations

from kiosk.store.collected.database import Database
from kiosk.store.collected.faults import CollectFault
from kiosk.store.collected.feeding import Feed, take_fed
from kiosk.store.collected.preparing import Done, prepare
from kiosk.store.collected.reading import Collected, CollectedLog
from kiosk.store.collected.taking import Taking
from kiosk.store.collected.values import Download, Outcome, Remark

__all__ = [
    "CollectFault",
    "Collected",
    "CollectedLog",
    "Database",
    "Done",
    "Download",
    "Feed",
    "Outcome",
    "Remark",
    "Taking",
    "prepare",
    "take_fed",
]
