"""Finds what is wrong with a screen's geometry: one walk over all that is shown.

Problems are sentences: targets too small, overlapping or off the panel; texts overlapping,
clipped, cut, shortened or broken inside a word.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import combinations

from kivy.core.text import Label as CoreLabel
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.label import Label
from kivy.uix.widget import Widget

from kiosk.screens.parts.press import Press
from kiosk.screens.parts.text import Text
from kiosk.screens.theme import TARGET_MM, Panel

TOUCHING = 1.0  # pixels that two boxes may share
SMALLEST_MM = 3.0  # capital height of the smallest text

Writing = Label | Text
Area = tuple[float, float, float, float]  # left, bottom, right, top in window pixels


def problems(root: Widget, panel: Panel) -> list[str]:
    """Everything wrong with what `root` shows on a panel; an empty list if nothing is."""
    shown = list(root.walk(restrict=True))
    targets = [widget for widget in shown if _is_target(widget)]
    texts = [widget for widget in shown if isinstance(widget, Writing) and widget.text.strip()]
    areas = {widget: _area(widget) for widget in (*targets, *texts)}
    found = [_too_small(target, panel) for target in targets]
    found += [_off(widget, area, root) for widget, area in areas.items()]
    found += [_overlap("targets", areas, *pair) for pair in combinations(targets, 2)]
    found += [_overlap("texts", areas, *pair) for pair in combinations(texts, 2)]
    found += [_covered(text, areas[text], target) for target in targets for text in texts]
    for text in texts:
        found += _text_problems(text, panel)
    return [problem for problem in found if problem]


def _is_target(widget: Widget) -> bool:
    return isinstance(widget, Press | ButtonBehavior)


def _name(widget: Widget) -> str:
    label = widget.label if isinstance(widget, Press) else widget
    text = getattr(label, "text", "") if getattr(label, "parent", None) else ""
    return repr(text) if text else f"{type(widget).__name__} at {widget.x:.0f},{widget.y:.0f}"


# --- targets ---


def _too_small(target: Widget, panel: Panel) -> str:
    least = max(TARGET_MM, getattr(target, "least_mm", TARGET_MM))
    across, along = target.width / panel.px_per_mm, target.height / panel.px_per_mm
    if min(across, along) >= least - 0.01:
        return ""
    return f"target {_name(target)} is {across:.1f} by {along:.1f} mm, less than {least:g} mm"


def _off(widget: Widget, area: Area, root: Widget) -> str:
    left, bottom, right, top = area
    outside = max(root.x - left, root.y - bottom, right - root.right, top - root.top)
    return f"{_name(widget)} is {outside:.0f} px off the panel" if outside > TOUCHING else ""


def _overlap(what: str, areas: dict[Widget, Area], one: Widget, two: Widget) -> str:
    if not _shared(areas[one], areas[two]):
        return ""
    return f"{what} {_name(one)} and {_name(two)} overlap"


def _covered(text: Writing, area: Area, target: Widget) -> str:
    if text is target or getattr(target, "is_behind", False):
        return ""
    if not _shared(area, _seen(target)) or target in _parents(text):
        return ""
    return f"text {_name(text)} runs into target {_name(target)}"


def _parents(widget: Widget) -> Iterator[Widget]:
    parent = widget.parent
    while isinstance(parent, Widget):
        yield parent
        parent = parent.parent


def _shared(one: Area, two: Area) -> bool:
    across = min(one[2], two[2]) - max(one[0], two[0])
    along = min(one[3], two[3]) - max(one[1], two[1])
    return across > TOUCHING and along > TOUCHING


def _felt(widget: Widget) -> Area:
    return (widget.x, widget.y, widget.right, widget.top)


def _seen(target: Widget) -> Area:
    """Where a target's plate stands; it may be felt a little beyond it."""
    below, above = target.inset if isinstance(target, Press) else (0.0, 0.0)
    return (target.x, target.y + below, target.right, target.top - above)


def _area(widget: Widget) -> Area:
    """Where a target is felt, or where a text's letters stand in its box."""
    if not isinstance(widget, Writing) or _is_target(widget):
        return _felt(widget)
    width, height = _natural(widget, wrapped=True)
    left = _start(widget.x, widget.width, width, _SIDES.get(widget.halign, 0.0))
    bottom = _start(widget.y, widget.height, height, _level(widget))
    return (left, bottom, left + width, bottom + height)


