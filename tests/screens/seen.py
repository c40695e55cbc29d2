"""What stands on the panel as pixels, and how well it can be told apart, by coloraide.

Nothing is taken from the theme: texts and parts are found in the window, and the colours beside
each other are counted in the picture that was drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from coloraide import Color
from kivy.uix.widget import Widget
from PIL import Image

from kiosk.screens.parts.gauge import Gauge
from kiosk.screens.parts.knob import Knob
from kiosk.screens.parts.mark import Mark
from kiosk.screens.parts.press import Press
from kiosk.screens.parts.rail import Column
from kiosk.screens.parts.rules import Rules
from kiosk.screens.parts.text import Text

Rgb = tuple[int, int, int]
TEXT, PARTS = 4.5, 3.0
GROUND_PART = 0.08  # of a text's box: a colour that fills more than this lies under its letters
VISIONS = ("deutan", "protan", "grayscale")


def picture(face: Widget) -> Image.Image:
    """The panel as it stands in the window, its top left first."""
    from kivy.graphics.opengl import GL_RGB, GL_UNSIGNED_BYTE, glReadPixels

    width, height = (int(side) for side in face.size)
    data = glReadPixels(int(face.x), int(face.y), width, height, GL_RGB, GL_UNSIGNED_BYTE)
    whole = Image.frombytes("RGB", (width, height), bytes(data))
    return whole.transpose(Image.Transpose.FLIP_TOP_BOTTOM)


@lru_cache(maxsize=65536)
def contrast(one: Rgb, two: Rgb) -> float:
    """The contrast ratio of WCAG 2.1."""
    return _colour(one).contrast(_colour(two), method="wcag21")


@lru_cache(maxsize=4096)
def _colour(rgb: Rgb) -> Color:
    return Color("srgb", [part / 255 for part in rgb])


@lru_cache(maxsize=65536)
def as_seen(rgb: Rgb, vision: str) -> Rgb:
    """A colour as an eye without red or green sees it, or in grey."""
    seen = _colour(rgb).filter(vision).convert("srgb").clip()
    return tuple(round(part * 255) for part in seen.coords())


@dataclass(frozen=True)
class Pair:
    """Two colours that lie side by side, which to tell apart needs a contrast of `least`."""

    ink: Rgb
    ground: Rgb
    least: float
    what: str

    @property
    def problem(self) -> str:
        """What is wrong with it, or an empty string."""
        ratio = contrast(self.ink, self.ground)
        if ratio >= self.least:
            return ""
        return f"{self.what}: {ratio:.2f} of {hexes(self.ink)} on {hexes(self.ground)}"


def hexes(rgb: Rgb) -> str:
    """A colour as it is usually written."""
    return "#" + "".join(f"{part:02X}" for part in rgb)


def pairs(face: Any) -> Iterator[Pair]:
    """Every pair of colours that has to be told apart on what a face shows."""
    image = picture(face)
    for widget in face.walk(restrict=True):
        if isinstance(widget, Text) and widget.text.strip():
            yield from _under_text(image, face, widget)
        elif isinstance(widget, Press) and widget.live and not widget.is_behind:
            yield _edge(image, face, widget)
        elif isinstance(widget, Mark | Knob | Gauge | Column | Rules) and widget.width > 4:
            yield from _inside(image, face, widget)


def box(face: Widget, widget: Widget) -> tuple[int, int, int, int]:
    """Where a widget lies in the picture: left, top, right, bottom."""
    left, top = widget.x - face.x, face.top - widget.top
    right, bottom = left + widget.width, top + widget.height
    return (
        max(0, int(left)),
        max(0, int(top)),
        min(int(face.width), round(right)),
        min(int(face.height), round(bottom)),
    )


def counted(image: Image.Image) -> list[tuple[int, Rgb]]:
    """Each colour and how many pixels have it, the commonest first."""
    colours = image.getcolors(image.width * image.height) or []
    return sorted(colours, reverse=True)


def _under_text(image: Image.Image, face: Any, text: Text) -> Iterator[Pair]:
    part = image.crop(box(face, text))
    ink = tuple(round(c * 255) for c in text.color[:3])
    total = part.width * part.height
    for count, ground in counted(part):
        if count > total * GROUND_PART and contrast(ink, ground) > 1.25:
            yield Pair(ink, ground, TEXT, f"text {text.text!r}")


def _edge(image: Image.Image, face: Any, press: Press) -> Pair:
    """A target stands out by its fill or by its edge from what lies beside it."""
    left, top, _right, bottom = box(face, press)
    below, above = press.inset
    middle = int((top + above + bottom - below) / 2)
    outside = image.getpixel((max(0, left - 2), middle))
    inside = [image.getpixel((left + step, middle)) for step in range(1, 6)]
    best = max(inside, key=lambda one: contrast(one, outside))
    return Pair(best, outside, PARTS, f"target {press.words!r}")


def _inside(image: Image.Image, face: Any, part: Widget) -> Iterator[Pair]:
    """What is drawn on a part stands out from the part's own ground."""
    seen = counted(image.crop(box(face, part)))
    ground = seen[0][1]
    best = max((one for count, one in seen[1:] if count > 3), default=ground, key=_against(ground))
    yield Pair(best, ground, PARTS, type(part).__name__)


def _against(ground: Rgb) -> Any:
    return lambda one: contrast(one, ground)


# --- with other eyes -----------------------------------------------------------------------------


def told_apart(one: Image.Image, two: Image.Image, vision: str) -> float:
    """The part of two pictures' pixels that differ by 3:1 or more for an eye."""
    pixels = zip(_flat(one), _flat(two), strict=True)
    differ = sum(a != b and _differ(a, b, vision) for a, b in pixels)
    return differ / (one.width * one.height)


def _flat(image: Image.Image) -> list[Rgb]:
    data = image.tobytes()
    return [tuple(data[at : at + 3]) for at in range(0, len(data), 3)]


def _differ(one: Rgb, two: Rgb, vision: str) -> bool:
    return contrast(as_seen(one, vision), as_seen(two, vision)) >= PARTS
