"""What stands around every screen's body: head, band, bar, and the line above the bar."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from kiosk.core.view import Band, Button, Head, View
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.stage import LETTERED, Stage
from kiosk.screens.parts.band import LOOKS, BandGround
from kiosk.screens.parts.knob import Knob
from kiosk.screens.parts.ruler import Set

HEAD_MM = 12.2
BAND_MM = 9.8
BAR_GAP_MM = 1.15  # above and below the bar's buttons
WIDE = ("main", "adult", "still")
WAITING = ("main", "adult")
NOBODY = Head("", "none", "", "", None)
Item = tuple[Button, Callable[[], None] | None]  # a button, and what it does if it sends nothing


def top(stage: Stage, view: View) -> Box:
    """Put the ground and the head; returns the box under it."""
    theme = stage.theme
    whole = Box(0, 0, theme.panel.width_px, theme.panel.height_px)
    area, rest = whole.cut_top(theme.room(HEAD_MM))
    head(stage, view.head, area)
    return rest


def under_band(stage: Stage, view: View, box: Box) -> Box:
    """Put the band, if there is one, at the top of a box; returns what is left."""
    if view.band is None:
        return box
    area, rest = box.cut_top(stage.theme.room(BAND_MM))
    band(stage, view.band, area, view.flash)
    return rest


def above_bar(stage: Stage, view: View, box: Box) -> tuple[Box, Box]:
    """Put the line above the bar; returns the box for the body and the bar's."""
    ground, rest = box.cut_bottom(bar_height(stage) if view.buttons else 0)
    return said(stage, view, rest), ground


def bar_height(stage: Stage) -> int:
    """Pixels of the bar with its buttons."""
    theme = stage.theme
    return max(theme.target, theme.room(15.0)) + 2 * theme.mm(BAR_GAP_MM)


# --- the head ---


def head(stage: Stage, told: Head, box: Box) -> None:
    """Machine, isolator, whose turn it is, *Everyone stop* and *Something wrong?*."""
    theme = stage.theme
    stage.ground(box, "paper")
    stage.ground(Box(box.x, box.y + box.h - 2, box.w, 2), "line")
    rest = box.inset(theme.mm(2.6), 0)
    for button in (told.wrong, told.stop):
        if button is not None:
            rest = _call(stage, button, box, two=told.stop is not None)
            box = Box(box.x, box.y, rest.x + rest.w - box.x + theme.mm(1.4), box.h)
    _told(stage, told, rest)


def _call(stage: Stage, button: Button, box: Box, two: bool) -> Box:
    """The button stands in the head but is felt a little below it too; of two, in two lines."""
    theme = stage.theme
    label = stage.measure(button.label, "wrong", box.w).width
    label = _least(stage, button.label, "wrong") if two else label
    width = min(box.w * 0.34, max(label + theme.mm(3 if two else 5), theme.target))
    height = max(theme.target, round(box.h))
    area = Box(box.x + box.w - width - theme.mm(1), box.y, width, height)
    press = stage.target(area, button.look, stage.send_of(button), button.live)
    press.steady = button.look == "danger"
    above = theme.mm(0.3 if two else 1)
    press.shape(theme.mm(1.6), theme.mm(0.55), (height - box.h + above, above))
    inset = theme.mm(0.7) - theme.mm(LETTERED[1]) if two else above  # inside the plate's edge
    face = Box(area.x, box.y + inset, width, box.h - 2 * inset)
    stage.face(press, face, button.label, "wrong")
    return Box(box.x + theme.mm(2.6), box.y, area.x - box.x - theme.mm(4.5), box.h)


