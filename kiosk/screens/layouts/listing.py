"""Lines one below another at one size, with bullets or numbers, turned by pages if too many."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.paging import page_keys, page_width
from kiosk.screens.layouts.stage import Stage
from kiosk.screens.parts.ruler import Set, height_of, line_height, width_of
from kiosk.screens.parts.rules import Rules, Span

GROWTH = 1.15
NOTE_EDGE = (0.35, 0.22)  # beside and above the text in a note's box, as a part of its size
BELOW = 1.12  # of the font size: how far below its top a line is underlined
CAUTION = ("caution_pale", "caution", 1.5, 0.35)  # fill, edge, radius and width of a note's box
MARKERS = ("none", "bullet", "number")


@dataclass(frozen=True)
class Listing:
    """Lines with what stands before each; `ink` colours it. `bare` lets them shrink furthest.

    `words` in them are underlined: they can be asked about. Where `noted`, the last line is the
    note, and keeps its caution box.
    """

    lines: tuple[str, ...]
    marker: str = "none"
    ink: str = "action"
    bare: bool = False
    first: int = 1
    words: tuple[str, ...] = ()
    noted: bool = False

    @property
    def role(self) -> str:
        """The role of its texts."""
        return "body"


def indent(stage: Stage, listing: Listing, size: int) -> float:
    """Pixels kept for the marker before each line."""
    return {"none": 0.0, "bullet": size * 0.95, "number": size * 1.15}[listing.marker]


def gaps(stage: Stage, listing: Listing, size: int) -> tuple[float, float]:
    """The least and the wanted gap between lines, in pixels."""
    return (
        0.0 if listing.marker == "bullet" else size * 0.06,
        size * (0.16 if listing.marker == "none" else 0.5),
    )


def set_lines(stage: Stage, listing: Listing, width: float, size: int) -> list[Set]:
    """Every line set at one size."""
    room = width - indent(stage, listing, size)
    rooms = [room - 2 * size * beside for beside, _ in _edges(listing)]
    lines = zip(listing.lines, rooms, strict=True)
    return [stage.measure(line, listing.role, wide, size) for line, wide in lines]


def _edges(listing: Listing) -> list[tuple[float, float]]:
    """What is left free beside and above each line, as a part of its size: the note has a box."""
    edges = [(0.0, 0.0)] * len(listing.lines)
    return [*edges[:-1], NOTE_EDGE] if listing.noted else edges


def height(
    stage: Stage, listing: Listing, width: float, size: int, *, roomy: bool = False
) -> float:
    """Pixels that all lines need at one size."""
    sets = set_lines(stage, listing, width, size)
    gap = gaps(stage, listing, size)[1 if roomy else 0]
    return sum(_heights(listing, sets, size)) + gap * max(0, len(sets) - 1)


def _heights(listing: Listing, sets: list[Set], size: int) -> list[float]:
    """Pixels from top to bottom of each line, with its box if it has one."""
    edges = _edges(listing)
    return [done.height + 2 * size * above for done, (_, above) in zip(sets, edges, strict=True)]


def _sizes(stage: Stage, listing: Listing) -> range:
    """The sizes to try: sentences may be a little larger than wanted where there is room."""
    sizes = stage.sizes(listing.role, bare=listing.bare)
    more = GROWTH if listing.marker == "none" else 1.0
    return range(int(sizes[0] * more), sizes[-1] - 1, -1)


def best_size(stage: Stage, listing: Listing, width: float, room: float) -> int | None:
    """The largest size at which the lines fit a room, or None."""
    wanted = stage.sizes(listing.role, bare=listing.bare)[0]
    most = _count(set_lines(stage, listing, width, wanted))
    for size in _sizes(stage, listing):
        sets = set_lines(stage, listing, width, size)
        if any(done.broken for done in sets) or (size > wanted and _count(sets) > most):
            continue
        if height(stage, listing, width, size) <= room:
            return size
    return None


def _count(sets: list[Set]) -> int:
    return sum(len(done.lines) for done in sets)


def put_listing(stage: Stage, listing: Listing, box: Box) -> float:
    """Put the lines; returns the pixels used. Pages them if they don't fit at any size."""
    if not listing.lines:
        return 0.0
    size = best_size(stage, listing, box.w, box.h)
    if size is None:
        _put_page(stage, listing, box)
        return box.h
    return _put(stage, listing, box, size)


def _put(stage: Stage, listing: Listing, box: Box, size: int) -> float:
    sets = set_lines(stage, listing, box.w, size)
    least, wanted = gaps(stage, listing, size)
    heights = _heights(listing, sets, size)
    spare = (box.h - sum(heights)) / max(1, len(sets) - 1)
    gap = max(least, min(wanted, spare))
    y = box.y
    for at, (done, high) in enumerate(zip(sets, heights, strict=True)):
        line = Box(box.x, y, box.w, high)
        if listing.noted and at == len(sets) - 1:
            line = _note_box(stage, line, size)
        _put_line(stage, listing, line, done, at)
        y += high + gap
    return y - gap - box.y


