"""Charts as plain shapes: bars with their names before them and their counts behind."""

from __future__ import annotations

from kiosk.drawings import to_svg
from kiosk.drawings.lettering import text_width
from kiosk.drawings.shapes import Area, Drawing, Label, Line, Shape
from kiosk.export.report.table import Table

WIDTH = 170.0  # mm, what A4 has between its margins
NAMES = 62.0
COUNTS = 18.0
PITCH = 6.4
HIGH = 200.0  # mm, with its heading on one page of A4
BAR = 0.66  # of the pitch
LETTERS = 2.3  # capital height in mm, a printed text of 9 points
MOST_BARS = 40


def chart(table: Table) -> str:
    """The table's chart as SVG; empty where it has none or there is nothing to draw."""
    bars = table.bars[:MOST_BARS] if table.chart else ()
    most = max((count for _, count in bars), default=0)
    if len(bars) < 2 or most <= 0:
        return ""
    pitch = min(PITCH, HIGH / len(bars))
    height = pitch * len(bars) + 2
    axis = Line(((NAMES, 0.5), (NAMES, height - 0.5)), "ink", 0.4)
    shapes = [s for at, bar in enumerate(bars) for s in _bar(1 + pitch * at, pitch, *bar, most)]
    return to_svg(Drawing(WIDTH, height, (*shapes, axis)))


def _bar(top: float, pitch: float, name: str, count: int, most: int) -> tuple[Shape, ...]:
    """A bar with its name and its count, in the strip `pitch` high that begins at `top`."""
    high = pitch * BAR
    top += (pitch - high) / 2
    long = (WIDTH - NAMES - COUNTS) * max(count, 0) / most
    right, bottom = NAMES + long, top + high
    corners = ((NAMES, top), (right, top), (right, bottom), (NAMES, bottom))
    line = top + (high + LETTERS) / 2
    return (
        Label(NAMES - 2, line, _fitting(name), LETTERS, "right"),
        Area(corners, "action", "ink", 0.2),
        Label(right + 1.5, line, str(count), LETTERS, "left", bold=True),
    )


def _fitting(name: str) -> str:
    """The name, or its beginning: the whole one stands in the table."""
    if text_width(name, LETTERS) <= NAMES - 3:
        return name
    short = name
    while short and text_width(f"{short}…", LETTERS) > NAMES - 3:
        short = short[:-1]
    return f"{short.rstrip()}…"
