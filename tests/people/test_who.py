"""Every action that changes what a person may do is in the record, with who.

The walk of `-m people` holds every event that it comes to against this; here every kind of event
is, whether the walk comes to it or not.
"""

from __future__ import annotations

from dataclasses import fields
from inspect import isclass

import pytest

from kiosk.core import events as ev
from tests.core.care_story import corner
from tests.core.story import Story, lesson_open

PEOPLE = "AdultAdded AdultAuthorised AdultRevoked BadgeIssued CodesIssued PinIssued SecretAsked"
PUPILS = "BesideSet LevelGranted LevelKept LevelSet PilotsDrilled QuestionsAnswered RosterTaken"
LESSON = (
    "LessonOpened LessonConfirmed LessonClosed LessonLengthened LessonTightened Resumed "
    "SpellStarted SilenceAsked SilenceEnded HoursOverruled OkGiven SaidAllowed InterruptionCleared"
)
DRILL = (
    "TakenOutOfUse ReturnedToUse PreUsePassed PreUseFailed CheckDone DeputyNamed DatumSet "
    "OwnUseStarted OwnUseEnded RestartAsked PackageAccepted PackageTaken"
)
JOBS = "JobMade JobHoleAdded JobDropped"
CHANGING = frozenset(f"{PEOPLE} {PUPILS} {LESSON} {DRILL} {JOBS}".split())
"""Kinds that change what an adult or a pupil may do, or what may be done at the drill."""

TAKING_AWAY = frozenset(
    "EveryoneStopped SpellEnded Interrupted KioskStarted RunWithoutOkSeen TroubleNamed".split()
)
"""Anybody, a contact or a power cut takes away what an adult gives back; that names the adult."""

AT_THE_DRILL = frozenset(
    "CheckAsked DrillingShown HoleDrilled MistakeCleared NotRight ReadingChanged RecoveryStepDone "
    "RunDownSeen SessionEnded SessionStarted StepDone SteppedBack StillAsked StillConfirmed "
    "StillThereAsked StillThereSaid TroubleSeen LinedUp LeftLine PassedOver ReadyInLine".split()
)
TOLD = frozenset(
    "BadgePassed BadgeTried BadgeUnknown CodeFailed CodePassed CodeTried PinFailed PinPassed "
    "PinTried BitsChanged BitsCounted DownSaid OwnHoleCounted Noted FollowedUp ReviewSaid "
    "HazardMarked IncidentClosed IncidentKept DownloadAsked Downloaded DownloadFailed "
    "PackageAsked PackageRefused SheetAsked SheetAccepted ClockStepped Erased Purged "
    "KioskStopped RecordRenewed".split()
)
"""What is recorded of tries, tidying, notes and sticks, and gives nobody a right."""

KINDS = {
    name: kind
    for name, kind in vars(ev).items()
    if isclass(kind) and issubclass(kind, ev.Event) and kind.recorded and name in ev.__all__
} | {}
NAMED = ("by", "adult", "pupil")


def test_every_kind_of_event_is_told_apart() -> None:
    sorts = (CHANGING, TAKING_AWAY, AT_THE_DRILL, TOLD)

    assert sum(map(len, sorts)) == len(frozenset().union(*sorts))
    assert frozenset(KINDS) - {"Event", "Move"} == frozenset().union(*sorts)


@pytest.mark.parametrize("name", sorted(CHANGING))
def test_what_changes_a_right_is_recorded_and_names_who(name: str) -> None:
    kind = KINDS[name]

    assert kind.recorded
    assert {field.name for field in fields(kind)} & set(NAMED)


@pytest.mark.parametrize("story", [corner(), lesson_open()])
def test_what_was_done_at_the_screen_names_the_adult_who_was_signed_in(story: Story) -> None:
    done = [e.event for e in story.record if type(e.event).__name__ in CHANGING]

    assert done
    for event in done:
        assert any(getattr(event, field, "") for field in NAMED), event
