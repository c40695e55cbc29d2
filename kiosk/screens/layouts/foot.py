"""The foot of the words: the note in its caution box, and progress above it."""

from __future__ import annotations

from kiosk.core.view import View
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.listing import CAUTION
from kiosk.screens.layouts.stage import Stage
from kiosk.screens.parts.gauge import Gauge
from kiosk.screens.parts.ruler import Set


def note_height(stage: Stage, view: View, width: float) -> float:
    """Pixels that the note takes with its box; 0 without one."""
    if not view.note:
        return 0.0
    return note_set(stage, view, width).height + stage.theme.mm(3.2)


def note_set(stage: Stage, view: View, width: float) -> Set:
    """The note as it is set in a caution box of that width."""
    return stage.measure(view.note, "note", width - stage.theme.mm(5.4))


def _gauge_height(stage: Stage, view: View, width: float) -> float:
    if view.progress is None:
        return 0.0
    theme = stage.theme
    return stage.measure(view.progress.word, "body", width).height + theme.room(7.2)


def foot_height(stage: Stage, view: View, width: float) -> float:
    """Pixels that note and progress take, each with the gap above it."""
    parts = (note_height(stage, view, width), _gauge_height(stage, view, width))
    return sum(part + stage.theme.mm(1.9) for part in parts if part)


def put_foot(stage: Stage, view: View, box: Box) -> None:
    """The note at the bottom, progress above it; in a long box both follow the lines."""
    theme = stage.theme
    gap = theme.mm(1.9)
    if box.h > foot_height(stage, view, box.w) + theme.room(16):
        box = Box(box.x, box.y + theme.room(4), box.w, foot_height(stage, view, box.w) + gap)
    if view.note:
        area, box = box.cut_bottom(note_height(stage, view, box.w), gap)
        note(stage, view.note, area)
    if view.progress is not None:
        area, box = box.cut_bottom(_gauge_height(stage, view, box.w))
        _gauge(stage, view, area)


def note(stage: Stage, text: str, box: Box) -> None:
    """A caution box, its text as large as it takes."""
    theme = stage.theme
    stage.plate(box, *CAUTION)
    words = box.inset(theme.mm(2.7), theme.mm(1))
    stage.text(stage.fit(text, "note", words, bare=True), "note", words)


def _gauge(stage: Stage, view: View, box: Box) -> None:
    assert view.progress is not None
    bar, words = box.cut_bottom(stage.theme.room(5.2), stage.theme.room(2))
    stage.text(view.progress.word, "body", words)
    stage.take(Gauge, bar).show(view.progress.done, view.progress.whole)
