"""What asks to be followed up: notes, interruptions, runs without an OK, checks due."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from kiosk.core.model import InstallationCheck
from kiosk.core.report import NoteRow, Report
from kiosk.export.report.names import Told
from kiosk.export.report.others import seen
from kiosk.export.report.table import Chapter, Row, Table, chapter

EPOCH = date(1970, 1, 1)
BITS = {"new": "new", "blunt": "put aside blunt", "sharpened": "sharpened", "lost": "lost"}
DOWN = {"days": "days", "minutes": "minutes", "holes": "holes, as the wall sheet says"}


def follow_chapter(report: Report, told: Told, until: str) -> Chapter:
    """What asks to be followed up; `until` is the last day of the report."""
    return chapter(
        "To follow up",
        (
            _notes(report, told),
            _interruptions(report, told),
            _troubles(report, told),
            seen(report, told),
            _runs(report, told),
            _failed(report, told),
            _out(report, told),
            _due(report, told, until),
            _bits(report, told),
            _down(report),
        ),
    )


def state_of(row: NoteRow) -> str:
    """Whether the hazard is marked for review, or was reviewed after its last note."""
    if row.due:
        return "due"
    return "seen to" if row.near_misses or row.incidents else ""


def _notes(report: Report, told: Told) -> Table:
    rows = tuple(
        (
            told.hazard(row.hazard),
            row.near_misses,
            row.incidents,
            row.others,
            row.last_day or None,
            row.open,
            state_of(row),
        )
        for row in report.notes_by_hazard
    )
    heads = ("hazard", "near misses", "incidents", "other notes", "last on", "still open", "review")
    note = "Open until cause, action and review are entered at the drill and it is closed there."
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
    rows = (*_looked(report, told), *_review(report, told, until))
    heads = ("check", "days of use", "days without it", "due", "days left")
    note = (
        "Where only how often is given, the record does not hold when it was last done. A day "
        "that is not held from its beginning is not counted as one without its check. "
        "Days left are counted from the last day of this report; under 0 it is overdue."
    )
    return Table("due", "Checks due", heads, rows, note=note)


def _bits(report: Report, told: Told) -> Table:
    rows = tuple(
        (told.bit(words[0]), BITS.get(words[1], words[1]), count)
        for words, count in report.ranks.get("bits_changed", ())
    )
    return Table("racks", "Bits", ("bit", "what", "times"), rows)


def _down(report: Report) -> Table:
    rows = tuple((DOWN.get(word, word), count) for word, count in report.counts("down"))
    return Table("down", "While the kiosk was down, as said afterwards", ("what", "count"), rows)


def _looked(report: Report, told: Told) -> tuple[Row, ...]:
    return tuple(
        (
            f"check of the day, {told.drill(drill, report.drills)}",
            *(drill.days, drill.unlooked, "each day of use", None),
        )
        for drill in report.drills
        if drill.days
    )


def _review(report: Report, told: Told, until: str) -> tuple[Row, ...]:
    written = told.assessment
    if written is None:
        return ()
    review = ("review of the risk assessment", None, None, written.review)
    rows = (row for check in written.installation for row in _installed(check, report, told, until))
    return ((*review, days_between(until, written.review)), *rows)


def _installed(check: InstallationCheck, report: Report, told: Told, until: str) -> Iterator[Row]:
    """An installation check of each drill that the record knows it of, or how often it is due."""
    made = [(d, c) for d in report.drills for c in d.checks if c.check == check.id]
    for drill, done in made:
        due = (EPOCH + timedelta(days=check.due(done.day))).isoformat()
        wrong = "" if done.found == "right" else ", found wrong"
        name = f"{check.look}, {told.drill(drill, report.drills)}{wrong}"
        yield name, None, None, due, days_between(until, due)
    if not made:
        yield check.look, None, None, f"every {check.every}", None


def days_between(first: str, last: str) -> int | None:
    """Days from one day to another; None where either is no day."""
    try:
        return (date.fromisoformat(last) - date.fromisoformat(first)).days
    except ValueError:
        return None
