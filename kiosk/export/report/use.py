"""Who used the drill, when and for what: days, groups, holes, bits."""

from __future__ import annotations

from collections import Counter

from kiosk.core.report import LEAST, Drill, Report, Times, UseRow
from kiosk.export.report.names import ENDINGS, Told
from kiosk.export.report.others import own, room
from kiosk.export.report.table import Cell, Chapter, Row, Table, chapter

TOGETHER = f"Rows with fewer than {LEAST} pupils are put together with the next smallest."
NO_CONTACT = "– where no contact tells."
USE = ("pupils", "lessons", "turns", "holes")


def summary(report: Report) -> Table:
    """The main counts of all drills together."""
    rows: tuple[Row, ...] = (
        ("lessons opened", report.total("lessons")),
        ("turns begun", report.total("sessions")),
        ("different pupils", report.pupils),
        ("holes drilled", report.drilled),
        ("OKs to start given", report.total("checks")),
        ("found not right at a check", report.total("not_right")),
        ("interruptions", report.total("interruptions")),
        ("near misses", dict(report.counts("notes")).get("near_miss", 0)),
        ("incidents", dict(report.counts("notes")).get("incident", 0)),
        ("runs without an OK", report.total("runs_without_ok")),
        ("times a reading was lost", report.total("readings_lost")),
        ("events in the record", report.entries),
    )
    note = f"– where they are fewer than {LEAST}." if report.pupils is None else ""
    return Table("summary", "All together", ("what", "count"), rows, note=note)


def use_chapter(report: Report, told: Told) -> Chapter:
    """Use of the drills."""
    return chapter(
        "Use",
        (
            _drills(report, told),
            _days(report),
            _groups(report, told),
            _holes(report, told),
            _bits(report, told),
            _endings(report),
            room(report),
            own(report),
        ),
    )


def _drills(report: Report, told: Told) -> Table:
    heads = (
        *("drill", "days of use", "lessons", "turns", "holes", "starts", "minutes run"),
        *("run-downs measured", "run-down, middle, in tenths of a second"),
    )
    rows = tuple(_drill(drill, report, told) for drill in report.drills)
    return Table(
        "drills", "By drill", heads, rows, 4, f"Starts, running and run-down: {NO_CONTACT}"
    )


def _drill(drill: Drill, report: Report, told: Told) -> Row:
    downs = drill.run_downs
    return (
        told.drill(drill, report.drills),
        drill.days,
        drill.lessons,
        drill.sessions,
        drill.holes,
        drill.starts,
        None if drill.run_s is None else drill.run_s // 60,
        *((downs.times, downs.middle_s) if downs else (None, None)),
    )


def _days(report: Report) -> Table:
    span = report.span
    rows = tuple((_day(row, span), *sums_of(row)) for row in report.use_by_span)
    head = "week from Monday" if span == "week" else span
    return Table("days", f"By {span}", (head, *USE), rows, 4, TOGETHER)


def _day(row: UseRow, span: str) -> str:
    if len(row.of) > 1:
        return f"{len(row.of)} {span}s together"
    return row.of[0] or "day not known: clock not set"


def _groups(report: Report, told: Told) -> Table:
    rows = tuple(
        (together([told.group(id) for id in row.of]), *sums_of(row)) for row in report.use_by_group
    )
    return Table("groups", "By group", ("group", *USE), rows, 4, TOGETHER)


def together(names: list[str]) -> str:
    """What a row is of: one name, or those that had to be put together."""
    return f"{', '.join(names)} together" if len(names) > 1 else names[0]


def sums_of(row: UseRow) -> tuple[Cell, ...]:
    """Pupils, lessons, turns and holes of a row."""
    return row.pupils, row.lessons, row.sessions, row.holes


def _holes(report: Report, told: Told) -> Table:
    rows = tuple((told.job(job), told.bit(bit), count) for job, bit, count in report.holes)
    return Table("holes", "Holes by job and bit", ("job", "bit", "holes"), rows)


def _bits(report: Report, told: Told) -> Table:
    sums = Counter[str]()
    for _, bit, count in report.holes:
        sums[told.bit(bit)] += count
    rows = tuple(sums.most_common())
    return Table("bits", "Holes by bit", ("bit", "holes"), rows, 1)


def _endings(report: Report) -> Table:
    return counted("endings", "Turns by how they ended", ("how", "turns"), report, ENDINGS)


def counted(
    of: str, title: str, heads: tuple[str, str], report: Report, words: dict[str, str]
) -> Table:
    """A table of words with how often each came."""
    rows = tuple((words.get(word, word), count) for word, count in report.counts(of))
    return Table(of, title, heads, rows)


def times_cells(times: Times | None) -> tuple[Cell, ...]:
    """How often and how long in the middle."""
    return (None, None) if times is None else (times.times, times.middle_s)