def _told(stage: Stage, told: Head, box: Box) -> None:
    theme = stage.theme
    gap = theme.mm(3.2)
    knob = 0.0 if told.isolator == "none" else theme.room(8.2) + theme.mm(1.4)
    texts = [(told.machine, "machine", "ink"), (told.isolator_word, "reading", "ink")]
    texts = [*texts, (told.who, "who", "soft")]
    room = box.w - knob - gap * sum(1 for text, _, _ in texts[1:] if text)
    widths = _share(stage, [(text, role) for text, role, _ in texts], room)
    for (text, role, ink), width in zip(texts, widths, strict=True):
        if role == "reading" and knob:
            box = _knob(stage, told.isolator, box)
        if text:
            box = _tell(stage, text, role, ink, box, width)


def _tell(stage: Stage, text: str, role: str, ink: str, box: Box, width: float) -> Box:
    """One text of the head, broken between its parts rather than inside one, if it can be."""
    high = stage.measure("", role, width).height if role == "machine" else box.h
    done = stage.fit(text, role, Box(0, 0, width, high))
    if stage.measure(text, role, 9_999).width > width:
        parted = stage.fit(text.replace(" · ", "\n"), role, Box(0, 0, width, high))
        done = parted if parted.height <= high and not parted.broken else done
    area, rest = box.cut_left(done.width + 4, stage.theme.mm(3.2))
    stage.text(done, role, area, ink)
    return rest


def _knob(stage: Stage, isolator: str, box: Box) -> Box:
    side = stage.theme.room(8.2)
    area, rest = box.cut_left(side, stage.theme.mm(1.4))
    knob = stage.take(Knob, area.middle(side, side))
    knob.show(isolator)
    return rest


def _share(stage: Stage, texts: list[tuple[str, str]], room: float) -> list[float]:
    """Widths for texts side by side: their own if there is room, else shared, in two lines."""
    own = [stage.measure(text, role, 9_999).width + 4.0 if text else 0.0 for text, role in texts]
    if sum(own) <= room:
        return own
    least = [_least(stage, text, role) for text, role in texts]
    spare = max(0.0, room - sum(least)) / max(1.0, sum(own) - sum(least))
    return [low + (high - low) * min(1.0, spare) for low, high in zip(least, own, strict=True)]


def _least(stage: Stage, text: str, role: str, *, bare: bool = False) -> float:
    """The width at which a text still stands in two lines; the machine's name in one."""
    if not text:
        return 0.0
    size = stage.sizes(role, bare=bare)[-1]
    if role == "machine":
        return stage.measure(text, role, 9_999, size).width + 4.0
    width = stage.measure(text, role, 9_999, size).width / 2
    for _ in range(40):
        done = stage.measure(text, role, width, size)
        if len(done.lines) <= 2 and not done.broken:
            break
        width *= 1.05
    return width + 4


# --- the band ---


def band(stage: Stage, what: Band, box: Box, flash: bool) -> None:
    """One line on strong colour, with a sign."""
    theme = stage.theme
    ground = stage.take(BandGround, box)
    inner = box.inset(theme.mm(3), theme.mm(0.4))
    side = min(inner.h * 0.84, theme.room(8.6))
    area, words = inner.cut_left(side, theme.mm(2.6))
    colour, ink, sign = LOOKS.get(what.look, LOOKS["adult"])
    mark = stage.mark(sign, area.middle(side, side), ink, colour)
    text = stage.text(what.text, "band", words, ink)
    ground.show(what.look, mark, text, flash)


# --- the bar ---


def bar(
    stage: Stage, buttons: tuple[Button, ...], box: Box, asides: tuple[Item, ...] = ()
) -> Box | None:
    """Buttons left to right; the main one takes the width that the others leave.

    `asides` stand before the wide ones. While lines are still on pages not looked at, the wide
    buttons wait. For a left hand the order is turned round. Returns what is left free.
    """
    sent: list[Item] = [(button, None) for button in buttons]
    narrow = [item for item in sent if item[0].look not in WIDE]
    items = [*narrow, *asides, *(item for item in sent if item not in narrow)]
    if not items:
        return None
    theme = stage.theme
    stage.ground(box, "bar")
    gap = theme.mm(2.6) if len(items) < 4 else theme.mm(1.6)
    row = box.inset(gap, (box.h - bar_height(stage)) / 2 + theme.mm(BAR_GAP_MM))
    widths = bar_widths(stage, items, row.w - gap * (len(items) - 1))
    for item, width in zip(items, widths, strict=True):
        area, row = stage.cut_near(row, width, gap)
        _put_item(stage, item, area)
    return row


