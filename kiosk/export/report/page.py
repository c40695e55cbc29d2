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
    "all": "All that is in the record of the drill",
    "": "At the drill",
}

OWN = {"week": "last seven days", "term": "last 14 weeks", "year": "last 366 days"}
"""Spans that go back from the last event of each record."""


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
        title=_title(report, made),
        when=when(report, told, told_story) + _own(report, made),
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


def _title(report: Report, made: Made) -> str:
    title = SPANS.get(made.span, SPANS[""])
    several = len({drill.machine for drill in report.drills}) > 1
    return title.replace("the drill", "the drills") if several else title


def _own(report: Report, made: Made) -> str:
    """Over several records: that each has a span of its own."""
    several = sum(drill.entries > 0 for drill in report.drills) > 1
    if not several or made.span not in OWN:
        return ""
    return f" Of each record these are its own {OWN[made.span]}, up to its last event."


def when(report: Report, told: Told, story: Story) -> str:
    """Which drills and from when to when."""
    names = (told.machine(drill.machine) for drill in report.drills if drill.machine)
    drills = ", ".join(dict.fromkeys(names))
    if not report.entries:
        return "Nothing was recorded."
    return f"{drills or 'Drill'}. From {story.since} to {story.until}, by the kiosk's clock."
