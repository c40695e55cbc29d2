"""A drawing as SVG text, for printed sheets and pages. Standard library only."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

from kiosk.drawings.shapes import Area, Disc, Drawing, Label, Line, Shape

COLOURS: Mapping[str, str] = {
    "ink": "#1D2B36",
    "soft": "#51606B",
    "line": "#C9C5B8",
    "paper": "#FFFFFF",
    "action": "#0F5C63",
    "adult": "#005387",
    "caution": "#F9A800",
    "stop": "#9B2423",
    "steel": "#D8DDE1",
    "wood": "#E9D9B8",
    "plastic": "#CFE3EA",
    "bit": "#0F5C63",
    "none": "none",
}
CAPITAL = 0.727  # capital height of the letters as a share of their size (Inter)
ANCHORS = {"left": "start", "middle": "middle", "right": "end"}


def to_svg(drawing: Drawing, colours: Mapping[str, str] = COLOURS) -> str:
    """The drawing as one SVG element, 1 unit to the millimetre.

    `colours` gives the CSS colour of every theme name; a name it lacks is painted in ink.
    """
    size = f'width="{_n(drawing.width)}mm" height="{_n(drawing.height)}mm"'
    view = f'viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}"'
    strokes = 'stroke-linecap="round" stroke-linejoin="round"'
    body = "".join(_shape(shape, colours) for shape in drawing.shapes)
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view} {strokes}>{body}</svg>'


def _shape(shape: Shape, colours: Mapping[str, str]) -> str:
    match shape:
        case Line():
            return _line(shape, colours)
        case Area():
            painted = _painted(shape.fill, shape.edge, shape.width, colours)
            return f'<polygon points="{_points(shape.points)}" {painted}/>'
        case Disc():
            painted = _painted(shape.fill, shape.edge, shape.width, colours)
            middle = f'cx="{_n(shape.x)}" cy="{_n(shape.y)}" r="{_n(shape.radius)}"'
            return f"<circle {middle} {painted}/>"
        case Label():
            return _text(shape, colours)


def _line(line: Line, colours: Mapping[str, str]) -> str:
    dash = f' stroke-dasharray="{_n(line.width * 4)} {_n(line.width * 3)}"' if line.dash else ""
    painted = _painted("none", line.colour, line.width, colours)
    return f'<polyline points="{_points(line.points)}" {painted}{dash}/>'


def _text(label: Label, colours: Mapping[str, str]) -> str:
    place = f'x="{_n(label.x)}" y="{_n(label.y)}" text-anchor="{ANCHORS[label.anchor]}"'
    letters = f'font-family="Inter, sans-serif" font-size="{_n(label.size / CAPITAL)}"'
    weight = ' font-weight="700"' if label.bold else ""
    fill = f'fill="{_colour(label.colour, colours)}"'
    return f"<text {place} {letters}{weight} {fill}>{escape(label.text)}</text>"


def _painted(fill: str, edge: str, width: float, colours: Mapping[str, str]) -> str:
    stroke = f'stroke="{_colour(edge, colours)}" stroke-width="{_n(width)}"'
    return f'fill="{_colour(fill, colours)}" {stroke}'


def _colour(name: str, colours: Mapping[str, str]) -> str:
    return colours.get(name) or ("none" if name == "none" else colours.get("ink", "#000000"))


def _points(points: tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(number: float) -> str:
    return f"{number:.3f}".rstrip("0").rstrip(".")
