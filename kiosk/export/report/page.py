"""The report on one page that opens and prints anywhere, with no network."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from kiosk.core.report import Report
from kiosk.core.units import Moment
from kiosk.export.manifest import About
from kiosk.export.pages import PAGES
from kiosk.export.report.charts import chart
from kiosk.export.report.names import Told
from kiosk.export.report.remarks import RULES
from kiosk.export.report.story import Story, story
from kiosk.export.report.table import shown
from kiosk.export.rows import CLOCKS, local

SPANS = {
    "week": "Seven days at the drill",
    "term": "A term at the drill",
    "year": "A year at the drill",
    "since-last": "At the drill since the last download",
    "all": "The drill's whole record",
    "": "At the drill",
}


@dataclass(frozen=True)
class Made:
    """When and by what software a report was made, and over which span."""

    span: str
    software: str
    at: Moment


def report_page(report: Report, told: Told, made: Made, about: About | None = None) -> str:
    """The page; `about` where it goes with a download, to tell which events those are."""
    told_story = story(report, told)
    return PAGES.get_template("report.html").render(
        title=SPANS.get(made.span, SPANS[""]),
        when=when(report, told, told_story),
        story=told_story,
        titles={table.id: table.title for table in told_story.tables},
        chart=lambda table: Markup(chart(table)),
        shown=shown,
        rules=RULES,
        made=local(made.at.wall_us)[:16],
        clock=CLOCKS[made.at.quality],
        software=made.software,
        about=about,
    )


def when(report: Report, told: Told, story: Story) -> str:
    """Which drills and from when to when."""
    drills = ", ".join(told.machine(d.machine) for d in report.drills if d.machine)
    if not report.entries:
        return "Nothing was recorded."
    return f"{drills or 'Drill'}. From {story.since} to {story.until}, by the kiosk's clock."
