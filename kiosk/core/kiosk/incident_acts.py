"""What an adult does about a near miss or an incident: cause, action, review, closing.

Whether it has to be reported to anybody outside is for the responsible person to judge.
"""

from __future__ import annotations

from kiosk.core.events import FollowedUp, IncidentClosed, Noted, PageOpened, ReviewSaid
from kiosk.core.inputs import Act, NoteKept, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.incidents import PARTS, Incident
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment

_ABOUT = ("incidents", "incident", "follow", "review", "hazard_reviewed", "close_incident")


def incident_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch about incidents; None if it is about something else."""
    if not isinstance(touch, Act) or touch.what not in _ABOUT or not kiosk.desk.signed:
        return None
    if not is_free(kiosk):
        return refused("session_open")
    return _done(kiosk, touch.what, touch.about, kiosk.desk.signed)


def _done(kiosk: Kiosk, what: str, about: str, by: str) -> Decided:
    note, _, more = about.partition(" ")
    found = kiosk.incidents.find(note)
    match what:
        case "incidents":
            return took(PageOpened("incidents"))
        case "hazard_reviewed" if about in kiosk.incidents.marked:
            return took(ReviewSaid(by, "", about, "yes"), PageOpened("incidents"))
        case "incident" if found:
            return took(PageOpened("incident", note))
        case "follow" if found and more in PARTS:
            return took(PageOpened("follow", about))
        case "review" if found and more in ("yes", "no"):
            return took(ReviewSaid(by, note, found.hazard, more), PageOpened("incident", note))
        case "close_incident" if found:
            return _closed(found, by)
    return NOTHING


def _closed(incident: Incident, by: str) -> Decided:
    if not incident.is_answered:
        return refused("follow_first")
    return took(IncidentClosed(by, incident.note), PageOpened("incidents"))


def note_kept(kiosk: Kiosk, given: NoteKept) -> Decided:
    """The note's text is kept apart; its event follows, and the page it was opened from."""
    by = kiosk.desk.signed
    if not by:
        return NOTHING
    if kiosk.desk.page == "follow":
        return _followed(kiosk, given, by)
    noted = Noted(by, given.note, given.what, given.hazard, given.digest)
    back = PageOpened("clear", "noted") if kiosk.desk.about == "clear" else PageOpened("menu")
    return took(noted, back)


def _followed(kiosk: Kiosk, given: NoteKept, by: str) -> Decided:
    of, _, part = kiosk.desk.about.partition(" ")
    if kiosk.incidents.find(of) is None:
        return NOTHING
    done = FollowedUp(by, of, part, given.note, given.digest)
    return took(done, PageOpened("incident", of))
