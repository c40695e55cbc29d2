"""What the tests of the pictures are given, and how they measure a drawing."""

from __future__ import annotations

from kiosk.core.machining.worked import Value
from kiosk.core.units import Angle, Length, SpindleSpeed
from kiosk.drawings import Drawing
from kiosk.drawings.shapes import Area, Disc, Label

NAMES = (
    "belts chuck key_hook guard mark on_mark clamps trial depth drilling goggles hair isolator "
    "table stops brush vacuum set_up scrap feet adult bit_broken bit_jammed work_spun smoke hurt "
    "alarm power gone dial"
).split()
SHEETS = ((68, 56), (80, 70), (26, 18))

Pairs = tuple[tuple[str, Value], ...]

PART_WAY: Pairs = (
    ("bit_diameter", Length(8)),
    ("point_angle", Angle(118)),
    ("thickness", Length(18)),
    ("depth", Length(12)),
    ("point", Length(2.4)),
    ("stop", Length(14)),
    ("floor", Length(4)),
    ("material_family", "wood"),
    ("work_width", Length(100)),
    ("work_length", Length(110)),
    ("way", "clamps"),
    ("groove", 4),
    ("grooves", 9),
    ("speed", SpindleSpeed(2500)),
    ("marking", "felt pen"),
    ("position", "on"),
)
THROUGH: Pairs = (
    ("bit_diameter", Length(13)),
    ("thickness", Length(1.5)),
    ("material_family", "metal"),
    ("groove", 2),
    ("way", "vice"),
    ("marking", "pencil"),
    *((f"motor_{i}", Length(mm)) for i, mm in enumerate((110, 90, 70), start=1)),
    *((f"spindle_{i}", Length(mm)) for i, mm in enumerate((70, 90, 110), start=1)),
)
WRONG: Pairs = (
    ("bit_diameter", "eight"),
    ("thickness", Length(0)),
    ("depth", 3),
    ("groove", 99),
    ("position", ""),
    ("point_angle", Angle(400)),
    ("way", "glue"),
)
VALUES = {"nothing": (), "part-way": PART_WAY, "through": THROUGH, "nonsense": WRONG}


def box_of(label: Label) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a text, on the safe side."""
    width = len(label.text) * 0.62 * 1.4 * label.size
    left = {"left": 0.0, "middle": width / 2, "right": width}[label.anchor]
    return label.x - left, label.y - label.size, label.x - left + width, label.y + label.size * 0.3


def labels(drawing: Drawing) -> list[Label]:
    return [shape for shape in drawing.shapes if isinstance(shape, Label)]


def extremes(drawing: Drawing) -> list[tuple[float, float]]:
    """Every point that must lie on the sheet, half the stroke included."""
    found: list[tuple[float, float]] = []
    for shape in drawing.shapes:
        if isinstance(shape, Label):
            left, top, right, bottom = box_of(shape)
            found += [(left, top), (right, bottom)]
        elif isinstance(shape, Disc):
            reach = shape.radius + shape.width / 2
            found += [(shape.x - reach, shape.y - reach), (shape.x + reach, shape.y + reach)]
        else:
            half = shape.width / 2
            found += [(x + d, y + d) for x, y in shape.points for d in (-half, half)]
    return found


def overlap(one: Label, other: Label) -> bool:
    a, b = box_of(one), box_of(other)
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def size_of(area: Area) -> tuple[float, float]:
    xs, ys = zip(*area.points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def areas(drawing: Drawing, fill: str) -> list[Area]:
    return [s for s in drawing.shapes if isinstance(s, Area) and s.fill == fill]
