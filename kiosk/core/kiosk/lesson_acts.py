"""What an adult changes about an open lesson: longer, or tighter than the school asks for."""

from __future__ import annotations

from kiosk.core.events import LessonLengthened, LessonTightened, PageOpened
from kiosk.core.inputs import Act, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.lesson import Lesson
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment

LONGER_MIN = (5, 10, 15, 20)
TIGHTER = ("every_hole", "no_spell", "no_more")
_ABOUT = ("longer", "longer_by", "tighter", "tighten")


def lesson_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from an adult's touch about the open lesson; None if it is something else."""
    if not isinstance(touch, Act) or touch.what not in _ABOUT or not kiosk.desk.signed:
        return None
    if not is_free(kiosk):
        return refused("session_open")
    return _changed(kiosk, kiosk.lesson, touch) if kiosk.lesson else NOTHING


def _changed(kiosk: Kiosk, lesson: Lesson, touch: Act) -> Decided:
    adult, about = kiosk.desk.signed, touch.about
    match touch.what:
        case "longer" | "tighter":
            return took(PageOpened(touch.what))
        case "longer_by" if about in {str(n) for n in LONGER_MIN}:
            return took(LessonLengthened(adult, int(about) * 60), PageOpened("menu"))
        case "tighten" if about in TIGHTER and about not in lesson.tighter:
            return took(LessonTightened(adult, about), PageOpened("tighter"))
    return NOTHING