def _put_item(stage: Stage, item: Item, box: Box) -> None:
    button, act = item
    waiting = stage.unseen and button.look in WAITING
    shown = replace(button, live=button.live and not waiting)
    role = "main" if button.look in WIDE else "plain"
    if act is None:
        stage.button(shown, box, role)
    elif act == stage.speak:
        side = stage.theme.mm(9)
        stage.sign(stage.target(box, button.look, act), "speaker", box.middle(side, side))
    else:
        stage.face(stage.target(box, button.look, act), box, button.label, role)


def bar_widths(stage: Stage, items: list[Item], room: float) -> list[float]:
    """Widths of the bar's buttons in pixels: what they want, else shared, none under its least."""
    own = [_own_width(stage, *item) for item in items]
    wide = [button.look in WIDE for button, _ in items]
    least = [
        min(width, _least_width(stage, button))
        for (button, _), width in zip(items, own, strict=True)
    ]
    spare = max(0.0, room - sum(least)) / max(1.0, sum(own) - sum(least))
    widths = [low + (high - low) * min(1.0, spare) for low, high in zip(least, own, strict=True)]
    over = max(0.0, room - sum(widths)) / max(1, sum(wide))
    return [width + over * is_wide for width, is_wide in zip(widths, wide, strict=True)]


def _least_width(stage: Stage, button: Button) -> float:
    """The width at which a button's label still stands in two lines of the smallest size."""
    role = "main" if button.look in WIDE else "plain"
    text = _least(stage, button.label, role, bare=True) + stage.theme.mm(4)
    return max(text, stage.theme.target)


def _own_width(stage: Stage, button: Button, act: Callable[[], None] | None) -> float:
    role = "main" if button.look in WIDE else "plain"
    if act is not None and act == stage.speak:
        return stage.theme.target
    if act is not None:
        return max(_least(stage, button.label, role) + stage.theme.mm(4), stage.theme.mm(17))
    text = stage.measure(button.label, role, 9_999).width + stage.theme.mm(7)
    return max(text, stage.theme.mm(26))


# --- the line above the bar ---


def to_say(view: View) -> str:
    """Why the last touch was refused, and what is not saved yet; nothing if neither."""
    return "  ·  ".join(part for part in (view.answer, view.unsaved) if part)


def said(stage: Stage, view: View, box: Box) -> Box:
    """Put what is to say on a strip at the bottom; returns what is left above it."""
    text = to_say(view)
    if not text:
        return box
    theme = stage.theme
    done = _in_one_line(stage, text, box.w - theme.mm(14))
    strip, rest = box.cut_bottom(done.height + theme.mm(2))
    look = "caution_pale" if view.answer else "bar"
    stage.ground(strip, look)
    stage.ground(Box(strip.x, strip.y, strip.w, 2), "caution")
    sign, words = strip.inset(theme.mm(3), 0).cut_left(theme.mm(5), theme.mm(2))
    stage.mark("caution", sign.middle(theme.mm(5), theme.mm(5)), "caution", "ink")
    stage.text(done, "answer", words)
    return rest


def _in_one_line(stage: Stage, text: str, width: float) -> Set:
    """A text in one line if any of its sizes lets it, so that the words above keep their room."""
    for size in stage.sizes("answer", bare=True):
        done = stage.measure(text, "answer", width, size)
        if len(done.lines) == 1:
            return done
    return stage.measure(text, "answer", width)
