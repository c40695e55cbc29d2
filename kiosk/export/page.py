"""report.html: the counts on one page that opens and prints anywhere, with no network."""

from __future__ import annotations

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from kiosk.core.report import Week
from kiosk.export.counts import sections
from kiosk.export.manifest import About
from kiosk.export.rows import CLOCKS, local

SPANS = {
    "week": "Seven days at the drill",
    "term": "A term at the drill",
    "since-last": "At the drill since the last download",
    "all": "The drill's whole record",
}

_PAGES = Environment(
    loader=FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def page(about: About, week: Week) -> bytes:
    """The report page of a download."""
    text = _PAGES.get_template("report.html").render(
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
