"""What things cost at growing sizes: a week to ten years of record, kiosks, jobs. As SVG and JSON.

`python -m tests.bench --chart`. Both axes of each panel are logarithmic: a cost that grows with the
size is a straight line upwards, one that does not is level.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from math import ceil, floor, log10
from pathlib import Path
from typing import NamedTuple

from tests.bench._sizes import Curve, panels

WIDE, HIGH, EDGE = 420, 300, 56
INK, PAPER, COLOURS = "#1D2B36", "#F4F2EC", ("#0F5C63", "#9B2423", "#005387", "#7A5A00")


class Span(NamedTuple):
    """The powers of ten that one axis goes from and to."""

    low: int
    high: int

    def part(self, value: float) -> float:
        """How far along the axis a value lies, from 0 to 1."""
        return (log10(value) - self.low) / (self.high - self.low)


def chart(to: Path) -> Path:
    """Measure, draw, keep; the drawing's file."""
    to.mkdir(parents=True, exist_ok=True)
    found = panels()
    plain = {title: [curve._asdict() for curve in curves] for title, curves in found.items()}
    (to / "sizes.json").write_text(json.dumps(plain, indent=1) + "\n", "utf-8")
    path = to / "sizes.svg"
    path.write_text(drawn(found), "utf-8")
    return path


def drawn(found: Mapping[str, list[Curve]]) -> str:
    """All panels side by side."""
    size = f'width="{WIDE * len(found)}" height="{HIGH}"'
    parts = [f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="sans-serif">']
    parts.append(f'<rect width="100%" height="100%" fill="{PAPER}"/>')
    for number, (title, curves) in enumerate(found.items()):
        parts.append(f'<g transform="translate({number * WIDE} 0)">')
        parts += [*_panel(title, curves), "</g>"]
    return "\n".join([*parts, "</svg>", ""])


def span(values: list[float]) -> Span:
    """Whole powers of ten round the values, at least one apart."""
    low, high = floor(log10(min(values))), ceil(log10(max(values)))
    return Span(low, max(high, low + 1))


def _panel(title: str, curves: list[Curve]) -> Iterator[str]:
    across = span([size for curve in curves for size, _ in curve.points])
    up = span([cost for curve in curves for _, cost in curve.points])
    yield _text(WIDE / 2, 22, title, "middle", 14)
    yield from _grid(across, up)
    for number, curve in enumerate(curves):
        colour = COLOURS[number % len(COLOURS)]
        places = [_place(across, up, size, cost) for size, cost in curve.points]
        points = " ".join(f"{x:.1f},{y:.1f}" for x, y in places)
        yield f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="2"/>'
        for x, y in places:
            yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>'
        yield _text(EDGE + 120 * number, 44, curve.name, "start", 11, colour)


def _grid(across: Span, up: Span) -> Iterator[str]:
    """A line and a number for each power of ten."""
    for power in range(across.low, across.high + 1):
        x, y = _place(across, up, 10.0**power, 10.0**up.low)
        yield f'<line x1="{x}" y1="{y}" x2="{x}" y2="{EDGE}" stroke="{INK}" opacity="0.15"/>'
        yield _text(x, y + 16, f"{10.0**power:,.0f}", "middle")
    for power in range(up.low, up.high + 1):
        x, y = _place(across, up, 10.0**across.low, 10.0**power)
        end = WIDE - 20
        yield f'<line x1="{x}" y1="{y}" x2="{end}" y2="{y}" stroke="{INK}" opacity="0.15"/>'
        yield _text(x - 6, y + 4, f"{10.0**power:g}", "end")


def _place(across: Span, up: Span, size: float, cost: float) -> tuple[float, float]:
    x = EDGE + across.part(size) * (WIDE - EDGE - 20)
    y = HIGH - EDGE / 2 - 10 - up.part(cost) * (HIGH - EDGE * 1.5 - 10)
    return round(x, 1), round(y, 1)


def _text(x: float, y: float, text: str, anchor: str, size: int = 10, colour: str = INK) -> str:
    where = f'x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"'
    return f'<text {where} font-size="{size}" fill="{colour}">{text}</text>'
