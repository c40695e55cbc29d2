"""A report in the order people read it: remarks, the main counts, then chapter by chapter."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.report import Report
from kiosk.export.report.follow import follow_chapter
from kiosk.export.report.machine import record_chapter
from kiosk.export.report.names import Told
from kiosk.export.report.remarks import Remark, remarks
from kiosk.export.report.table import Chapter, Table
from kiosk.export.report.turns import turns_chapter
from kiosk.export.report.use import summary, use_chapter
from kiosk.export.rows import local


@dataclass(frozen=True)
class Story:
    """All that a report says. `since` and `until` are local times, empty if nothing is known."""

    since: str
    until: str
    remarks: tuple[Remark, ...]
    summary: Table
    chapters: tuple[Chapter, ...]

    @property
    def tables(self) -> tuple[Table, ...]:
        """Every table, in order."""
        return self.summary, *(t for chapter in self.chapters for t in chapter.tables)


def story(report: Report, told: Told) -> Story:
    """The report told in tables and remarks."""
    drills = [drill for drill in report.drills if drill.entries]
    since = min((d.first_wall_us for d in drills), default=None)
    until = max((d.last_wall_us for d in drills), default=None)
    last = "" if until is None else local(until)[:16]
    chapters = (
        follow_chapter(report, told, last[:10]),
        use_chapter(report, told),
        turns_chapter(report, told),
        record_chapter(report, told),
    )
    return Story(
        "" if since is None else local(since)[:16],
        last,
        remarks(report, told),
        summary(report),
        tuple(chapter for chapter in chapters if chapter.tables),
    )
