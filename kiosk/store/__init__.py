"""The record: SQLite out and in. The only room that knows SQLAlchemy and Alembic.

`Record` is the one writer; `ReadOnlyRecord` reads beside a running kiosk; `RecordFault` says in
one word why neither can go on.
"""

from __future__ import annotations

from kiosk.store.codec import Line, UnknownKind
from kiosk.store.faults import RecordFault
from kiosk.store.packages import Taken, copies, school_of
from kiosk.store.purging import Begin, cut_before
from kiosk.store.reading import ReadOnlyRecord, Span
from kiosk.store.record import Record

__all__ = [
    "Begin",
    "Line",
    "ReadOnlyRecord",
    "Record",
    "RecordFault",
    "Span",
    "Taken",
    "UnknownKind",
    "copies",
    "cut_before",
    "school_of",
]
