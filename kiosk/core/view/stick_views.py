"""The screens about a stick: what to take away, and how far it has come."""

from __future__ import annotations

from kiosk.core.inputs import Act, LeavePage
from kiosk.core.kiosk.stick_acts import SPANS
from kiosk.core.view.scene import Scene, choice, head, leave
from kiosk.core.view.shape import Button, Progress, View


def span_view(scene: Scene) -> View:
    """How much of the record to take away."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("form.span"),
        choices=tuple(choice(scene.say(f"span.{s}"), Act("download", s)) for s in SPANS),
        buttons=(leave(scene),),
    )


def download_view(scene: Scene) -> View:
    """How far the download has come, and how it ended."""
    desk = scene.kiosk.desk
    key = desk.why or "running"
    done = Button(scene.say("button.done"), LeavePage(), "main", live=bool(desk.why))
    word = scene.say("download.progress", done=desk.done, whole=desk.whole)
    return View(
        screen="download",
        head=head(scene),
        title=scene.say("download.title", span=scene.say(f"span.{desk.about}")),
        lines=scene.lines(f"download.{key}"),
        progress=Progress(desk.done, max(desk.whole, 1), word) if not desk.why else None,
        buttons=(done,),
    )
