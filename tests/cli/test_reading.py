"""One is said as one, of what a report read."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.cli.reading import read_words
from kiosk.core.events import Entry, PreUsePassed
from kiosk.core.report import ChainFault, Log, report
from kiosk.core.units import Moment
from kiosk.export.report.machine import fault_words

ENTRY = Entry(1, Moment("b", 1, 1, 2), PreUsePassed("a1"))


@pytest.mark.parametrize(
    ("records", "downloads", "said"),
    [
        (1, 0, "Read: 1 record of drill-1, 1 event."),
        (1, 1, "Read: 1 download, 1 record of drill-1, 1 event."),
        (2, 3, "Read: 3 downloads, 2 records of drill-1, 2 events."),
        (0, 1, "Read: 1 download, 0 records, 0 events."),
    ],
)
def test_what_was_read_is_counted_in_words(records: int, downloads: int, said: str) -> None:
    found = report(Log((ENTRY,), f"log{n}", "drill-1") for n in range(records))

    assert read_words(found, downloads) == said


@pytest.mark.parametrize(
    ("what", "one", "two"),
    [
        ("gap", "event 7 is missing", "events 7 to 8 are missing"),
        ("broken", "event 7 is not what was", "events 7 to 8 are not what was"),
        ("fork", "event 7 is there twice, and differs", "events 7 to 8 are there twice, and dif"),
    ],
)
def test_one_event_amiss_is_said_as_one(what: str, one: str, two: str) -> None:
    fault = ChainFault(what, 7, 7)

    assert fault_words(fault).startswith(one)
    assert fault_words(replace(fault, last=8)).startswith(two)
