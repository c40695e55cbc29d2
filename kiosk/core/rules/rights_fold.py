"""How the judge's memory of people grows: who is let in, with what, and what pupils were given."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.rules.past import Here, House, Past, Try
from kiosk.core.values import replace


def tried_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    """A badge is nobody's yet; a spare code is its adult's."""
    event = entry.event
    assert isinstance(event, ev.BadgeTried | ev.CodeTried)
    return replace(past, tried=Try(str(getattr(event, "adult", "")), event.purpose))


def passed_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    """Let in by a badge or a spare code, if the screen it was tried at still stands."""
    event, tried = entry.event, past.tried
    assert isinstance(event, ev.BadgePassed | ev.CodePassed)
    fits = tried is not None and tried.stands and tried.purpose == event.purpose
    if tried is None or not fits or tried.adult not in ("", event.adult):
        return replace(past, tried=None, passed=None)
    signed = event.adult if event.purpose in ("menu", "clear", "resume") else ""
    return replace(past, tried=None, passed=replace(tried, adult=event.adult), signed=signed)


def adult_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    """An adult comes, or goes and is neither signed in nor at the drill any more."""
    event = entry.event
    assert isinstance(event, ev.AdultAdded | ev.AdultRevoked)
    ref, added = event.adult, isinstance(event, ev.AdultAdded)
    roles = tuple(r for r in past.roles if r[0] != ref)
    until = tuple(u for u in past.until if u[0] != ref)
    technicians = tuple(t for t in past.technicians if t != ref)
    if isinstance(event, ev.AdultAdded):
        roles = (*roles, (ref, event.role))
        technicians = (*technicians, ref) if event.role == "technician" else technicians
    wrong = tuple(w for w in past.wrong if w[0] != ref)
    past = replace(past, roles=roles, until=until, technicians=technicians, wrong=wrong)
    if not added and past.deputy == ref:
        past = replace(past, deputy="")
    if not added and past.signed == ref:
        past = replace(past, signed="")
    if not added and past.spell == ref:
        past = replace(past, spell="", spell_last=None)
    return past


def pin_issued_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    """A new PIN has never been guessed at; one that is being checked is not it."""
    event = entry.event
    assert isinstance(event, ev.PinIssued)
    past = replace(past, wrong=tuple(w for w in past.wrong if w[0] != event.adult))
    gone = past.tried is not None and past.tried.adult == event.adult
    return replace(past, tried=None) if gone else past


def authorised_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.AdultAuthorised)
    others = tuple(u for u in past.until if u[:2] != (event.adult, event.machine))
    return replace(past, until=(*others, (event.adult, event.machine, event.until)))


def level_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.LevelSet | ev.LevelGranted | ev.LevelKept)
    given = (event.pupil, event.level)
    return past if given in past.levels else replace(past, levels=(*past.levels, given))


def beside_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.BesideSet)
    others = tuple(b for b in past.beside if b != event.pupil)
    return replace(past, beside=(*others, event.pupil) if event.on else others)
