"""How turns went: the line, set-up, steps, checks. A pupil's own time only, never an adult's."""

from __future__ import annotations

from kiosk.core.report import LEAST, Report, StepRow
from kiosk.export.report.names import CHECKS, PATHS, RUNS, WAYS, Told
from kiosk.export.report.others import asked
from kiosk.export.report.table import Chapter, Row, Table, chapter
from kiosk.export.report.use import TOGETHER, counted, times_cells, together

FEW = f"– where fewer than {LEAST} pupils stand behind it."
OWN = "A pupil's own time only: no adult's step, no check and no wait for an adult is in it."


def turns_chapter(report: Report, told: Told) -> Chapter:
    """Turns and their steps."""
    return chapter(
        "Turns",
        (
            _times(report),
            _steps(report, told),
            _checks(report),
            _not_right(report, told),
            asked(report),
            _levels(report, told),
            _grants(report, told),
            counted("ways", "Said against sensed: turns", ("isolator", "turns"), report, WAYS),
            counted("run", "Said against sensed: holes", ("run", "holes"), report, RUNS),
        ),
    )


def _times(report: Report) -> Table:
    rows: tuple[Row, ...] = (
        ("in line until the turn came", *times_cells(report.queue)),
        *((PATHS[path], *times_cells(times)) for path, times in report.set_ups),
    )
    told = any(row[1] is not None for row in rows)
    note = f"In line: the room's, with every wait in it. Set-up: up to the check. {FEW}"
    heads = ("what", "times", "middle, s")
    return Table("times", "In line and setting up", heads, rows if told else (), 2, note)


def _steps(report: Report, told: Told) -> Table:
    found = (row for row in report.steps if row.times or row.back)
    rows = tuple(_step(row, told) for row in found)
    heads = ("step", "times", "middle, s", "over 60 s", "gone back to")
    return Table("steps", "Steps: where pupils get stuck", heads, rows, 2, f"{OWN} {FEW}")


def _step(row: StepRow, told: Told) -> Row:
    slow = row.times.slow if row.times else None
    return told.step(row.step), *times_cells(row.times), slow, row.back


def _checks(report: Report) -> Table:
    rows: tuple[Row, ...] = (
        ("asked for before a start", report.total("asked")),
        *((f"OK {CHECKS.get(by, by)}", count) for by, count in report.counts("checks")),
        ("not right", report.total("not_right")),
    )
    asked = any(row[1] for row in rows)
    return Table("checks", "Adult checks", ("what", "times"), rows if asked else ())


def _not_right(report: Report, told: Told) -> Table:
    rows = tuple(
        (told.step(step), count, ", ".join(told.hazards_of(step)))
        for step, count in report.counts("not_right")
    )
    heads = ("step", "times", "hazards it works against")
    return Table("not_right", "Not right at the check, by step", heads, rows, 1)


def _levels(report: Report, told: Told) -> Table:
    rows = tuple(
        (
            together([told.level(word) or "not in this stretch" for word in row.of]),
            row.pupils,
            row.sessions,
            row.holes,
        )
        for row in report.use_by_level
    )
    return Table(
        "levels", "By training level", ("level", "pupils", "turns", "holes"), rows, 2, TOGETHER
    )


def _grants(report: Report, told: Told) -> Table:
    rows = tuple(
        (told.level(word), *(found or (None, None, None, None))) for word, found in report.grants
    )
    heads = ("level", "granted after watching", "from a roster", "ended", "lapsed")
    note = f"Ended on its day; lapsed after {report.lapses} days without a hole. {FEW}"
    return Table("grants", "Training levels", heads, rows, note=note)
