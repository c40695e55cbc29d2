"""Which adult, and the pad: a PIN, or a spare code while the PIN has to wait."""

from __future__ import annotations

from math import ceil

from kiosk.core.inputs import OpenPage, PickAdult
from kiosk.core.kiosk.allowed import is_authorised, may
from kiosk.core.kiosk.asks import spells_allowed
from kiosk.core.kiosk.mixing import mixed
from kiosk.core.kiosk.shop import DESK_FOR_S
from kiosk.core.model import Adult
from kiosk.core.view.people_views import adult_label
from kiosk.core.view.scene import Scene, choice, head, leave
from kiosk.core.view.shape import Button, Pad, View


def names_view(scene: Scene) -> View:
    """Which adult."""
    slipped = scene.kiosk.adults.slipped
    gone = scene.now.since(slipped) if slipped else None
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"names.{scene.kiosk.desk.purpose}"),
        choices=tuple(b for a in scene.adults for b in _name(scene, a)),
        note=scene.say("names.unknown_badge") if gone and gone.s < DESK_FOR_S else "",
        buttons=(leave(scene),),
    )


def _name(scene: Scene, known: Adult) -> tuple[Button, ...]:
    """Who may do it; pale, and told so, who could until a day."""
    shop, kiosk, ref = scene.shop, scene.kiosk, known.ref
    if may(shop, kiosk, ref, kiosk.desk.purpose, scene.now):
        return (choice(known.name, PickAdult(ref)),)
    if is_authorised(shop, kiosk, ref, scene.now):
        return ()
    return (Button(adult_label(scene, known), PickAdult(ref), "choice", live=False),)


def pin_view(scene: Scene) -> View:
    """Six digits beside the text. During a back-off the wait is said, not the pad shown."""
    kiosk, desk = scene.kiosk, scene.kiosk.desk
    left = kiosk.adults.wait_left(desk.adult, scene.now)
    busy = scene.say("pin.busy") if kiosk.adults.trying else ""
    if not busy and left.s > 0:
        busy = scene.say("pin.wait", wait=_wait_words(scene, left.s))
    stays = desk.purpose == "ok" and spells_allowed(scene.shop, kiosk)
    pad = Pad(
        adult=desk.adult,
        name=scene.adult_name(desk.adult),
        stay_label=scene.say("pin.stay") if stays else "",
        busy=busy,
        order=_order(scene),
    )
    state = kiosk.adults.find(desk.adult)
    wrong = state.wrong if state and not kiosk.adults.trying else 0
    return View(
        screen="pin",
        head=head(scene),
        title=scene.say("pin.title", name=pad.name),
        lines=scene.lines(f"pin.{desk.purpose}.say"),
        note=scene.say("pin.wrong", wrong=wrong) if wrong else "",
        pad=pad,
        buttons=(leave(scene), *_spare(scene, left.s)),
    )


def _order(scene: Scene) -> str:
    """How the keys lie: as on any pad, or mixed anew each time where the school wants it."""
    since = scene.kiosk.desk.since
    if not scene.shop.content.people.shuffled or since is None:
        return "1234567890"
    return "".join(mixed("1234567890", since.us))


def _spare(scene: Scene, wait_s: float) -> tuple[Button, ...]:
    """While a PIN must wait, a spare code gets through, if one is left."""
    state = scene.kiosk.adults.find(scene.kiosk.desk.adult)
    if not wait_s or state is None or not state.codes:
        return ()
    return (Button(scene.say("button.code"), OpenPage("code"), "adult"),)


def code_view(scene: Scene) -> View:
    """Ten digits of a spare code, which works once."""
    adult = scene.kiosk.desk.adult
    busy = scene.say("pin.busy") if scene.kiosk.adults.trying else ""
    name = scene.adult_name(adult)
    pad = Pad(adult, name, busy=busy, asks="code", digits=10, order=_order(scene))
    return View(
        screen="pin",
        head=head(scene),
        title=scene.say("code.title", name=name),
        lines=scene.lines("code.say"),
        pad=pad,
        buttons=(leave(scene),),
    )


def _wait_words(scene: Scene, seconds: float) -> str:
    if seconds < 90:
        return scene.say("wait.seconds", n=ceil(seconds / 5) * 5)
    return scene.say("wait.minutes", n=ceil(seconds / 60))
