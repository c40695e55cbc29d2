"""What asks to be followed up: notes, interruptions, runs without an OK, checks due."""

from __future__ import annotations

from datetime import date

from kiosk.core.report import NoteRow, Report
from kiosk.export.report.names import Told
from kiosk.export.report.table import Chapter, Row, Table, chapter

OPEN, DONE, UNKNOWN = "to be reviewed", "signed again since", "not known"


def follow_chapter(report: Report, told: Told, until: str) -> Chapter:
    """What asks to be followed up; `until` is the last day of the report."""
    return chapter(
        "To follow up",
        (
            _notes(report, told),
            _interruptions(report, told),
            _troubles(report, told),
            _runs(report, told),
            _failed(report, told),
            _out(report, told),
            _due(report, told, until),
        ),
    )


def state_of(row: NoteRow, told: Told) -> str:
    """Whether the assessment was signed after the last near miss or incident on a hazard."""
    if not (row.near_misses or row.incidents):
        return ""
    signed = told.assessment.signed if told.assessment else ""
    if told.assessment is None or not row.last_day:
        return UNKNOWN
    return DONE if signed > row.last_day else OPEN


def _notes(report: Report, told: Told) -> Table:
    rows = tuple(
        (
            told.hazard(row.hazard),
            row.near_misses,
            row.incidents,
            row.others,
            row.last_day or None,
            state_of(row, told),
        )
        for row in report.notes_by_hazard
    )
    heads = ("hazard", "near misses", "incidents", "other notes", "last on", "assessment")
    note = "The assessment counts as reviewed once it is signed on a later day than the last note."
    return Table("notes", "Near misses and incidents", heads, rows, note=note, alert=True)


def _interruptions(report: Report, told: Told) -> Table:
    rows = tuple((told.interruption(why), n) for why, n in report.counts("interruptions"))
    return Table("interruptions", "Interruptions by reason", ("reason", "times"), rows, 1)


def _troubles(report: Report, told: Told) -> Table:
    rows = tuple((told.trouble(id), count) for id, count in report.counts("troubles"))
    return Table("troubles", "Troubles named", ("trouble", "times"), rows, alert=True)


def _runs(report: Report, told: Told) -> Table:
    rows = tuple((told.input(name), count) for name, count in report.counts("runs_without_ok"))
    heads = ("contact", "times seen running")
    return Table("runs", "Runs without an OK", heads, rows, alert=True)


def _failed(report: Report, told: Told) -> Table:
    rows = tuple((told.out(item), count) for item, count in report.counts("pre_use_failed"))
    heads = ("line of the check", "times")
    return Table("failed", "Check of the day: not right", heads, rows, alert=True)


def _out(report: Report, told: Told) -> Table:
    rows = tuple((told.out(why), count) for why, count in report.counts("out_of_use"))
    returned = ("returned to use", report.total("returned"))
    still = tuple(
        (f"{told.drill(drill, report.drills)}, out of use at the end", told.out(drill.out))
        for drill in report.drills
        if drill.out
    )
    rows = (*rows, returned, *still) if rows or returned[1] or still else ()
    return Table("out", "Taken out of use", ("what", "times, or why"), rows, alert=True)


def _due(report: Report, told: Told, until: str) -> Table:
    """Checks of the day by drill, the assessment's review, and the installation checks."""
    rows = (*_looked(report, told), *_review(told, until))
    heads = ("check", "days of use", "days without it", "due", "days left")
    note = (
        "The record does not hold when an installation check was last done: see its sheet. "
        "Days left are counted from the last day of this report; under 0 it is overdue."
    )
    return Table("due", "Checks due", heads, rows, note=note)


def _looked(report: Report, told: Told) -> tuple[Row, ...]:
    return tuple(
        (
            f"check of the day, {told.drill(drill, report.drills)}",
            *(drill.days, drill.unlooked, "each day of use", None),
        )
        for drill in report.drills
        if drill.days
    )


def _review(told: Told, until: str) -> tuple[Row, ...]:
    written = told.assessment
    if written is None:
        return ()
    review = ("review of the risk assessment", None, None, written.review)
    every = (
        (check.look, None, None, f"every {check.every}", None) for check in written.installation
    )
    return ((*review, days_between(until, written.review)), *every)


def days_between(first: str, last: str) -> int | None:
    """Days from one day to another; None where either is no day."""
    try:
        return (date.fromisoformat(last) - date.fromisoformat(first)).days
    except ValueError:
        return None