def _level(text: Writing) -> float:
    """Where a text stands in its box: 0 at the bottom, 1 at the top."""
    return 0.5 if text.text_size[1] is None else _LEVELS.get(text.valign, 0.0)


_SIDES = {"left": 0.0, "auto": 0.0, "justify": 0.0, "center": 0.5, "right": 1.0}
_LEVELS = {"bottom": 0.0, "middle": 0.5, "center": 0.5, "top": 1.0}


def _start(at: float, room: float, used: float, part: float) -> float:
    return at + (room - used) * part


# --- texts ---


def _text_problems(text: Writing, panel: Panel) -> list[str]:
    if isinstance(text, Label):
        text.texture_update()
    checks = (_clipped(text), _cut(text), _shortened(text), _tiny(text, panel))
    told = f"text {_name(text)}: {text.problem}" if isinstance(text, Text) and text.problem else ""
    return [*checks, told]


def _clipped(text: Writing) -> str:
    width, height = text.texture_size
    if width <= text.width + TOUCHING and height <= text.height + TOUCHING:
        return ""
    box = f"{text.width:.0f} by {text.height:.0f} px"
    return f"text {_name(text)} of {width:.0f} by {height:.0f} px is clipped by its box of {box}"


def _cut(text: Writing) -> str:
    """Drawn again without its limits, a text that was cut by them comes out larger."""
    limit_w, limit_h = text.text_size
    if limit_w is None and limit_h is None:
        return ""
    _width, height = _natural(text, wrapped=True)
    longest = max(_line(text, word) for word in text.text.split())
    if limit_w is not None and longest > limit_w + TOUCHING:
        return f"text {_name(text)} is broken inside a word"
    if limit_h is not None and height > limit_h:
        return f"text {_name(text)} is cut: {height:.0f} px high in {limit_h:.0f} px"
    drawn, (_, whole) = _lines(_pen(text)), _afresh(text, limit_w)
    return f"text {_name(text)} lacks {whole - drawn} of {whole} lines" if drawn < whole else ""


def _pen(text: Writing) -> CoreLabel:
    return text.pen if isinstance(text, Text) else text._label


def _lines(pen: CoreLabel) -> int:
    """How many lines Kivy has really drawn."""
    return len(pen._cached_lines)


def _shortened(text: Writing) -> str:
    return f"text {_name(text)} is shortened" if getattr(text, "is_shortened", False) else ""


def _tiny(text: Writing, panel: Panel) -> str:
    capital = _capital(text) / panel.px_per_mm
    if capital >= SMALLEST_MM - 0.15:
        return ""
    return f"text {_name(text)} has capitals of {capital:.1f} mm, less than {SMALLEST_MM:g} mm"


def _capital(text: Writing) -> float:
    return text.font_size * 0.727


def _natural(text: Writing, *, wrapped: bool) -> tuple[float, float]:
    """The size of a text drawn afresh, limited in width only."""
    limit = text.text_size[0] if wrapped else None
    height, _count = _afresh(text, limit)
    width = max(_line(text, line) for line in text.text.split("\n"))
    return (width if limit is None else min(width, limit), height)


def _afresh(text: Writing, width: float | None) -> tuple[float, int]:
    """Height and lines of the text drawn again with no limit but one in width."""
    return _drawn(text.text, text.font_name, text.font_size, width, text.line_height, text.halign)


@lru_cache(maxsize=16384)
def _drawn(
    text: str, font: str, size: float, width: float | None, line_height: float, halign: str
) -> tuple[float, int]:
    pen = CoreLabel(
        text=text,
        font_name=font,
        font_size=size,
        text_size=(width, None),
        line_height=line_height,
        halign=halign,
    )
    pen.refresh()
    return (pen.size[1], _lines(pen))


def _line(text: Writing, line: str) -> float:
    return _width(line, text.font_name, text.font_size)


@lru_cache(maxsize=16384)
def _width(line: str, font: str, size: float) -> float:
    return float(CoreLabel(font_name=font, font_size=size).get_extents(line)[0])
