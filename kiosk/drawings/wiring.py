"""How contacts are wired, from the same shapes as the screens' pictures.

Contacts are drawn as in circuit diagrams after IEC 60617, with the drill at rest: a make contact
open, a break contact closed. Broken lines are what a drill may also have. `python -m
kiosk.drawings.wiring FOLDER` writes one SVG file for each.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType

from kiosk.drawings.outlines import BOLD, STROKE, THIN, box, label
from kiosk.drawings.shapes import Area, Disc, Drawing, Line, Shape
from kiosk.drawings.svg import to_svg

Shapes = tuple[Shape, ...]

TEXT = 3.2
CONTACTS = (
    ("0", "isolator, make", True, False),
    ("1", "isolator, break", False, False),
    ("2", "starter, make", True, False),
    ("3", "spindle turning, make", True, True),
    ("4", "guard down, make", True, True),
    ("5", "extraction runs, make", True, True),
)
TOP, ROW = 34.0, 13.0


def contact_unit() -> Drawing:
    """Contacts on a unit's inputs, the unit on the kiosk: one wire out, one back from each."""
    bottom = TOP + ROW * (len(CONTACTS) - 1)
    rail = Line(((12, 20), (12, bottom)), "ink", STROKE)
    rows = tuple(s for at in range(len(CONTACTS)) for s in _row(at))
    return Drawing(190, 118, (*_supply(), rail, *rows, *_unit(bottom), *_to_kiosk()))


def _supply() -> Shapes:
    return (
        Area(box(6, 8, 44, 12), "paper", "ink", STROKE),
        label(28, 14, "24 V d.c. SELV", TEXT, bold=True),
        Line(((50, 11), (118, 11), (118, 26)), "ink", STROKE),
        Line(((50, 17), (110, 17), (110, 26)), "ink", STROKE),
        label(84, 7.6, "+ 24 V", TEXT),
        label(84, 20.4, "0 V", TEXT),
        label(14.5, 25.5, "+ 24 V", TEXT, "left"),
    )


def _row(at: int) -> Shapes:
    number, name, make, dashed = CONTACTS[at]
    y = TOP + ROW * at
    wires = (
        Line(((12, y), (26, y)), "ink", STROKE, dash=dashed),
        Line(((40, y), (102, y)), "ink", STROKE, dash=dashed),
    )
    words = (label(43, y - 3.2, name, TEXT, "left"), label(108, y, number, TEXT, bold=True))
    return (*wires, *contact(26, y, make), *words, Disc(102, y, 1.0, "paper", "ink", THIN))


def contact(x: float, y: float, make: bool) -> Shapes:
    """A contact 14 mm long from `x` on, at rest: a make contact open, a break contact closed."""
    if make:
        return (Line(((x, y), (x + 3, y)), "ink", STROKE), *_blade(x, y, x + 11, y - 4.5))
    bar = Line(((x + 11, y - 5), (x + 11, y)), "ink", STROKE)
    return (Line(((x, y), (x + 3, y)), "ink", STROKE), bar, *_blade(x, y, x + 12.4, y - 4.3))


def _blade(x: float, y: float, to_x: float, to_y: float) -> Shapes:
    blade = Line(((x + 3, y), (to_x, to_y)), "action", BOLD)
    return (blade, Line(((x + 11, y), (x + 14, y)), "ink", STROKE))


def _unit(bottom: float) -> Shapes:
    return (
        Area(box(104, 26, 34, bottom - 18), "none", "ink", BOLD),
        label(121, 42, "contact", TEXT),
        label(121, 47, "unit", TEXT),
        label(121, 56, "inputs", TEXT),
        label(121, 61, "from 0", TEXT),
        label(108, 22.8, "0 V", TEXT, "right"),
        label(120, 22.8, "+", TEXT, "left"),
    )


