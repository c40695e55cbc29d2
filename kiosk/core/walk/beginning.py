"""Where the walk begins: the kiosk's first start, or a lesson that a teacher has opened."""

from __future__ import annotations

from kiosk.core.inputs import (
    Act,
    AdultIssued,
    AskAdult,
    Choose,
    Input,
    KioskBegan,
    LevelsRead,
    PickAdult,
    PinChecked,
    SecretReady,
    TypePin,
)
from kiosk.core.kiosk import EMPTY
from kiosk.core.rules import Past
from kiosk.core.walk.giving import Done, give
from kiosk.core.walk.grounds import OTHER, TEACHER, TECHNICIAN, WORK, Ground
from kiosk.core.walk.spots import NOW, Spot, later
from kiosk.core.walk.tries import PIN

OPEN_LESSON: tuple[Input, ...] = (
    AskAdult("menu"),
    PickAdult(TEACHER.ref),
    TypePin(TEACHER.ref, PIN),
    PinChecked(TEACHER.ref, True),
    Act("open"),
    Act("pre_use_right"),
    Choose("group", "g"),
    Choose("jobs", WORK),
    Choose("jobs", OTHER),
    Act("jobs_done"),
    Choose("length", "60"),
)


def begun(ground: Ground, first: tuple[Input, ...]) -> Done:
    """The kiosk as it first starts, with its two adults and one pupil, and what comes `first`."""
    done = Done(Spot(EMPTY, Past()), NOW)
    give(ground, done, KioskBegan(ground.shop.machine.id, "walk", "first"))
    for adult in (TEACHER, TECHNICIAN):
        give(ground, done, AdultIssued(adult.ref, adult.role, "walk"))
        give(ground, done, SecretReady(adult.ref, "badge", "walk"))
    pupil = ground.shop.roster.groups[0].pupils[0]
    give(ground, done, LevelsRead(((pupil.ref, pupil.level.word),)))
    for what in first:
        done.now = later(done.now, 1.0)
        give(ground, done, what)
    assert not done.broken, done.broken[0]
    return done
