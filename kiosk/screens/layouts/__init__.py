"""A layout for every screen name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from kiosk.core.view import View
from kiosk.screens.layouts import frame
from kiosk.screens.layouts.asides import aside_buttons, open_aside, put_aside
from kiosk.screens.layouts.body import Manner, put_body
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.notes import put_note
from kiosk.screens.layouts.pin import put_pin
from kiosk.screens.layouts.stage import Stage

Layout = Callable[[Stage, View], None]


def put_plain(manner: Manner, stage: Stage, view: View) -> None:
    """Head, band, body and bar, one below another."""
    rest = frame.under_band(stage, view, frame.top(stage, view))
    body, ground = frame.above_bar(stage, view, rest)
    if view.choices and view.choices[0].look == "number":
        free = frame.bar(stage, view.buttons, ground, aside_buttons(stage, view))
        put_body(stage, _said_in(free, stage, view), body, manner)
    else:
        put_body(stage, view, body, manner)
        frame.bar(stage, view.buttons, ground, aside_buttons(stage, view))


def _said_in(free: Box | None, stage: Stage, view: View) -> View:
    """Lines go into what the bar leaves free, if they fit: a whole class then has one page."""
    if free is None or not view.lines:
        return view
    done = stage.measure("\n".join(view.lines), "body", free.w)
    if done.broken or done.height > free.h or done.width > free.w:
        return view
    stage.text(done, "body", free)
    return replace(view, lines=())


def put(stage: Stage, view: View) -> None:
    """Put a view by its screen's name, or what is being read beside it."""
    aside = open_aside(stage, view)
    if aside is not None:
        put_aside(stage, view, aside)
    else:
        LAYOUTS[view.screen](stage, view)


def put_secret(stage: Stage, view: View) -> None:
    """What was issued, as lines: they are drawn and nowhere else."""
    put_plain(
        Manner(marker="number" if len(view.secret) > 1 else "none"),
        stage,
        replace(view, lines=view.secret),
    )


def put_private(stage: Stage, view: View) -> None:
    """What adults wrote, above the other lines: it is drawn and nowhere else."""
    put_plain(Manner(), stage, replace(view, lines=(*view.secret, *view.lines)))


def _plain(**manner: object) -> Layout:
    return partial(put_plain, Manner(**manner))  # type: ignore[arg-type]


LAYOUTS: dict[str, Layout] = {
    "idle": _plain(emblem="drill"),
    "restart": _plain(emblem="drill"),
    "out_of_use": _plain(emblem="out"),
    "pre_use": _plain(marker="bullet", ink="adult", title="question"),
    "form": _plain(),
    "job": _plain(),
    "step": _plain(),
    "already_set": _plain(marker="bullet", ready=True),
    "adult_check": _plain(marker="bullet", ink="adult", title="question"),
    "pin": put_pin,
    "drilling": _plain(marker="number", bare=True, ready=True),
    "interruption": _plain(emblem="caution"),
    "wrong": _plain(),
    "recovery": _plain(),
    "finished": _plain(emblem="done"),
    "note": put_note,
    "menu": _plain(),
    "own_use": _plain(emblem="drill"),
    "download": _plain(),
    "package": _plain(marker="bullet"),
    "sheet": _plain(),
    "incident": put_private,
    "secret": put_secret,
    "record_fault": _plain(emblem="caution"),
    "content_fault": _plain(emblem="caution"),
}
