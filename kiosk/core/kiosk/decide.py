"""`decide`: what an input leads to, given the state and the time. Pure."""

from __future__ import annotations

from kiosk.core.events import (
    AdultAdded,
    AdultAuthorised,
    AdultRevoked,
    ClockStepped,
    CodesIssued,
    Downloaded,
    DownloadFailed,
    Erased,
    Event,
    KioskStarted,
    KioskStopped,
    LevelSet,
    PinIssued,
    Progressed,
    Purged,
    SessionEnded,
)
from kiosk.core.inputs import (
    Act,
    AdultAllowed,
    AdultEnded,
    AdultIssued,
    AdultNamed,
    BadgeChecked,
    ClockMoved,
    CodeChecked,
    DeadlinePassed,
    DownloadEnded,
    DownloadMoved,
    EraseAsked,
    Input,
    KioskBegan,
    KioskEnding,
    LevelsRead,
    LevelsShared,
    NoteKept,
    PackageIn,
    PackageRead,
    PinChecked,
    PurgeReady,
    ReadingIs,
    RosterRead,
    SecretReady,
    SheetEnded,
    SheetRead,
    Touch,
    Touched,
)
from kiosk.core.kiosk.adult_acts import adult_acts, pin_checked
from kiosk.core.kiosk.allowed import may
from kiosk.core.kiosk.badge_acts import badge_acts, badge_checked, code_checked
from kiosk.core.kiosk.care_acts import care_acts
from kiosk.core.kiosk.deadlines import deadline_passed
from kiosk.core.kiosk.everyone import everyone_acts
from kiosk.core.kiosk.fitted import fitted
from kiosk.core.kiosk.incident_acts import incident_acts, note_kept
from kiosk.core.kiosk.job_acts import job_acts
from kiosk.core.kiosk.lesson_acts import lesson_acts
from kiosk.core.kiosk.level_acts import level_acts
from kiosk.core.kiosk.line_acts import line_acts
from kiosk.core.kiosk.office_acts import office_acts
from kiosk.core.kiosk.people_acts import adult_named, people_acts, secret_ready
from kiosk.core.kiosk.piloting import pilot_acts
from kiosk.core.kiosk.pupil_acts import pupil_acts
from kiosk.core.kiosk.question_acts import question_acts
from kiosk.core.kiosk.readings import reading_is
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.rosters import levels_shared, roster_taken
from kiosk.core.kiosk.sheet_acts import sheet_acts, sheet_ended, sheet_read
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.kiosk.silence import silence_acts
from kiosk.core.kiosk.stick_acts import package_in, package_read, stick_acts
from kiosk.core.kiosk.trouble_acts import trouble_acts
from kiosk.core.units import Moment


def decide(shop: Shop, kiosk: Kiosk, given: Input, now: Moment) -> Decided:
    """What follows from an input. An input with no meaning just now leads to nothing."""
    shop = fitted(shop, kiosk)
    match given:
        case Touched(_, touch) | (Touch() as touch):
            return _touch(shop, kiosk, touch, now)
        case ReadingIs():
            return reading_is(kiosk, given, now)
        case DeadlinePassed(kind):
            return deadline_passed(shop, kiosk, kind, now)
        case PinChecked():
            return pin_checked(shop, kiosk, given, now)
        case NoteKept():
            return note_kept(kiosk, given)
    done = _from_workers(shop, kiosk, given, now)
    return done if done is not None else from_outside(kiosk, given)


def _from_workers(shop: Shop, kiosk: Kiosk, given: Input, now: Moment) -> Decided | None:
    match given:
        case BadgeChecked():
            return badge_checked(shop, kiosk, given, now)
        case CodeChecked():
            return code_checked(shop, kiosk, given, now)
        case AdultNamed():
            return adult_named(shop, kiosk, given, now)
        case PackageRead():
            return package_read(kiosk, given)
        case SheetRead():
            return sheet_read(kiosk, given)
        case SheetEnded():
            return sheet_ended(kiosk, given)
    return None


def _touch(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided:
    """Each kind of touch belongs to one file; the first that knows it answers."""
    signed = kiosk.desk.signed if isinstance(touch, Act) else ""
    if signed and isinstance(touch, Act) and not may(shop, kiosk, signed, touch.what, now):
        return refused("not_allowed")
    done = everyone_acts(kiosk, touch) or trouble_acts(shop, kiosk, touch)
    if done is not None:
        return done
    for acts in _AT_THE_DESK if signed else _ACTS:
        done = acts(shop, kiosk, touch, now)
        if done is not None:
            return done
    return NOTHING


_ACTS = (pupil_acts, line_acts, adult_acts, badge_acts, question_acts, office_acts)
_AT_THE_DESK = (  # only what an adult who is signed in asks for
    stick_acts,
    sheet_acts,
    people_acts,
    care_acts,
    incident_acts,
    job_acts,
    pilot_acts,
    silence_acts,
    level_acts,
    lesson_acts,
    office_acts,
)


def from_outside(kiosk: Kiosk, given: Input) -> Decided:
    """What follows from a command or the software itself; no workshop is asked."""
    match given:
        case KioskBegan(machine, software, after, content):
            cut = (SessionEnded("cut_short"),) if kiosk.session else ()
            return took(KioskStarted(machine, software, after, content), *cut)
        case KioskEnding():
            return took(KioskStopped())
        case ClockMoved(by_us, quality):
            return took(ClockStepped(by_us, quality))
        case LevelsRead(levels):
            new = [(ref, word) for ref, word in levels if not kiosk.pupils.has(ref)]
            return took(*(LevelSet(ref, word, "roster") for ref, word in new))
        case AdultIssued():
            return took(*_issued(kiosk, given))
        case AdultAllowed(adult, where, until, by) if kiosk.adults.find(adult):
            return took(AdultAuthorised(adult, where, until, by))
        case SecretReady():
            return secret_ready(kiosk, given)
        case RosterRead():
            return took(*roster_taken(kiosk, given))
        case LevelsShared():
            return took(*levels_shared(kiosk, given))
        case AdultEnded(adult, by) if kiosk.adults.find(adult):
            return took(AdultRevoked(adult, by))
        case EraseAsked(what, ref, why):
            ended = (AdultRevoked(ref, why),) if kiosk.adults.find(ref) else ()
            return took(*ended, Erased(what, ref, why))
        case PurgeReady(first, last, head):
            return took(Purged(first, last, head))
        case DownloadMoved(done, whole):
            return took(Progressed("download", done, whole))
        case DownloadEnded():
            return took(_download_ended(given))
        case PackageIn():
            return package_in(kiosk, given)
    return NOTHING


def _issued(kiosk: Kiosk, given: AdultIssued) -> tuple[Event, ...]:
    known = kiosk.adults.find(given.adult)
    new = known is None or known.role != given.role
    added = (AdultAdded(given.adult, given.role, given.by),) if new else ()
    ref, by = given.adult, given.by
    codes = (CodesIssued(ref, given.codes, by),) if given.codes else ()
    until = (AdultAuthorised(ref, given.machine, given.until, by),) if given.machine else ()
    return (*added, PinIssued(ref, by), *codes, *until)


def _download_ended(given: DownloadEnded) -> Event:
    if given.why:
        return DownloadFailed(given.span, given.why)
    return Downloaded(given.span, given.first, given.last, given.head)
