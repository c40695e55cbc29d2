"""*Questions before you drill*: one at a time, the reason after each, until all were right.

What is still to be answered lies on the desk. Nothing is counted: the record only tells that a
pupil has answered them all.
"""

from __future__ import annotations

from kiosk.core.events import Chosen, DeskCleared, PageOpened, QuestionsAnswered
from kiosk.core.inputs import Choose, OpenPage, Touch
from kiosk.core.kiosk.asks import may_drill, pupil_numbered
from kiosk.core.kiosk.mixing import mixed
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.model import Question
from kiosk.core.units import Moment


def question_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch about the questions; None if it is about something else."""
    match touch:
        case OpenPage("questions", number) if number.isdigit():
            return _begin(shop, kiosk, int(number), now)
        case Choose("answer", answer) if kiosk.desk.page == "question":
            return _answer(shop, kiosk, answer)
        case Choose("go_on", _) if kiosk.desk.page == "reason":
            return _go_on(shop, kiosk)
    return None


def _begin(shop: Shop, kiosk: Kiosk, number: int, now: Moment) -> Decided:
    questions = shop.content.people.questions
    if kiosk.session or not questions or not may_drill(shop, kiosk, now):
        return refused("no_lesson")
    if pupil_numbered(shop, kiosk, number) is None:
        return refused("no_lesson")
    left = mixed((q.id for q in questions), now.us)
    asked = (Chosen("left", ",".join(left)), Chosen("seed", str(now.us)))
    return took(DeskCleared(), *asked, PageOpened("question", str(number)))


def question_asked(shop: Shop, kiosk: Kiosk) -> Question | None:
    """The question that stands, or whose reason is shown."""
    desk = kiosk.desk
    id = desk.answer("asked") if desk.page == "reason" else (*desk.picked("left"), "")[0]
    return next((q for q in shop.content.people.questions if q.id == id), None)


def _answer(shop: Shop, kiosk: Kiosk, answer: str) -> Decided:
    """A wrong one is asked again after the others."""
    question, left = question_asked(shop, kiosk), kiosk.desk.picked("left")
    if question is None or answer not in question.answers:
        return NOTHING
    after = left[1:] if answer == question.right else (*left[1:], question.id)
    said = (Chosen("left", ",".join(after)), Chosen("asked", question.id), Chosen("said", answer))
    return took(*said, PageOpened("reason", kiosk.desk.about))


def _go_on(shop: Shop, kiosk: Kiosk) -> Decided:
    about = kiosk.desk.about
    if kiosk.desk.picked("left"):
        return took(PageOpened("question", about))
    pupil = pupil_numbered(shop, kiosk, int(about))
    answered = (QuestionsAnswered(pupil.ref),) if pupil else ()
    return took(*answered, PageOpened("job", about))
