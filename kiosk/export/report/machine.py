"""Contacts, clock and record: how far the rest can be trusted."""

from __future__ import annotations

from collections import Counter

from kiosk.core.report import ChainFault, Drill, Report
from kiosk.export.report.names import RESTARTS, Told
from kiosk.export.report.others import door, office
from kiosk.export.report.table import Chapter, Row, Table, chapter
from kiosk.export.report.use import counted
from kiosk.export.rows import said_plainly

FAULTS = {
    "broken": ("{} is not what was recorded", "{} are not what was recorded"),
    "gap": ("{} is missing", "{} are missing"),
    "fork": (
        "{} is there twice, and differs: the card was put back",
        "{} are there twice, and differ: the card was put back",
    ),
}
"""What is amiss with one event, and with several."""
RESET = "a damaged record was set aside and this one begun"


def record_chapter(report: Report, told: Told) -> Chapter:
    """Readings, clocks and the record itself."""
    restarts = counted("restarts", "Starts of the kiosk", ("when", "times"), report, RESTARTS)
    return chapter(
        "Contacts, clock and record",
        (
            *(_lost(report, told), restarts, door(report), office(report)),
            *(_clocks(report, told), _records(report, told)),
        ),
    )


def _lost(report: Report, told: Told) -> Table:
    rows = tuple(
        (told.input(words[0]), said_plainly(words[1]), count)
        for words, count in report.ranks.get("readings_lost", ())
    )
    heads = ("contact", "why", "times")
    return Table("readings_lost", "Readings lost", heads, rows, alert=True)


def _clocks(report: Report, told: Told) -> Table:
    rows = tuple(row for drill in report.drills if (row := _clock(drill, report, told)) is not None)
    heads = ("drill", "starts with no clock set", "times moved", "furthest moved, in minutes")
    return Table("clock", "Clock", heads, rows)


def _clock(drill: Drill, report: Report, told: Told) -> Row | None:
    if not drill.clock:
        return None
    found = Counter(remark.what for remark in drill.clock)
    far = max(abs(remark.by_us) for remark in drill.clock) // 60_000_000
    return told.drill(drill, report.drills), found["not_set"], found["stepped"], far


def _records(report: Report, told: Told) -> Table:
    rows = tuple(_record(drill, told) for drill in report.drills if drill.entries)
    heads = ("drill", "record", "first event", "last event", "events", "chain")
    note = "A chain holds where each event carries the hash of the one before, from first to last."
    alert = any(drill.faults for drill in report.drills)
    return Table("record", "Record", heads, rows, note=note, alert=alert)


def _record(drill: Drill, told: Told) -> Row:
    says = "; ".join(fault_words(fault) for fault in drill.faults) or "holds"
    begins = drill.begins
    gone = f"; events before {begins} were kept long enough and are gone" if begins > 1 else ""
    name = told.machine(drill.machine)
    return name, drill.log[:8], drill.first, drill.last, drill.entries, says + gone


def fault_words(fault: ChainFault) -> str:
    """What is amiss with a record, in words."""
    if fault.what == "reset":
        return RESET
    one, several = FAULTS[fault.what]
    if fault.first == fault.last:
        return one.format(f"event {fault.first}")
    return several.format(f"events {fault.first} to {fault.last}")
