"""The periodic checks: what is due when, and what was found."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.allowed import today
from kiosk.core.kiosk.care_acts import AGO_DAYS
from kiosk.core.model import InstallationCheck
from kiosk.core.units import day_named
from kiosk.core.view.scene import Scene, choice, head, to_page
from kiosk.core.view.shape import Button, View

SOON_DAYS = 14  # common practice: what is due is told a fortnight ahead


def checks_due(scene: Scene, key: str = "care.due") -> tuple[str, ...]:
    """How many periodic checks are due, overdue or not entered yet; nothing if none is."""
    due = [c for c in _checks(scene) if _days_left(scene, c) <= SOON_DAYS]
    return (scene.say(key, n=len(due)),) if due else ()


def _checks(scene: Scene) -> tuple[InstallationCheck, ...]:
    return scene.shop.content.assessment.installation


def _days_left(scene: Scene, check: InstallationCheck) -> int:
    """Days until a check is due; below 0 once it is over, where it was wrong or never entered."""
    done = scene.kiosk.care.check(check.id)
    if done is None or done.found == "wrong":
        return -1
    return check.due(done.day) - today(scene.kiosk, scene.now)


def _due_text(scene: Scene, check: InstallationCheck) -> str:
    done = scene.kiosk.care.check(check.id)
    if done is None:
        return scene.say("checks.never")
    if done.found == "wrong":
        return scene.say("checks.wrong")
    key = "checks.due" if _days_left(scene, check) >= 0 else "checks.over"
    return scene.say(key, day=day_named(check.due(done.day)))


def checks_view(scene: Scene) -> View:
    """All installation checks, what is due first on top."""
    first = sorted(_checks(scene), key=lambda check: _days_left(scene, check))
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("checks.title"),
        choices=tuple(
            choice(f"{scene.say(f'control.{c.id}')}\n{_due_text(scene, c)}", Act("check", c.id))
            for c in first
        ),
        buttons=(to_page(scene, "care"),),
    )


def check_view(scene: Scene) -> View:
    """One check: what is looked at, and when it was seen to be right."""
    id = scene.kiosk.desk.about
    check = next(c for c in _checks(scene) if c.id == id)
    wrong = Button(scene.say("checks.not_right"), Act("checked", f"{id} wrong 0"))
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"control.{id}"),
        lines=(scene.say(f"look.{id}"), *_entered(scene, check), *_stops(scene, check)),
        choices=tuple(
            choice(scene.say(f"checks.right_{n}"), Act("checked", f"{id} right {n}"))
            for n in AGO_DAYS
        ),
        buttons=(to_page(scene, "checks"), wrong),
    )


def _entered(scene: Scene, check: InstallationCheck) -> tuple[str, ...]:
    """When the check is due, and when and by whom it was last entered."""
    due, done = _due_text(scene, check), scene.kiosk.care.check(check.id)
    if done is None:
        return (due,)
    last = scene.say("checks.last", day=day_named(done.day), name=scene.adult_name(done.adult))
    return (due, last)


def _stops(scene: Scene, check: InstallationCheck) -> tuple[str, ...]:
    return (scene.say("checks.stops"),) if check.out_of_use else ()
