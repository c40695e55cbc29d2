"""The desk: which page is open at the screen and what was answered on it.

Folded from moves, which are never recorded; empty after a restart.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    AdultPicked,
    AdultRevoked,
    BadgePassed,
    BadgeTried,
    BadgeUnknown,
    CheckAsked,
    Chosen,
    CodeFailed,
    CodePassed,
    CodeTried,
    DeskCleared,
    DownloadAsked,
    Downloaded,
    DownloadFailed,
    DrillingShown,
    Entry,
    EveryoneStopped,
    Interrupted,
    InterruptionCleared,
    KioskStarted,
    LessonClosed,
    LessonOpened,
    MistakeCleared,
    NotRight,
    PackageAccepted,
    PackageAsked,
    PackageRefused,
    PackageShown,
    PackageTaken,
    PageOpened,
    PinFailed,
    PinPassed,
    PinTried,
    Progressed,
    RunWithoutOkSeen,
    SecretAsked,
    SecretShown,
    SessionEnded,
    SessionStarted,
    SheetAccepted,
    SheetAsked,
    SheetDone,
    SheetShown,
    StepDone,
    SteppedBack,
    TroubleNamed,
)
from kiosk.core.units import Moment
from kiosk.core.values import replace

_CLEARING = (
    StepDone,
    SteppedBack,
    CheckAsked,
    DeskCleared,
    DrillingShown,
    EveryoneStopped,
    Interrupted,
    KioskStarted,
    LessonClosed,
    LessonOpened,
    MistakeCleared,
    NotRight,
    InterruptionCleared,
    RunWithoutOkSeen,
    SessionStarted,
    TroubleNamed,
)


@dataclass(frozen=True)
class Desk:
    """What lies on the desk.

    `page` and `about`: the page open, if any. `purpose` and `adult`: what a PIN is asked for
    and whose; `typed`: one was, and its page still stands. `signed`: the adult who has shown a
    right PIN and may use the menu. `secret` is what was issued just now, shown once. `lines` and
    `made_us` are of the package that a stick brings in, `parts` of the sheet that is read.
    """

    page: str = ""
    about: str = ""
    purpose: str = ""
    adult: str = ""
    typed: bool = False
    signed: str = ""
    answers: tuple[tuple[str, str], ...] = ()
    since: Moment | None = None
    done: int = 0
    whole: int = 0
    why: str = ""
    secret: tuple[str, ...] = ()
    lines: tuple[tuple[str, str], ...] = ()
    made_us: int = 0
    parts: tuple[tuple[str, ...], ...] = ()

    def answer(self, what: str) -> str:
        """The answer given to `what`, or an empty string."""
        return dict(self.answers).get(what, "")

    def picked(self, what: str) -> tuple[str, ...]:
        """The several answers given to `what`."""
        return tuple(v for v in self.answer(what).split(",") if v)


def advance_desk(desk: Desk, entry: Entry) -> Desk:
    """The desk after the entry."""
    if isinstance(entry.event, _CLEARING):
        return Desk()
    after = _advance_page(desk, entry)
    return _advance_sheet(_advance_package(_advance_work(after, entry), entry), entry)


def _advance_page(desk: Desk, entry: Entry) -> Desk:
    match entry.event:
        case PageOpened("names", about):
            return replace(desk, page="names", purpose=about, adult="", typed=False, since=entry.at)
        case PageOpened("wrong"):
            return Desk(page="wrong", since=entry.at)  # whoever was at the desk has left it
        case PageOpened(page, about):
            opened = replace(desk, page=page, about=about, typed=False, since=entry.at)
            return replace(opened, secret=())
        case AdultPicked(adult):
            return replace(desk, page="pin", adult=adult, typed=False, since=entry.at)
        case Chosen(what, value):
            others = tuple(a for a in desk.answers if a[0] != what)
            return replace(desk, answers=(*others, (what, value)), since=entry.at)
        case PinTried(_, purpose) | BadgeTried(purpose) | CodeTried(_, purpose):
            return replace(desk, typed=True, purpose=purpose)
        case (
            PinPassed(adult, purpose) | BadgePassed(adult, purpose) | CodePassed(adult, purpose)
        ) if desk.typed:
            signed = adult if purpose in ("menu", "clear") else ""
            return Desk(signed=signed, since=entry.at)
        case PinFailed() | BadgeUnknown() | CodeFailed():
            return replace(desk, typed=False, since=entry.at)
        case AdultRevoked(ref) if ref in (desk.signed, desk.adult):
            return Desk()
        case SessionEnded(how) if how != "cut_short":
            return Desk(page="finished", about=how, since=entry.at)
    return desk


def _advance_work(desk: Desk, entry: Entry) -> Desk:
    match entry.event:
        case SecretAsked(about, what):
            return replace(desk, page="issuing", about=f"{what} {about}", since=entry.at)
        case SecretShown(lines):
            return replace(desk, page="secret", secret=lines, since=entry.at)
        case DownloadAsked(_, span):
            return replace(
                desk, page="download", about=span, done=0, whole=0, why="", since=entry.at
            )
        case Progressed(_, done, whole):
            return replace(desk, done=done, whole=whole, since=entry.at)
        case Downloaded():
            return replace(desk, why="done", since=entry.at) if desk.page == "download" else desk
        case DownloadFailed(_, why):
            return replace(desk, why=why, since=entry.at) if desk.page == "download" else desk
    return desk


def _advance_package(desk: Desk, entry: Entry) -> Desk:
    """A package: while the stick is read, shown, while it is taken in, and how that ended."""
    match entry.event:
        case PackageAsked():
            opened = replace(desk, page="package", about="reading", why="", since=entry.at)
            return replace(opened, lines=(), made_us=0)
        case PackageShown(package, made_us, lines, why) if desk.page == "package":
            shown = replace(desk, about=package, made_us=made_us, lines=lines)
            return replace(shown, why=why, since=entry.at)
        case PackageAccepted():
            return replace(desk, why="taking", since=entry.at)
        case PackageTaken() if desk.page == "package":
            return replace(desk, why="done", lines=(), since=entry.at)
        case PackageRefused(_, why) if desk.page == "package":
            return replace(desk, why=why, lines=(), since=entry.at)
    return desk


def _advance_sheet(desk: Desk, entry: Entry) -> Desk:
    """A printed sheet: while it is made, read, while it is written, and how that ended."""
    match entry.event:
        case SheetAsked(_, sheet):
            asked = replace(desk, page="sheet", about=sheet, why="making", since=entry.at)
            return replace(asked, parts=(), answers=())
        case SheetShown(sheet, parts, why) if (desk.page, desk.about) == ("sheet", sheet):
            return replace(desk, parts=parts, why=why, since=entry.at)
        case SheetAccepted():
            return replace(desk, why="writing", done=0, whole=0, since=entry.at)
        case SheetDone(why) if desk.page == "sheet":
            return replace(desk, why=why or "done", since=entry.at)
    return desk
