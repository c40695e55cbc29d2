"""The screens for training levels: which pupil, which bits, which level, what was watched."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.allowed import today
from kiosk.core.kiosk.level_acts import pupil_in
from kiosk.core.kiosk.levels import bit_classes, grant_of, is_beside, level_now, stands
from kiosk.core.kiosk.pupils import PLAIN
from kiosk.core.model import Level
from kiosk.core.view.scene import Scene, choice, head, to_page
from kiosk.core.view.shape import Button, View
from kiosk.core.words import capital

TITLES = ("group", "pupil", "bits", "to", "watched")


def level_view(scene: Scene) -> View:
    """The next question of five; each answer is added to what the page is about."""
    said = tuple(scene.kiosk.desk.about.split())
    makers = (_groups, _pupils, _bits, _levels, _watched)
    back = ("level", " ".join(said[:-1])) if len(said) > 1 else ("menu", "")
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"level.{TITLES[len(said)]}"),
        lines=_standing(scene, said),
        choices=makers[len(said)](scene, said),
        buttons=(to_page(scene, *back),),
    )


def _standing(scene: Scene, said: tuple[str, ...]) -> tuple[str, ...]:
    """Where the pupil stands now with these bits."""
    pupil = pupil_in(scene.shop, said[0], said[1]) if len(said) == 3 else None
    if pupil is None:
        return ()
    bit = "" if said[2] == PLAIN else said[2]
    level = level_now(scene.shop, scene.kiosk, pupil, bit, scene.now)
    lines = (scene.say("level.now", number=pupil.number, level=scene.level(level.word)),)
    grant = grant_of(scene.shop, scene.kiosk, pupil.ref, said[2])
    over = grant and not stands(scene.shop, grant, today(scene.kiosk, scene.now))
    return (*lines, scene.say("level.lapsed")) if over else lines


def _groups(scene: Scene, said: tuple[str, ...]) -> tuple[Button, ...]:
    return tuple(choice(g.name, Act("level", g.id)) for g in scene.shop.roster.groups)


def _pupils(scene: Scene, said: tuple[str, ...]) -> tuple[Button, ...]:
    group = scene.shop.roster.group(said[0])
    return tuple(
        choice(f"{p.number}\n{p.name}".strip(), _to(said, p.ref), look="number")
        for p in (group.pupils if group else ())
        if not p.visitor
    )


def _bits(scene: Scene, said: tuple[str, ...]) -> tuple[Button, ...]:
    """The classes of bits, and an adult always beside."""
    pupil = pupil_in(scene.shop, said[0], said[1])
    found = tuple(choice(_class(scene, c), _to(said, c)) for c in bit_classes(scene.shop))
    if pupil is None or pupil.beside:
        return found
    word = "level.beside_no" if is_beside(scene.kiosk, pupil) else "level.beside_yes"
    return (*found, choice(scene.say(word), Act("level_beside", " ".join(said))))


def _class(scene: Scene, bits: str) -> str:
    return scene.say("level.plain") if bits == PLAIN else capital(scene.say(f"bit.{bits}"))


def _levels(scene: Scene, said: tuple[str, ...]) -> tuple[Button, ...]:
    return tuple(choice(capital(scene.level(one.word)), _to(said, one.word)) for one in Level)


def _watched(scene: Scene, said: tuple[str, ...]) -> tuple[Button, ...]:
    watched = scene.shop.content.people.watched
    return tuple(choice(scene.say(f"watched.{w}"), _to(said, w)) for w in watched)


def _to(said: tuple[str, ...], answer: str) -> Act:
    return Act("level", " ".join((*said, answer)))
