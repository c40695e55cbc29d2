"""Keys that turn the pages of a list that is longer than its box."""

from __future__ import annotations

from functools import partial

from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.stage import Stage


def page_width(stage: Stage) -> int:
    """Pixels kept at the right for the keys."""
    return max(stage.theme.target, stage.theme.room(15.0))


def page_keys(stage: Stage, box: Box, at: int, of: int) -> None:
    """A key up, the page's number, a key down; one key that goes round in a low box."""
    side = page_width(stage)
    if box.h < 2 * side + stage.theme.mm(1):
        _round_key(stage, box, at, of)
        return
    up, rest = box.cut_top(side)
    down, rest = rest.cut_bottom(side)
    _key(stage, up, "up", at > 0, -1)
    _key(stage, down, "down", at < of - 1, 1)
    number = f"{at + 1}/{of}"
    if rest.h >= stage.fit(number, "note", rest).height:
        stage.text(number, "note", rest, "soft", "center")


def _round_key(stage: Stage, box: Box, at: int, of: int) -> None:
    number = stage.fit(f"{at + 1}/{of}", "note", box)
    key, rest = box.cut_top(page_width(stage))
    _key(stage, key, "down", True, 1 if at < of - 1 else -at)
    if rest.h >= number.height:
        stage.text(number, "note", rest, "soft", "center")


def _key(stage: Stage, box: Box, sign: str, live: bool, by: int) -> None:
    press = stage.target(box, "key", partial(_turn, stage, by), live)
    stage.sign(press, sign, box.middle(box.w * 0.62, box.h * 0.62))


def _turn(stage: Stage, by: int) -> None:
    stage.typed.turn(by)
    stage.turned()
