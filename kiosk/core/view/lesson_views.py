"""The screens on which an adult changes an open lesson."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.lesson_acts import LONGER_MIN, TIGHTER
from kiosk.core.kiosk.silence import QUIET_MIN
from kiosk.core.view.scene import Scene, choice, head, to_page
from kiosk.core.view.shape import Button, View


def longer_view(scene: Scene) -> View:
    """By how much the lesson gets longer."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("form.longer"),
        choices=tuple(
            choice(scene.say("form.minutes", n=n), Act("longer_by", str(n))) for n in LONGER_MIN
        ),
        buttons=(to_page(scene, "menu"),),
    )


def quiet_view(scene: Scene) -> View:
    """For how long nobody begins."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("form.quiet"),
        lines=scene.lines("form.quiet.say"),
        choices=tuple(
            choice(scene.say("form.minutes", n=n), Act("quiet", str(n))) for n in QUIET_MIN
        ),
        buttons=(to_page(scene, "menu"),),
    )


def tighter_view(scene: Scene) -> View:
    """What the adult asks for in this lesson beyond the school's rules; it is not taken back."""
    asked = scene.kiosk.lesson.tighter if scene.kiosk.lesson else ()
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("form.tighter"),
        lines=scene.lines("form.tighter.say"),
        choices=tuple(_tighter(scene, what, what in asked) for what in TIGHTER),
        buttons=(to_page(scene, "menu"),),
    )


def _tighter(scene: Scene, what: str, asked: bool) -> Button:
    label = scene.say(f"tighter.{what}")
    if asked:
        label = scene.say("form.picked", job=label)
    return Button(label, Act("tighten", what), "picked" if asked else "choice", live=not asked)