def _note_box(stage: Stage, box: Box, size: int) -> Box:
    """The note's caution box; the box for its text."""
    stage.plate(box, *CAUTION)
    return box.inset(size * NOTE_EDGE[0], size * NOTE_EDGE[1])


def _put_line(stage: Stage, listing: Listing, box: Box, done: Set, at: int) -> None:
    before = indent(stage, listing, done.size)
    marker, words = box.cut_left(before)
    first = Box(marker.x, marker.y, marker.w, line_height(done.font, done.size))
    if listing.marker == "bullet":
        side = done.size * 0.42
        dot = Box(first.x, first.y + (first.h - side) / 2, side, side)
        stage.mark("bullet", dot, listing.ink)
    elif listing.marker == "number":
        numeral = stage.measure(str(listing.first + at), "numeral", 999, done.size)
        stage.text(numeral, "numeral", first, listing.ink)
    stage.text(done, listing.role, words)
    if listing.words:
        _underline(stage, listing.words, words, done)


def _underline(stage: Stage, words: tuple[str, ...], box: Box, done: Set) -> None:
    """Rules under the words that can be asked about, a little below each line's letters."""
    spans: list[Span] = []
    text, start, top = "\n".join(done.lines), 0, 0.0
    found = [range(*span) for span in spans_of(text, words)]
    for line in done.lines:
        for span in found:
            first, last = max(span.start - start, 0), min(span.stop - start, len(line))
            if first < last:
                ends = (width_of(line[:at], done.font, done.size) for at in (first, last))
                spans.append(Span(*ends, top + done.size * BELOW))
        start, top = start + len(line) + 1, top + height_of(line, done.font, done.size)
    if spans:
        area = Box(box.x, box.y, box.w, max(box.h, 1))
        stage.take(Rules, area).show(tuple(spans), "action", max(2, stage.theme.mm(0.32)))


def spans_of(text: str, forms: tuple[str, ...]) -> tuple[tuple[int, int], ...]:
    """Where the forms stand in a text, from and to; a line may end at a space in them."""
    longest = sorted(forms, key=len, reverse=True)
    either = "|".join(re.escape(form).replace(r"\ ", r"\s+") for form in longest)
    found = re.finditer(rf"(?<!\w)(?:{either})(?!\w)", text) if forms else ()
    return tuple(one.span() for one in found)


def keys_width(stage: Stage) -> float:
    """Pixels that the keys take beside the lines of a page."""
    return page_width(stage) + stage.theme.mm(2)


def page_count(stage: Stage, listing: Listing, width: float, room: float) -> int:
    """How many pages the lines take; the keys stand beside them if it is more than one."""
    if best_size(stage, listing, width, room) is not None:
        return 1
    words = Box(0, 0, width - keys_width(stage), room)
    return len(_pages(stage, listing, words, _page_size(stage, listing, words)))


def _put_page(stage: Stage, listing: Listing, box: Box) -> None:
    keys, words = stage.cut_far(box, page_width(stage), stage.theme.mm(2))
    size = _page_size(stage, listing, words)
    pages = _pages(stage, listing, words, size)
    at = min(stage.typed.page, len(pages) - 1)
    page_keys(stage, keys, at, len(pages))
    stage.unseen = stage.typed.seen < len(pages) - 1
    first = listing.first + sum(len(page) for page in pages[:at])
    noted = listing.noted and at == len(pages) - 1
    shown = replace(listing, lines=pages[at], first=first, noted=noted)
    _put(stage, shown, words, size)


def _page_size(stage: Stage, listing: Listing, box: Box) -> int:
    """The largest size that costs no page more than the least; less only for a line so long that
    alone it would be higher than the page."""
    sizes = stage.sizes(listing.role, bare=listing.bare)
    fewest = len(_pages(stage, listing, box, sizes[-1]))
    for size in range(sizes[0], stage.sizes(listing.role, bare=True)[-1], -1):
        sets = set_lines(stage, listing, box.w, size)
        whole = all(done.height <= box.h and not done.broken for done in sets)
        if whole and (size <= sizes[-1] or len(_pages(stage, listing, box, size)) <= fewest):
            return size
    return stage.sizes(listing.role, bare=True)[-1]


def _parts(stage: Stage, listing: Listing, box: Box, size: int) -> Iterator[str]:
    """Every line; one that alone is higher than a page, by its own lines."""
    for line, done in zip(listing.lines, set_lines(stage, listing, box.w, size), strict=True):
        yield from line.split("\n") if done.height > box.h else (line,)


def _pages(stage: Stage, listing: Listing, box: Box, size: int) -> list[tuple[str, ...]]:
    pages: list[tuple[str, ...]] = []
    page: tuple[str, ...] = ()
    parts = list(_parts(stage, listing, box, size))
    for at, line in enumerate(parts):
        noted = listing.noted and at == len(parts) - 1
        longer = Listing((*page, line), listing.marker, noted=noted)
        if page and height(stage, longer, box.w, size) > box.h:
            pages.append(page)
            page = (line,)
        else:
            page = longer.lines
    return [*pages, page]
