"""How the tests of the pictures measure a drawing: its reach, its texts, what lies under them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from math import hypot

from coloraide import Color
from fontTools.ttLib import TTFont

from kiosk.core.machining.worked import Value
from kiosk.drawings import PICTURES, Drawing
from kiosk.drawings.fonts import fonts
from kiosk.drawings.shapes import Area, Disc, Label, Line, Shape
from kiosk.drawings.svg import CAPITAL, COLOURS

NAMES = tuple(PICTURES)
# Cards of the screens: width and height in mm of the drawing, pixels to its millimetre.
CARDS = {
    "7inch": (60.4, 54.5, 5.25),
    "10inch": (73.7, 76.6, 7.17),
    "narrow": (47.6, 43.0, 5.25),
    "least": (39.1, 44.6, 5.25),
}
WORD_CARDS = {"7inch": (29.0, 21.0, 5.25)}
BUTTON = (26.0, 18.0)

Pairs = tuple[tuple[str, Value], ...]
Point = tuple[float, float]
Box = tuple[float, float, float, float]


@cache
def advances(bold: bool) -> dict[int, float]:
    """How wide each letter of the shipped font is, in ems, by its code."""
    font = TTFont(fonts().of(600 if bold else 400))
    wide, em = font["hmtx"], font["head"].unitsPerEm
    return {code: wide[name][0] / em for code, name in font.getBestCmap().items()}


def box_of(label: Label) -> Box:
    """Left, top, right and bottom of a text in the shipped font."""
    letters = advances(label.bold)
    width = sum(letters[ord(each)] for each in label.text) * label.size / CAPITAL
    left = {"left": 0.0, "middle": width / 2, "right": width}[label.anchor]
    return label.x - left, label.y - label.size, label.x - left + width, label.y + label.size * 0.3


def labels(drawing: Drawing) -> list[Label]:
    return [shape for shape in drawing.shapes if isinstance(shape, Label)]


def texts(drawing: Drawing) -> str:
    """All that is written in it, one text a line."""
    return "\n".join(label.text for label in labels(drawing))


def reach_of(shape: Shape) -> list[Point]:
    """Points that lie on the sheet if the shape does, half its stroke included."""
    if isinstance(shape, Label):
        left, top, right, bottom = box_of(shape)
        return [(left, top), (right, bottom)]
    if isinstance(shape, Disc):
        reach = shape.radius + shape.width / 2
        return [(shape.x - reach, shape.y - reach), (shape.x + reach, shape.y + reach)]
    half = shape.width / 2
    return [(x + d, y + d) for x, y in shape.points for d in (-half, half)]


def extremes(drawing: Drawing) -> list[Point]:
    """Every point that must lie on the sheet."""
    return [point for shape in drawing.shapes for point in reach_of(shape)]


def outside(drawing: Drawing) -> list[Shape]:
    """Shapes that do not lie on the sheet whole."""
    wide, tall = drawing.width, drawing.height
    return [
        shape
        for shape in drawing.shapes
        if any(not (0 <= x <= wide and 0 <= y <= tall) for x, y in reach_of(shape))
    ]


def overlap(one: Label, other: Label) -> bool:
    a, b = box_of(one), box_of(other)
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def size_of(area: Area) -> tuple[float, float]:
    xs, ys = zip(*area.points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def areas(drawing: Drawing, fill: str) -> list[Area]:
    return [s for s in drawing.shapes if isinstance(s, Area) and s.fill == fill]


# --- strokes through texts ---


def strokes(shape: Shape) -> Iterator[tuple[Point, Point, str, float]]:
    """Every straight piece that is drawn of a shape, with its colour and half its width."""
    if isinstance(shape, Line):
        yield from ((a, b, shape.colour, shape.width / 2) for a, b in pairwise(shape.points))
    elif isinstance(shape, Area) and shape.edge != "none" and shape.width:
        ring = (*shape.points, shape.points[0])
        yield from ((a, b, shape.edge, shape.width / 2) for a, b in pairwise(ring))


def crossed(drawing: Drawing) -> list[tuple[str, Shape]]:
    """Texts with a stroke or a rim through them that nothing covers afterwards."""
    shapes = [shape for shape in drawing.shapes if not isinstance(shape, Label)]
    found = []
    for label in labels(drawing):
        box = box_of(label)
        inner = (box[0] + 0.2, box[1] + 0.2, box[2] - 0.2, label.y)
        under = max((at for at, s in enumerate(shapes) if covers(s, box)), default=-1)
        for shape in shapes[under + 1 :]:
            if touches(shape, inner):
                found.append((label.text, shape))
    return found


def touches(shape: Shape, box: Box) -> bool:
    """Whether a shape's stroke, or the edge of a filled one, runs through a box."""
    if isinstance(shape, Disc):
        near = hypot(*(max(low - at, 0.0, at - high) for at, low, high in _sides(shape, box)))
        far = hypot(*(max(abs(low - at), abs(high - at)) for at, low, high in _sides(shape, box)))
        return near < shape.radius + shape.width / 2 and far > shape.radius - shape.width / 2
    if isinstance(shape, Area) and not shape.width:
        return any(_meet(a, b, box, 0.0) for a, b in pairwise((*shape.points, shape.points[0])))
    return any(_meet(a, b, box, half) for a, b, _, half in strokes(shape))


def _sides(disc: Disc, box: Box) -> tuple[tuple[float, float, float], ...]:
    return (disc.x, box[0], box[2]), (disc.y, box[1], box[3])


def _meet(a: Point, b: Point, box: Box, half: float) -> bool:
    """Whether a straight piece comes within half its width of a box (Liang and Barsky)."""
    start, end = 0.0, 1.0
    low, high = (box[0] - half, box[1] - half), (box[2] + half, box[3] + half)
    for axis in (0, 1):
        long = b[axis] - a[axis]
        if abs(long) < 1e-9:
            if not low[axis] < a[axis] < high[axis]:
                return False
            continue
        ends = sorted(((low[axis] - a[axis]) / long, (high[axis] - a[axis]) / long))
        start, end = max(start, ends[0]), min(end, ends[1])
    return start < end


def covers(shape: Shape, box: Box) -> bool:
    """Whether a filled shape lies under all of a box."""
    if isinstance(shape, Line | Label) or shape.fill == "none":
        return False
    corners = [(x, y) for x in (box[0], box[2]) for y in (box[1] + 0.2, box[3] - 0.9)]
    if isinstance(shape, Disc):
        return all(hypot(x - shape.x, y - shape.y) <= shape.radius + 0.2 for x, y in corners)
    return all(holds(shape.points, corner) for corner in corners)


def holds(points: tuple[Point, ...], at: Point) -> bool:
    """Whether a point lies in an outline, by counting its edges to the right."""
    x, y = at
    inside = False
    for (ax, ay), (bx, by) in pairwise((*points, points[0])):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
    return inside


# --- contrast ---


def contrast(one: str, other: str) -> float:
    """WCAG 2.1 contrast of two theme colours, by an independent library."""
    return float(Color(COLOURS[one]).contrast(Color(COLOURS[other]), method="wcag21"))


def ground(shapes: tuple[Shape, ...], at: Point) -> str:
    """The colour under a point after these shapes were painted."""
    for shape in reversed(shapes):
        if isinstance(shape, Area) and shape.fill != "none" and holds(shape.points, at):
            return shape.fill
        is_disc = isinstance(shape, Disc) and shape.fill != "none"
        if is_disc and hypot(at[0] - shape.x, at[1] - shape.y) <= shape.radius:
            return shape.fill
    return "paper"
