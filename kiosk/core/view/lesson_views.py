"""The screens on which an adult changes an open lesson."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.hours import (
    NEVER_SET,
    SECOND_US,
    clock_text,
    date_text,
    is_sure,
    is_unsure_of_hours,
    span_now,
)
from kiosk.core.kiosk.lesson_acts import LONGER_MIN, TIGHTER
from kiosk.core.kiosk.silence import QUIET_MIN
from kiosk.core.model import QuietSpan
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


def quiet_choices(scene: Scene) -> tuple[str, ...]:
    """What an adult can do about silence now; the timetable's ends only where its clock may err."""
    kiosk, now = scene.kiosk, scene.now
    if kiosk.care.silence:
        return ("quiet_end",)
    if span_now(scene.shop, kiosk, now):
        return () if is_sure(now) else ("hours_wrong",)
    return ("own_use", "quiet")


def hours_lines(scene: Scene, span: QuietSpan) -> tuple[str, ...]:
    """The hours that hold, and whether the clock that they go by is sure."""
    start, end = (clock_text(at, span.offset_s) for at in (span.start_s, span.end_s))
    told = scene.lines("idle.hours.say", start=start, end=end)
    return told if is_sure(scene.now) else (*told, scene.say("hours.doubtful"))


def _clock_line(scene: Scene, offset_s: int) -> str:
    """What the clock said as the page was opened: a text that ticks would hold fingers back."""
    at = scene.kiosk.desk.since or scene.now
    wall_s = at.wall_us // SECOND_US
    day, time = date_text(wall_s, offset_s), clock_text(wall_s, offset_s)
    return scene.say("hours.unsure", day=day, time=time)


def unsure_lines(scene: Scene) -> tuple[str, ...]:
    """Told to adults while hours go by a clock that may be wrong, or can't go by it at all."""
    if not is_unsure_of_hours(scene.shop, scene.now):
        return ()
    if scene.now.quality == NEVER_SET:
        return (scene.say("hours.never_set"),)
    wall_s = scene.now.wall_us // SECOND_US
    coming = next(s for s in scene.shop.content.quiet if wall_s < s.end_s)
    return (_clock_line(scene, coming.offset_s),)


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
