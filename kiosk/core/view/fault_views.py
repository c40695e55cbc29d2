"""The screens for a record that can't be written and for content with mistakes."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.problems import Problem
from kiosk.core.units import Moment
from kiosk.core.view.pupil_views import drilling_view
from kiosk.core.view.scene import as_used, head, scene_of
from kiosk.core.view.shape import Band, Head, View
from kiosk.core.words import Words

PROBLEMS_SHOWN = 4


def record_fault_view(shop: Shop, kiosk: Kiosk, words: Words, now: Moment, why: str) -> View:
    """Nothing goes on until the record can be written. The drilling screen stays where it is."""
    scene = scene_of(shop, kiosk, words, now)
    unsaved = scene.say(f"record_fault.{why}")
    if kiosk.session and kiosk.session.is_drilling:
        view = as_used(scene, drilling_view(scene, kiosk.session))
        waiting = tuple(replace(b, live=False) for b in view.buttons)
        return replace(view, unsaved=unsaved, buttons=waiting)
    return View(
        screen="record_fault",
        head=head(scene, with_wrong=False),
        band=Band("stop", scene.say("record_fault.title")),
        title=unsaved,
        lines=scene.lines("record_fault.say"),
    )


def closed_record_view(machine: str, words: Words, why: str) -> View:
    """The record could not be opened at the start."""
    return View(
        screen="record_fault",
        head=_bare_head(machine),
        band=Band("stop", words.say("record_fault.title")),
        title=words.say(f"record_fault.{why}"),
        lines=tuple(words.say("record_fault.say").split("\n")),
    )


def content_fault_view(machine: str, words: Words, problems: tuple[Problem, ...]) -> View:
    """The content has mistakes: the first lines, so that the technician finds them."""
    shown = tuple(str(p) for p in problems[:PROBLEMS_SHOWN])
    more = len(problems) - len(shown)
    lines = (*shown, words.say("content_fault.more", n=more)) if more > 0 else shown
    return View(
        screen="content_fault",
        head=_bare_head(machine),
        band=Band("stop", words.say("content_fault.title")),
        title=words.say("content_fault.say").replace("\n", " ").strip(),
        lines=lines,
    )


def _bare_head(machine: str) -> Head:
    return Head(machine=machine, isolator="none", isolator_word="", who="", wrong=None)
