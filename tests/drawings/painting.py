"""Paints a drawing with Pillow, so that it can be looked at without a window."""

from __future__ import annotations

from itertools import pairwise
from math import dist

from PIL import Image, ImageDraw, ImageFont

from kiosk.drawings import Drawing
from kiosk.drawings.fonts import fonts
from kiosk.drawings.shapes import Area, Disc, Label, Line, Shape
from kiosk.drawings.svg import CAPITAL, COLOURS

FINE = 4  # painted so many times larger and then made smaller, for smooth edges
DASH, GAP = 1.6, 1.1  # mm, as on the screen
ANCHORS = {"left": "ls", "middle": "ms", "right": "rs"}

Point = tuple[float, float]


def paint(drawing: Drawing, px_per_mm: float) -> Image.Image:
    """The drawing on white at so many pixels to the millimetre."""
    scale = px_per_mm * FINE
    size = round(drawing.width * px_per_mm), round(drawing.height * px_per_mm)
    image = Image.new("RGB", (size[0] * FINE, size[1] * FINE), COLOURS["paper"])
    brush = _Brush(ImageDraw.Draw(image), scale)
    for shape in drawing.shapes:
        brush.put(shape)
    return image.resize(size, Image.Resampling.LANCZOS)


class _Brush:
    def __init__(self, draw: ImageDraw.ImageDraw, scale: float) -> None:
        self._draw, self._scale = draw, scale

    def put(self, shape: Shape) -> None:
        if isinstance(shape, Label):
            self._write(shape)
        elif isinstance(shape, Disc):
            self._disc(shape)
        elif isinstance(shape, Area):
            self._area(shape)
        else:
            self._line(shape)

    def _at(self, point: Point) -> Point:
        return point[0] * self._scale, point[1] * self._scale

    def _area(self, area: Area) -> None:
        points = [self._at(point) for point in area.points]
        if area.fill != "none":
            self._draw.polygon(points, COLOURS[area.fill])
        if area.edge != "none" and area.width:
            self._stroke([*points, points[0]], area.edge, area.width)

    def _line(self, line: Line) -> None:
        if not line.dash:
            self._stroke([self._at(point) for point in line.points], line.colour, line.width)
            return
        for start, end in pairwise(line.points):
            for piece in _dashes(start, end):
                self._stroke([self._at(point) for point in piece], line.colour, line.width)

    def _stroke(self, points: list[Point], colour: str, width: float) -> None:
        thick = max(1, round(width * self._scale))
        self._draw.line(points, COLOURS[colour], thick, joint="curve")
        for x, y in points:
            r = thick / 2
            self._draw.ellipse((x - r, y - r, x + r, y + r), COLOURS[colour])

    def _disc(self, disc: Disc) -> None:
        x, y = self._at((disc.x, disc.y))
        inner, outer = ((disc.radius + way * disc.width / 2) * self._scale for way in (-1, 1))
        edge = None if disc.edge == "none" or not disc.width else COLOURS[disc.edge]
        around = (x - outer, y - outer, x + outer, y + outer)
        fill = None if disc.fill == "none" else COLOURS[disc.fill]
        if fill:
            r = disc.radius * self._scale
            self._draw.ellipse((x - r, y - r, x + r, y + r), fill)
        if edge:
            self._draw.ellipse(around, None, edge, max(1, round(outer - inner)))

    def _write(self, label: Label) -> None:
        font = ImageFont.truetype(
            fonts().of(600 if label.bold else 400), round(label.size / CAPITAL * self._scale)
        )
        place = self._at((label.x, label.y))
        self._draw.text(place, label.text, COLOURS[label.colour], font, ANCHORS[label.anchor])


def _dashes(start: Point, end: Point) -> list[tuple[Point, Point]]:
    long, found, at = dist(start, end), list[tuple[Point, Point]](), 0.0
    while at < long:
        ends = at / long, min(1.0, (at + DASH) / long)
        found.append(tuple(_between(start, end, share) for share in ends))  # type: ignore[arg-type]
        at += DASH + GAP
    return found


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