def _to_kiosk() -> Shapes:
    pair = tuple(Line(((138, y), (152, y)), "action", STROKE) for y in (74.0, 80.0))
    return (
        *pair,
        label(145, 71.2, "A", TEXT),
        label(145, 83, "B", TEXT),
        label(156, 63.5, "RS-485", TEXT),
        Area(box(152, 68, 20, 18), "steel", "ink", STROKE),
        label(162, 75, "USB", TEXT),
        label(162, 81.5, "adapter", TEXT),
        Line(((162, 86), (162, 94)), "ink", BOLD),
        Area(box(150, 94, 24, 12), "paper", "ink", STROKE),
        label(162, 100, "kiosk", TEXT, bold=True),
    )


LINES = (("RTS", "CTS", "0  isolator, make", True), ("DTR", "DSR", "1  isolator, break", False))


def handshake_lines() -> Drawing:
    """Two contacts on a serial adapter's handshake lines: each fed by its own line."""
    port = (
        Area(box(8, 12, 30, 72), "steel", "ink", BOLD),
        label(23, 19, "RS-232", TEXT),
        label(23, 24.5, "adapter", TEXT),
    )
    loops = tuple(s for at, line in enumerate(LINES) for s in _loop(34 + at * 28, *line))
    return Drawing(120, 94, (*port, *loops))


def _loop(y: float, feed: str, sense: str, name: str, make: bool) -> Shapes:
    low = y + 14
    return (
        label(35, y, feed, TEXT, "right", bold=True),
        label(35, low, sense, TEXT, "right", bold=True),
        Line(((38, y), (60, y)), "ink", STROKE),
        *contact(60, y, make),
        Line(((74, y), (104, y), (104, low), (38, low)), "ink", STROKE),
        label(58, y + 7, name, TEXT, "left"),
    )


def supplies() -> Drawing:
    """Which supply feeds what: the room stop cuts the machines, never the kiosk."""
    return Drawing(150, 96, (*_room(), *_branch_machines(), *_branch_kiosk()))


def _room() -> Shapes:
    return (
        Area(box(6, 36, 26, 16), "paper", "ink", STROKE),
        label(19, 41.4, "supply of", TEXT),
        label(19, 46.9, "the room", TEXT),
        Line(((32, 44), (42, 44)), "ink", BOLD),
        Line(((42, 20), (42, 74)), "ink", BOLD),
    )


def _branch_machines() -> Shapes:
    return (
        Line(((42, 20), (54, 20)), "ink", BOLD),
        Area(box(54, 12, 32, 16), "paper", "stop", BOLD),
        label(70, 17.4, "room stop", TEXT, colour="stop", bold=True),
        label(70, 22.9, "cuts this", TEXT),
        Line(((86, 20), (104, 20)), "ink", BOLD),
        Area(box(104, 12, 40, 16), "steel", "ink", STROKE),
        label(124, 20, "drill: mains", TEXT, bold=True),
        Line(((124, 28), (124, 66)), "action", STROKE, dash=True),
        label(121, 43, "spare volt-free", TEXT, "right"),
        label(121, 48.5, "contacts only", TEXT, "right"),
    )


def _branch_kiosk() -> Shapes:
    return (
        Line(((42, 74), (54, 74)), "ink", BOLD),
        Area(box(54, 66, 32, 16), "paper", "ink", STROKE),
        label(70, 71.4, "24 V d.c.", TEXT),
        label(70, 76.9, "for the kiosk", TEXT),
        Line(((86, 74), (104, 74)), "ink", BOLD),
        Area(box(104, 66, 40, 16), "paper", "action", BOLD),
        label(124, 71.4, "contact unit", TEXT),
        label(124, 76.9, "and kiosk", TEXT, bold=True),
        label(75, 90, "never through the room stop", TEXT),
    )


WIRINGS: Mapping[str, Callable[[], Drawing]] = MappingProxyType(
    {
        "contact-unit": contact_unit,
        "handshake-lines": handshake_lines,
        "supplies": supplies,
    }
)
"""Every drawing by the name of its file."""


def files() -> dict[str, str]:
    """The text of each SVG file by name."""
    return {f"{name}.svg": to_svg(make()) + "\n" for name, make in WIRINGS.items()}


def write(folder: Path) -> None:
    """Write every file anew."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files().items():
        (folder / name).write_text(text, "utf-8")


if __name__ == "__main__":
    write(Path(sys.argv[1]))
