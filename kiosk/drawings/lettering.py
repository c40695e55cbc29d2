"""How much room a text takes, and texts of several lines."""

from __future__ import annotations

from dataclasses import dataclass, replace

from kiosk.drawings.shapes import Label

LEAST_TEXT = 3.5  # capital height in mm: 20 arc minutes at 600 mm, ISO 9241-303
LEADING = 1.7  # from line to line of Inter, for a capital height of 1
DESCENT = 0.3  # of a capital's height, under the baseline
EM = 1 / 0.727  # of Inter, for a capital height of 1
# Widths in ems of Inter's letters in bold, rounded up.
WIDTHS = {
    letter: wide
    for wide, letters in (
        (0.31, "ijlîïłії !',.:;I·І\u00a0"),
        (0.4, "()/1frt"),
        (0.5, '{}°²гґ"-_зт'),
        (0.6, "*?sxzśźżх7FJLacehknouvyáâêóôûąćęńŷГабвеийклнопсучьяє"),
        (0.65, "#&0235689BEPRSTZbdgpq«»ŚŹŻБВЕЗРТЯдрц"),
        (0.75, "4+=KY×КУХЧ−ACDGHNUVАЙЛНПСЦф"),
    )
    for letter in letters
}
WIDEST = 0.9
WIDER = dict.fromkeys("@WŴШЩЖ№", 1.1)


@dataclass(frozen=True)
class Caption:
    """A text of several lines; they stand together or not at all."""

    lines: tuple[Label, ...]


def text_width(text: str, size: float) -> float:
    """How wide a text of that capital height comes out, on the safe side, in mm."""
    return sum(WIDTHS.get(each, WIDER.get(each, WIDEST)) for each in text) * EM * size


def text_box(label: Label) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a text."""
    width = text_width(label.text, label.size)
    left = label.x - width * {"left": 0.0, "middle": 0.5, "right": 1.0}[label.anchor]
    return left, label.y - label.size, left + width, label.y + label.size * DESCENT


def overlap(one: Label, other: Label) -> bool:
    """Whether two texts lie on each other or closer than the lines of one text."""
    a, b = text_box(one), text_box(other)
    gap = (LEADING - 1 - DESCENT) * min(one.size, other.size) - 0.05
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] + gap and b[1] < a[3] + gap


def caption(
    x: float,
    y: float,
    text: str,
    room: float,
    anchor: str = "middle",
    colour: str = "ink",
    bold: bool = True,
    lines: int = 2,
) -> tuple[Caption, ...]:
    """A text about the height `y` in as few lines as it takes; nothing where `room` is short."""
    set_in = wrapped(text, room, lines)
    if not set_in:
        return ()
    step = LEAST_TEXT * LEADING
    first = y + LEAST_TEXT / 2 - step * (len(set_in) - 1) / 2
    line = Label(x, first, "", LEAST_TEXT, anchor, colour, bold)
    return (
        Caption(tuple(replace(line, text=t, y=first + step * i) for i, t in enumerate(set_in))),
    )


def wrapped(text: str, room: float, most: int) -> tuple[str, ...]:
    """The text in lines no wider than `room` mm; none if it takes more than `most` of them.

    A word too long for a line is parted after its slash.
    """
    for words in (text.split(" "), text.replace("/", "/ ").split(" ")):
        lines = _lines(words, room)
        if len(lines) <= most and all(text_width(line, LEAST_TEXT) <= room for line in lines):
            return lines
    return ()


def _lines(words: list[str], room: float) -> tuple[str, ...]:
    """Words in as few lines as the room allows; a longer word stands alone."""
    lines: list[str] = []
    for word in words:
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, LEAST_TEXT) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
