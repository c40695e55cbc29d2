"""Everything the record can hold: one frozen class for each kind of event, in the past tense.

Fields are whole numbers, ids and short words only. No sentence, no name, no float: names and
notes live in erasable tables, lengths in micrometres, times in microseconds. `decide` makes
events, `store` keeps them, `advance` and `report` read them. Stored bytes never change, so a
field is never renamed; a changed kind gets a higher `v` and an upcaster in `store`.
"""

from __future__ import annotations

from kiosk.core.events.base import (
    Entry,
    Event,
)
from kiosk.core.events.care import (
    BitsChanged,
    BitsCounted,
    CheckDone,
    DatumSet,
    DeputyNamed,
    DownSaid,
    RestartAsked,
)
from kiosk.core.events.jobs import (
    JobDropped,
    JobHoleAdded,
    JobMade,
)
from kiosk.core.events.keeping import (
    Erased,
    Purged,
)
from kiosk.core.events.lesson import (
    OF_THE_LINE,
    EveryoneStopped,
    HoursOverruled,
    LeftLine,
    LessonClosed,
    LessonConfirmed,
    LessonLengthened,
    LessonOpened,
    LessonTightened,
    LinedUp,
    PassedOver,
    ReadyInLine,
    Resumed,
    SilenceAsked,
    SilenceEnded,
    SpellEnded,
    SpellStarted,
)
from kiosk.core.events.machine import (
    ClockStepped,
    KioskStarted,
    KioskStopped,
    PreUseFailed,
    PreUsePassed,
    ReadingChanged,
    RecordRenewed,
    ReturnedToUse,
    RunDownSeen,
    RunWithoutOkSeen,
    TakenOutOfUse,
)
from kiosk.core.events.moves import (
    AdultPicked,
    Chosen,
    DeskCleared,
    Move,
    PackageShown,
    PageOpened,
    Progressed,
    SecretShown,
    SheetDone,
    SheetShown,
)
from kiosk.core.events.notes import (
    DownloadAsked,
    Downloaded,
    DownloadFailed,
    FollowedUp,
    HazardMarked,
    IncidentClosed,
    IncidentKept,
    Noted,
    ReviewSaid,
)
from kiosk.core.events.packages import (
    PackageAccepted,
    PackageAsked,
    PackageRefused,
    PackageTaken,
)
from kiosk.core.events.people import (
    AdultAdded,
    AdultAuthorised,
    AdultRevoked,
    BadgeIssued,
    BadgePassed,
    BadgeTried,
    BadgeUnknown,
    CodeFailed,
    CodePassed,
    CodesIssued,
    CodeTried,
    LevelSet,
    OwnHoleCounted,
    OwnUseEnded,
    OwnUseStarted,
    PinFailed,
    PinIssued,
    PinPassed,
    PinTried,
    SecretAsked,
)
from kiosk.core.events.pupils import (
    BesideSet,
    LevelGranted,
    LevelKept,
    PilotsDrilled,
    QuestionsAnswered,
    RosterTaken,
)
from kiosk.core.events.session import (
    CheckAsked,
    DrillingShown,
    HoleDrilled,
    Interrupted,
    InterruptionCleared,
    MistakeCleared,
    NotRight,
    OkGiven,
    RecoveryStepDone,
    SaidAllowed,
    SessionEnded,
    SessionStarted,
    StepDone,
    SteppedBack,
    StillAsked,
    StillConfirmed,
    StillThereAsked,
    StillThereSaid,
    TroubleNamed,
    TroubleSeen,
)
from kiosk.core.events.sheets import (
    SheetAccepted,
    SheetAsked,
)


def _kinds(parent: type[Event]) -> dict[str, type[Event]]:
    found: dict[str, type[Event]] = {}
    for child in parent.__subclasses__():
        if child is not Move:
            found[kind_of(child)] = child
        found.update(_kinds(child))
    return found


def kind_of(event: Event | type[Event]) -> str:
    """The stored name of an event's kind: `HoleDrilled` is kept as `hole_drilled`."""
    name = event.__name__ if isinstance(event, type) else type(event).__name__
    return "".join(f"_{c.lower()}" if c.isupper() else c for c in name).lstrip("_")


KINDS: dict[str, type[Event]] = _kinds(Event)
RECORDED_KINDS: dict[str, type[Event]] = {k: e for k, e in KINDS.items() if e.recorded}

__all__ = [
    "KINDS",
    "OF_THE_LINE",
    "RECORDED_KINDS",
    "AdultAdded",
    "AdultAuthorised",
    "AdultPicked",
    "AdultRevoked",
    "BadgeIssued",
    "BadgePassed",
    "BadgeTried",
    "BadgeUnknown",
    "BesideSet",
    "BitsChanged",
    "BitsCounted",
    "CheckAsked",
    "CheckDone",
    "Chosen",
    "ClockStepped",
    "CodeFailed",
    "CodePassed",
    "CodeTried",
    "CodesIssued",
    "DatumSet",
    "DeputyNamed",
    "DeskCleared",
    "DownSaid",
    "DownloadAsked",
    "DownloadFailed",
    "Downloaded",
    "DrillingShown",
    "Entry",
    "Erased",
    "Event",
    "EveryoneStopped",
    "FollowedUp",
    "HazardMarked",
    "HoleDrilled",
    "HoursOverruled",
    "IncidentClosed",
    "IncidentKept",
    "Interrupted",
    "InterruptionCleared",
    "JobDropped",
    "JobHoleAdded",
    "JobMade",
    "KioskStarted",
    "KioskStopped",
    "LeftLine",
    "LessonClosed",
    "LessonConfirmed",
    "LessonLengthened",
    "LessonOpened",
    "LessonTightened",
    "LevelGranted",
    "LevelKept",
    "LevelSet",
    "LinedUp",
    "MistakeCleared",
    "Move",
    "NotRight",
    "Noted",
    "OkGiven",
    "OwnHoleCounted",
    "OwnUseEnded",
    "OwnUseStarted",
    "PackageAccepted",
    "PackageAsked",
    "PackageRefused",
    "PackageShown",
    "PackageTaken",
    "PageOpened",
    "PassedOver",
    "PilotsDrilled",
    "PinFailed",
    "PinIssued",
    "PinPassed",
    "PinTried",
    "PreUseFailed",
    "PreUsePassed",
    "Progressed",
    "Purged",
    "QuestionsAnswered",
    "ReadingChanged",
    "ReadyInLine",
    "RecordRenewed",
    "RecoveryStepDone",
    "RestartAsked",
    "Resumed",
    "ReturnedToUse",
    "ReviewSaid",
    "RosterTaken",
    "RunDownSeen",
    "RunWithoutOkSeen",
    "SaidAllowed",
    "SecretAsked",
    "SecretShown",
    "SessionEnded",
    "SessionStarted",
    "SheetAccepted",
    "SheetAsked",
    "SheetDone",
    "SheetShown",
    "SilenceAsked",
    "SilenceEnded",
    "SpellEnded",
    "SpellStarted",
    "StepDone",
    "SteppedBack",
    "StillAsked",
    "StillConfirmed",
    "StillThereAsked",
    "StillThereSaid",
    "TakenOutOfUse",
    "TroubleNamed",
    "TroubleSeen",
    "kind_of",
]
