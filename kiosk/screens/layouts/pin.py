"""The PIN: whose it is and how many digits stand at the left, the pad at the right."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from kiosk.core.inputs import TypeCode, TypePin
from kiosk.core.view import Pad, View
from kiosk.screens.layouts import frame
from kiosk.screens.layouts.body import Manner, column, words_height
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.stage import Stage
from kiosk.screens.theme import PIN_KEY_MM

MANNER = Manner()


def put_pin(stage: Stage, view: View) -> None:
    """Put the screen that asks for a PIN."""
    rest = frame.top(stage, view)
    if view.pad is not None:
        rest = _put_pad(stage, view.pad, rest)
    rest = frame.under_band(stage, view, rest)
    body, ground = frame.above_bar(stage, view, rest)
    body = body.inset(stage.theme.mm(2.7), stage.theme.mm(1.9))
    if view.pad is not None:
        view = replace(view, lines=()) if view.pad.busy else view
        body = _put_below(stage, view, view.pad, body)
        body = _put_dots(stage, view, view.pad, body)
    column(stage, view, body, MANNER)
    frame.bar(stage, view.buttons, ground)


def _put_pad(stage: Stage, pad: Pad, box: Box) -> Box:
    """The keys in a column of their own, as high as the screen; returns what is left."""
    theme = stage.theme
    gap = theme.mm(1)
    top = max(box.y, theme.target) + gap
    area = Box(box.x, top, box.w, box.y + box.h - top - gap)
    side = min((area.h - 3 * gap) / 4, theme.room(24))
    width = 3 * side * 1.04 + 2 * gap
    keys, _ = area.cut_right(width + gap)
    grid = Box(keys.x, keys.y + (keys.h - 4 * side - 3 * gap) / 2, width, keys.h)
    stage.ground(Box(keys.x - 2 * gap, box.y, box.w - keys.x + 2 * gap, box.h), "bar")
    for at, key in enumerate((*pad.order[:9], "", pad.order[9], "delete")):
        _put_key(stage, pad, key, _cell(grid, at, side, gap))
    return Box(box.x, box.y, keys.x - 2 * gap - box.x, box.h)


def _cell(grid: Box, at: int, side: float, gap: float) -> Box:
    row, place = divmod(at, 3)
    width = (grid.w - 2 * gap) / 3
    return Box(grid.x + place * (width + gap), grid.y + row * (side + gap), width, side)


def _put_key(stage: Stage, pad: Pad, key: str, box: Box) -> None:
    if not key:
        return
    press = stage.target(box, "key", partial(_type, stage, pad, key), live=not pad.busy)
    press.least_mm, press.local = PIN_KEY_MM, True
    if key == "delete":
        stage.sign(press, "delete", box.middle(box.w * 0.42, box.h * 0.42))
    else:
        stage.face(press, box, key, "digit")


def _type(stage: Stage, pad: Pad, key: str) -> None:
    typed = stage.typed
    typed.back() if key == "delete" else typed.digit(key, pad.digits)
    if typed.is_whole(pad.digits):
        typed.sent = True
        code = TypeCode(pad.adult, typed.digits)
        stage.send(
            code if pad.asks == "code" else TypePin(pad.adult, typed.digits, int(typed.stay))
        )
    stage.again()


# --- beside the pad ---


def _put_below(stage: Stage, view: View, pad: Pad, box: Box) -> Box:
    """The toggle for staying, or what is being done, at the bottom; returns what is left."""
    theme = stage.theme
    gap = theme.mm(2)
    if pad.stay_label and not pad.busy:
        area, box = box.cut_bottom(max(theme.target, theme.room(15)), gap)
        _put_stay(stage, pad, area)
    if pad.busy:
        room = box.h - words_height(stage, view, box.w, MANNER) - gap
        done = stage.fit(pad.busy, "question", Box(box.x, box.y, box.w, room))
        area, box = box.cut_bottom(done.height, gap)
        stage.text(done, "question", area, "adult")
    return box


def _put_dots(stage: Stage, view: View, pad: Pad, box: Box) -> Box:
    """A dot for every digit, under the words; returns the box for the words."""
    theme = stage.theme
    height, gap = theme.room(7), theme.room(3)
    if pad.busy and words_height(stage, view, box.w, MANNER) > box.h - height - gap:
        return box  # nothing can be typed just now, and what is said needs the room
    words = min(words_height(stage, view, box.w, MANNER), box.h - height - gap)
    digits = pad.digits if pad.busy else len(stage.typed.digits)
    _put_row(stage, digits, pad.digits, Box(box.x, box.y + words + gap, box.w, height))
    return Box(box.x, box.y, box.w, words)


def _put_row(stage: Stage, digits: int, of: int, box: Box) -> None:
    side = min(box.h * 0.72, box.w / (of * 2))
    for at in range(of):
        area = Box(box.x + at * side * 1.9, box.y + (box.h - side) / 2, side, side)
        sign, ink = ("bullet", "adult") if at < digits else ("circle", "soft")
        stage.mark(sign, area, ink)


def _put_stay(stage: Stage, pad: Pad, box: Box) -> None:
    theme = stage.theme
    press = stage.target(box, "plain", partial(_toggle, stage))
    press.local = True
    sign, words = box.inset(theme.mm(2.4), 0).cut_left(theme.room(6.4), theme.mm(2.4))
    name = "ticked" if stage.typed.stay else "box"
    stage.sign(press, name, sign.middle(theme.room(6.4), theme.room(6.4)))
    room = Box(words.x - theme.mm(1.5), words.y, words.w, words.h)
    stage.face(press, room, pad.stay_label, "plain", align="left")


def _toggle(stage: Stage) -> None:
    stage.typed.stay = not stage.typed.stay
    stage.again()
