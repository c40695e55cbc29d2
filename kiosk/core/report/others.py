"""What adults asked for in a lesson, what was asked on the way, who was let in, what was changed.

All of it is counted and none of it timed. Each kind of event has its place in one table: `OF`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kiosk.core.events import (
    AdultAdded,
    AdultRevoked,
    BadgeIssued,
    BadgePassed,
    BadgeUnknown,
    CodeFailed,
    CodePassed,
    CodesIssued,
    DatumSet,
    DeputyNamed,
    Downloaded,
    DownloadFailed,
    Entry,
    Erased,
    Event,
    EveryoneStopped,
    HoursOverruled,
    JobDropped,
    JobMade,
    LessonConfirmed,
    LessonLengthened,
    LessonTightened,
    OwnHoleCounted,
    OwnUseStarted,
    PackageRefused,
    PackageTaken,
    PassedOver,
    PilotsDrilled,
    PinFailed,
    PinIssued,
    PinPassed,
    QuestionsAnswered,
    ReadyInLine,
    Resumed,
    RosterTaken,
    SheetAccepted,
    SilenceAsked,
    SpellEnded,
    SpellStarted,
    StillAsked,
    StillConfirmed,
    StillThereAsked,
    StillThereSaid,
    TroubleSeen,
)
from kiosk.core.report.tally import Tally

ROOM, OWN, ASKED, SEEN, DOOR, OFFICE = "room", "own", "on_the_way", "seen", "door", "office"

OF: Mapping[type[Event], tuple[str, str, str]] = {
    LessonConfirmed: (ROOM, "confirmed", ""),
    LessonLengthened: (ROOM, "longer", ""),
    LessonTightened: (ROOM, "tighter", "what"),
    EveryoneStopped: (ROOM, "everyone_stopped", ""),
    Resumed: (ROOM, "resumed", ""),
    SpellStarted: (ROOM, "spell", ""),
    SpellEnded: (ROOM, "spell_ended", "why"),
    SilenceAsked: (ROOM, "silence", ""),
    HoursOverruled: (ROOM, "overruled", ""),
    OwnUseStarted: (OWN, "times", ""),
    OwnHoleCounted: (OWN, "holes", ""),
    ReadyInLine: (ASKED, "ready", ""),
    PassedOver: (ASKED, "passed_over", ""),
    QuestionsAnswered: (ASKED, "questions", ""),
    PilotsDrilled: (ASKED, "pilots", ""),
    StillThereAsked: (ASKED, "there_asked", ""),
    StillThereSaid: (ASKED, "there_said", ""),
    StillAsked: (ASKED, "no_run", ""),
    StillConfirmed: (ASKED, "still", "by"),
    TroubleSeen: (SEEN, "", "why"),
    PinPassed: (DOOR, "pin", ""),
    PinFailed: (DOOR, "pin_wrong", ""),
    BadgePassed: (DOOR, "badge", ""),
    BadgeUnknown: (DOOR, "badge_wrong", ""),
    CodePassed: (DOOR, "code", ""),
    CodeFailed: (DOOR, "code_wrong", ""),
    AdultAdded: (OFFICE, "adult_added", ""),
    AdultRevoked: (OFFICE, "adult_revoked", ""),
    PinIssued: (OFFICE, "pin_issued", ""),
    BadgeIssued: (OFFICE, "badge_issued", ""),
    CodesIssued: (OFFICE, "codes_issued", ""),
    RosterTaken: (OFFICE, "roster", ""),
    PackageTaken: (OFFICE, "package", ""),
    PackageRefused: (OFFICE, "package_refused", "why"),
    DeputyNamed: (OFFICE, "deputy", ""),
    DatumSet: (OFFICE, "datum", "what"),
    JobMade: (OFFICE, "job_made", ""),
    JobDropped: (OFFICE, "job_dropped", ""),
    SheetAccepted: (OFFICE, "sheet", ""),
    Downloaded: (OFFICE, "download", ""),
    DownloadFailed: (OFFICE, "download_failed", "why"),
    Erased: (OFFICE, "erased", "what"),
}
"""Of each kind: the table it is counted in, the word it is counted by, and the field that tells
one from another, empty for none.
"""

KINDS = tuple(OF)
LENGTHS: Mapping[type[Event], str] = {LessonLengthened: "by_s", SilenceAsked: "for_s"}
"""Kinds that say how many seconds they are for."""


@dataclass
class Others:
    """Counts those kinds."""

    tally: Tally

    def take(self, entry: Entry) -> None:
        """Count one entry."""
        event = entry.event
        of, word, field = OF[type(event)]
        self.tally.count(of, word, str(getattr(event, field)) if field else "")
        seconds = LENGTHS.get(type(event))
        if seconds:
            self.tally.count("seconds", word, times=getattr(event, seconds))
