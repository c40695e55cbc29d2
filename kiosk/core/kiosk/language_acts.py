"""A pupil's own language and habits: where they are chosen, and whose screen stands.

Which language a pupil reads, and how large, says something of a person. It is in no event and not
in the state: the runtime keeps it beside the pupil's number and hands it in with the shop.
"""

from __future__ import annotations

from kiosk.core.events import DeskCleared, PageOpened
from kiosk.core.kiosk.asks import pupil_numbered
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, took
from kiosk.core.session import Session

PUPILS_PAGES = ("", "job", "language", "wrong", "finished")
BEFORE_A_TURN = ("job", "language", "question", "reason", "line_job", "line_ready")


def whose_screen(shop: Shop, kiosk: Kiosk) -> str:
    """The reference of the pupil whose screen stands; empty for adults' and the room's."""
    desk, session = kiosk.desk, kiosk.session
    if session and (session.is_drilling or desk.page in PUPILS_PAGES):
        return session.pupil
    if desk.page in BEFORE_A_TURN:
        pupil = pupil_numbered(shop, kiosk, int(desk.about)) if desk.about.isdecimal() else None
        return pupil.ref if pupil else ""
    return desk.answer("pupil") if desk.page == "finished" else ""


def language_offered(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether a language may be chosen here: beside the jobs, and at the very first step."""
    if kiosk.session is None:
        return kiosk.desk.page == "job"
    return kiosk.desk.page == "" and _is_at_its_start(kiosk.session)


def _is_at_its_start(session: Session) -> bool:
    new = session.at == 0 and session.done == 0 and session.path in ("fresh", "joining")
    return new and session.halt is None and session.allowed and not session.asked


def open_languages(shop: Shop, kiosk: Kiosk) -> Decided:
    """The page of languages, for the pupil whose turn it is."""
    if not language_offered(shop, kiosk):
        return NOTHING
    about = kiosk.desk.about if kiosk.session is None else ""
    return took(PageOpened("language", about))


def habit_turned(kiosk: Kiosk) -> Decided:
    """The same page again, as it now is."""
    desk = kiosk.desk
    return took(PageOpened("language", desk.about)) if desk.page == "language" else NOTHING


def back_from_languages(kiosk: Kiosk) -> Decided:
    """Back to where the page was opened from."""
    if kiosk.session is None and kiosk.desk.about:
        return took(PageOpened("job", kiosk.desk.about))
    return took(DeskCleared())
