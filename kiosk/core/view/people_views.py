"""The screens on which a technician sees to adults: who, what they are let in with, how long."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.allowed import days_left, is_authorised, last_day, today
from kiosk.core.kiosk.people_acts import ENDS_DAYS
from kiosk.core.model import MAY, STANDING, Adult
from kiosk.core.view.scene import Scene, choice, head, leave, to_page
from kiosk.core.view.shape import Button, Keys, View

GROUP = 5  # digits of a spare code are read in fives, those of a PIN in threes


def people_view(scene: Scene) -> View:
    """All adults who are known, and a new one."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("people.title"),
        choices=tuple(choice(adult_label(scene, a), Act("person", a.ref)) for a in scene.adults),
        buttons=(to_page(scene, "menu"), Button(scene.say("people.new"), Act("role"))),
    )


def adult_label(scene: Scene, adult: Adult) -> str:
    """The name, and under it the role or that it has ended."""
    state = scene.kiosk.adults.find(adult.ref)
    role = state.role if state else adult.role
    holds = is_authorised(scene.shop, scene.kiosk, adult.ref, scene.now)
    return f"{adult.name}\n{scene.say(f'role.{role}' if holds else 'people.ended')}"


def person_view(scene: Scene) -> View:
    """One adult: what can be changed."""
    ref = scene.kiosk.desk.about
    acts = (
        ("pin", Act("secret", f"{ref} pin")),
        ("badge", Act("badge", ref)),
        ("codes", Act("secret", f"{ref} codes")),
        ("until", Act("until", ref)),
        ("revoke", Act("revoke_ask", ref)),
    )
    return View(
        screen="menu",
        head=head(scene),
        title=scene.adult_name(ref),
        lines=(end_line(scene, ref),),
        choices=tuple(choice(scene.say(f"person.{name}"), act) for name, act in acts),
        buttons=(to_page(scene, "people"),),
    )


def end_line(scene: Scene, ref: str) -> str:
    """How long the adult's authorisation on this drill holds."""
    last = last_day(scene.shop, scene.kiosk, ref)
    if last is None:
        return scene.say("person.not_yet")
    if last == 0:
        return scene.say("person.no_end")
    left = last - today(scene.kiosk, scene.now)
    return scene.say("person.days", days=left) if left >= 0 else scene.say("people.ended")


def ending_note(scene: Scene, ref: str) -> tuple[str, ...]:
    """Told to the adult while the end is near."""
    left = days_left(scene.shop, scene.kiosk, ref, scene.now)
    return () if left is None else (scene.say("person.days", days=left),)


def role_view(scene: Scene) -> View:
    """What a new adult may do."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("role.title"),
        choices=tuple(choice(scene.say(f"role.{r}"), Act("person_new", r)) for r in MAY),
        buttons=(to_page(scene, "people"),),
    )


def name_view(scene: Scene) -> View:
    """A new adult's name is typed."""
    role = scene.kiosk.desk.about
    prompt = scene.say("name.prompt")
    return View(
        screen="note",
        head=head(scene),
        title=scene.say(f"role.{role}"),
        keys=Keys(role, "", prompt, scene.say("name.done"), asks="name"),
        buttons=(leave(scene),),
    )


def until_view(scene: Scene) -> View:
    """For how long the adult may use this drill."""
    ref = scene.kiosk.desk.about
    state = scene.kiosk.adults.find(ref)
    ends = (*ENDS_DAYS, *((0,) if state and state.role in STANDING else ()))
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("until.title", name=scene.adult_name(ref)),
        choices=tuple(
            choice(scene.say(f"until.{days}"), Act("authorise", f"{ref} {days}")) for days in ends
        ),
        buttons=(to_page(scene, "person", ref),),
    )


def badge_view(scene: Scene) -> View:
    """The screen waits for a badge."""
    ref = scene.kiosk.desk.about
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("badge.title", name=scene.adult_name(ref)),
        lines=scene.lines("badge.say"),
        buttons=(to_page(scene, "person", ref),),
    )


def issuing_view(scene: Scene) -> View:
    """A moment's work."""
    return View(screen="menu", head=head(scene), title=scene.say("pin.busy"))


def not_issued_view(scene: Scene) -> View:
    """Nothing was kept."""
    ref = scene.kiosk.desk.about
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("not_issued.title"),
        lines=scene.lines("not_issued.say"),
        buttons=(to_page(scene, "person", ref),),
    )


def secret_view(scene: Scene) -> View:
    """What was issued, shown this once. The log of what was shown never has it."""
    what, _, ref = scene.kiosk.desk.about.partition(" ")
    return View(
        screen="secret",
        head=head(scene),
        title=scene.say(f"secret.{what}", name=scene.adult_name(ref)),
        note=scene.say("secret.say"),
        secret=tuple(_grouped(line) for line in scene.kiosk.desk.secret),
        buttons=(Button(scene.say("secret.done"), Act("person", ref), "main"),),
    )


def _grouped(digits: str) -> str:
    size = GROUP if len(digits) == 2 * GROUP else len(digits) // 2
    return f"{digits[:size]} {digits[size:]}"


def revoke_view(scene: Scene) -> View:
    """Asked once more: whoever it is can't use the kiosk afterwards."""
    ref = scene.kiosk.desk.about
    yes = Button(scene.say("revoke.yes"), Act("revoke", ref), "adult")
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("revoke.title", name=scene.adult_name(ref)),
        lines=scene.lines("revoke.say"),
        buttons=(to_page(scene, "person", ref), yes),
    )
