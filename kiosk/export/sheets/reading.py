"""A sheet's page as plain lines, part by part: to be read on the screen before it is printed.

It is read off the page itself, so that what is shown is what will be printed. A drawing is named
by the line under it; rows to be filled in by hand are left out.
"""

from __future__ import annotations

from html.parser import HTMLParser

HEADINGS = ("h1", "h2")
BLOCKS = ("p", "li", "tr", "figcaption", "h3", "div")
CELLS = ("th", "td")
UNSAID = ("style", "title", "svg", "footer")
BREAK = " · "

Part = tuple[str, ...]
"""A heading, then the lines under it."""


def parts_of(page: str) -> tuple[Part, ...]:
    """The parts of a sheet's page; one of nothing but a drawing is named in the part before."""
    reader = _Reader()
    reader.feed(page)
    reader.close()
    parts: list[list[str]] = []
    for part in reader.parts:
        if len(part) > 1 or not parts:
            parts.append(part)
        else:
            parts[-1].append(f"[{part[0]}]")
    return tuple(map(tuple, parts))


class _Reader(HTMLParser):
    """Goes through the page once; `_row` has the cells of the row that it is in."""

    def __init__(self) -> None:
        super().__init__()
        self.parts: list[list[str]] = []
        self._text: list[str] = []
        self._row: list[str] = []
        self._heads: list[str] = []
        self._in_head = False
        self._is = ": "  # between a column's head and its cell: figures may hold a colon
        self._unsaid = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A block begins a line of its own."""
        self._unsaid += tag in UNSAID
        if tag in (*HEADINGS, *BLOCKS):
            self._add(self._said())
        elif tag == "br":
            self._text.append(BREAK)
        elif tag == "td":
            self._is = " = " if ("class", "number") in attrs else ": "
        elif tag in ("table", "thead"):
            self._heads, self._in_head = [], tag == "thead"

    def handle_endtag(self, tag: str) -> None:
        """What was said since the block began is a cell, a heading or a line."""
        self._unsaid -= tag in UNSAID
        self._in_head = self._in_head and tag != "thead"
        if tag in CELLS:
            self._row.append(self._said())
        elif tag == "tr":
            self._end_row()
        elif tag in HEADINGS:
            self.parts.append([self._said()])
        elif tag == "figcaption":
            self._add(f"[{self._said()}]")
        elif tag in BLOCKS:
            self._add(self._said())

    def handle_data(self, data: str) -> None:
        """Text, unless it is none that is read."""
        if not self._unsaid:
            self._text.append(data)

    def _said(self) -> str:
        """The text since it was asked for last, in one line."""
        said = " ".join("".join(self._text).split())
        self._text = []
        return said

    def _add(self, line: str) -> None:
        if line and self.parts:
            self.parts[-1].append(line)

    def _end_row(self) -> None:
        """A row says what it is of, then its cells: of several each with its column's head."""
        row, self._row = self._row, []
        if self._in_head:
            self._heads = row
            return
        cells = [cell for cell in row[1:] if cell]
        if len(self._heads) > 2:
            named = zip(self._heads[1:], row[1:], strict=False)
            cells = [f"{head}{self._is}{cell}" for head, cell in named if cell]
        self._add(": ".join(text for text in (row[0] if row else "", "; ".join(cells)) if text))
