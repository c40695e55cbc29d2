"""Who may use the kiosk, and at what level, as events: for a log that begins anew."""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.core.events import (
    AdultAdded,
    AdultAuthorised,
    BadgeIssued,
    BesideSet,
    CodesIssued,
    Event,
    LevelKept,
    QuestionsAnswered,
)
from kiosk.core.kiosk import Kiosk
from kiosk.core.kiosk.adults import AdultState

BY = "record"


def adult_events(adult: AdultState) -> Iterator[Event]:
    """An adult's role, where and how long it holds, and what the adult is let in with."""
    yield AdultAdded(adult.ref, adult.role, BY)
    yield from (AdultAuthorised(adult.ref, where, until, BY) for where, until in adult.until)
    if adult.badge:
        yield BadgeIssued(adult.ref, BY)
    if adult.codes:
        yield CodesIssued(adult.ref, adult.codes, BY)


def pupil_events(kiosk: Kiosk) -> Iterator[Event]:
    """Training levels with their days, who has an adult beside, who has answered the questions."""
    pupils = kiosk.pupils
    for g in pupils.grants:
        word = g.level.word
        yield LevelKept(g.pupil, word, g.alike, g.bits, g.since, g.until, g.used, BY)
    yield from (BesideSet(ref, 1, BY) for ref in pupils.beside)
    yield from (QuestionsAnswered(ref) for ref in pupils.answered)
