"""report.html: the counts on one page that opens and prints anywhere, with no network."""

from __future__ import annotations

from kiosk.core.report import Week
from kiosk.export.counts import sections
from kiosk.export.manifest import About
from kiosk.export.pages import PAGES
from kiosk.export.rows import CLOCKS, local

SPANS = {
    "week": "Seven days at the drill",
    "term": "A term at the drill",
    "since-last": "At the drill since the last download",
    "all": "The drill's whole record",
}


def page(about: About, week: Week) -> bytes:
    """The report page of a download."""
    text = PAGES.get_template("report.html").render(
        title=SPANS.get(about.span, "At the drill"),
        about=about,
        week=week,
        since=local(week.first_wall_us)[:16],
        until=local(week.last_wall_us)[:16],
        made=local(about.made.wall_us)[:16],
        clock=CLOCKS[about.made.quality],
        sections=sections(week),
    )
    return text.encode() + b"\n"
