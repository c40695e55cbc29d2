"""Painting on a canvas: strokes, circles and filled outlines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from kivy.graphics import (
    Color,
    InstructionGroup,
    Mesh,
    SmoothEllipse,
    SmoothLine,
)
from kivy.graphics.tesselator import TYPE_POLYGONS, WINDING_ODD, Tesselator

from kiosk.screens.theme import colour

Point = tuple[float, float]


def stroke(canvas: InstructionGroup, points: Sequence[Point], ink: str, width: float) -> None:
    """A line through points with round ends; `width` in pixels."""
    canvas.add(Color(*colour(ink)))
    closed = len(points) > 3 and points[0] == points[-1]
    flat = [number for point in (points[:-1] if closed else points) for number in point]
    thick = max(0.6, width / 2)
    canvas.add(SmoothLine(points=flat, width=thick, cap="round", joint="round", close=closed))


def disc(canvas: InstructionGroup, centre: Point, radius: float, fill: str) -> None:
    """A filled circle."""
    canvas.add(Color(*colour(fill)))
    x, y = centre
    canvas.add(SmoothEllipse(pos=(x - radius, y - radius), size=(2 * radius, 2 * radius)))


def ring(canvas: InstructionGroup, centre: Point, radius: float, ink: str, width: float) -> None:
    """A circle's line."""
    canvas.add(Color(*colour(ink)))
    canvas.add(SmoothLine(circle=(*centre, radius, 0, 360, 64), width=max(0.6, width / 2)))


def outline(canvas: InstructionGroup, points: Sequence[Point], fill: str) -> None:
    """A filled outline of any shape."""
    cutter = Tesselator()
    cutter.add_contour([number for point in points for number in point])
    if len(points) < 3 or not cutter.tesselate(WINDING_ODD, TYPE_POLYGONS):
        return
    canvas.add(Color(*colour(fill)))
    for vertices, indices in cutter.meshes:
        canvas.add(Mesh(vertices=vertices, indices=indices, mode="triangle_fan"))
    closed = [number for point in (*points, points[0]) for number in point]
    canvas.add(SmoothLine(points=closed, width=0.6))


def dashes(points: Sequence[Point], dash: float, gap: float) -> Iterator[tuple[Point, Point]]:
    """The dashes of a broken line, each as its two ends."""
    for (x1, y1), (x2, y2) in pairwise(points):
        length = hypot(x2 - x1, y2 - y1) or 1.0
        at = 0.0
        while at < length:
            end = min(at + dash, length)
            one, two = at / length, end / length
            yield (
                (x1 + (x2 - x1) * one, y1 + (y2 - y1) * one),
                (x1 + (x2 - x1) * two, y1 + (y2 - y1) * two),
            )
            at = end + gap
