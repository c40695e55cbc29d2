"""The screens about a stick: what to take away and how far it has come; what it brings in."""

from __future__ import annotations

from kiosk.core.inputs import Act, LeavePage
from kiosk.core.kiosk.stick_acts import READING, SPANS
from kiosk.core.units import day_named, day_of
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


def package_view(scene: Scene) -> View:
    """What the stick brings in, line by line with its date; how taking it in has ended."""
    desk = scene.kiosk.desk
    is_shown = bool(desk.made_us) and not desk.why
    key = "package.title" if desk.made_us else "package.title.bare"
    done = Button(scene.say("button.done"), LeavePage(), "main", live=desk.why != "taking")
    take = Button(scene.say("package.accept"), Act("package_in", desk.about), "adult")
    return View(
        screen="package",
        head=head(scene),
        title=scene.say(key, day=day_named(day_of(desk.made_us))),
        lines=(*scene.lines(f"package.{desk.why or _stands(desk.about)}"), *_package_lines(scene)),
        buttons=(leave(scene), take) if is_shown else (*_restart(scene), done),
    )


def _restart(scene: Scene) -> tuple[Button, ...]:
    """Once it is taken in: what counts from the next start can count now."""
    if scene.kiosk.desk.why != "done":
        return ()
    return (Button(scene.say("care.ask_restart"), Act("ask_restart")),)


def _stands(about: str) -> str:
    """While there is nothing to say against the package."""
    return "reading" if about == READING else "shown"


def _package_lines(scene: Scene) -> tuple[str, ...]:
    """A line's first word chooses its text."""
    return tuple(
        scene.say(f"package.line.{key}", what=what) if key else what
        for key, what in scene.kiosk.desk.lines
    )
