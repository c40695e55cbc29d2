"""How the judge's memory grows with each event."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from kiosk.core import events as ev
from kiosk.core.rules import piloting
from kiosk.core.rules import rights_fold as rights
from kiosk.core.rules import room_fold as room
from kiosk.core.rules import session_fold as session
from kiosk.core.rules.line import line_fold
from kiosk.core.rules.past import Here, House, Past, at_rest

Fold: TypeAlias = Callable[[House, Past, ev.Entry, Here], Past]


def advance_past(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    """The memory after the entry. `here` is the step that the session stood at before it."""
    after = at_rest(past)
    fold = _FOLDS.get(type(entry.event))
    return fold(house, after, entry, here) if fold else after


_FOLDS: dict[type[ev.Event], Fold] = {
    ev.ReadingChanged: session.reading_fold,
    ev.RunWithoutOkSeen: session.run_without_ok_fold,
    ev.SessionStarted: session.started_fold,
    ev.StepDone: session.step_done_fold,
    ev.StillThereAsked: session.asked_fold,
    ev.SteppedBack: session.went_back_fold,
    ev.NotRight: session.went_back_fold,
    ev.OkGiven: session.ok_fold,
    ev.DrillingShown: session.drilling_fold,
    ev.TroubleSeen: session.trouble_seen_fold,
    ev.HoleDrilled: session.hole_fold,
    ev.SessionEnded: session.ended_fold,
    ev.Interrupted: session.halted_fold,
    ev.TroubleNamed: session.named_fold,
    ev.RecoveryStepDone: session.recovery_step_fold,
    ev.MistakeCleared: session.mistake_fold,
    ev.InterruptionCleared: session.cleared_fold,
    ev.SaidAllowed: session.said_fold,
    ev.PinTried: room.tried_fold,
    ev.PinPassed: room.passed_fold,
    ev.PinFailed: room.failed_fold,
    ev.DeskCleared: room.desk_left_fold,
    ev.PageOpened: room.page_fold,
    ev.AdultPicked: room.page_fold,
    ev.LessonOpened: room.lesson_fold,
    ev.LessonClosed: room.lesson_fold,
    ev.LessonLengthened: room.changed_lesson_fold,
    ev.LessonTightened: room.changed_lesson_fold,
    ev.LessonConfirmed: room.confirmed_fold,
    ev.EveryoneStopped: room.everyone_fold,
    ev.Resumed: room.everyone_fold,
    ev.SpellStarted: room.spell_fold,
    ev.SpellEnded: room.spell_fold,
    ev.PreUsePassed: room.pre_use_fold,
    ev.PreUseFailed: room.pre_use_fold,
    ev.TakenOutOfUse: room.use_fold,
    ev.ReturnedToUse: room.use_fold,
    ev.DeputyNamed: room.use_fold,
    ev.CheckDone: room.use_fold,
    ev.SilenceAsked: room.use_fold,
    ev.SilenceEnded: room.use_fold,
    ev.HoursOverruled: room.use_fold,
    ev.OwnUseStarted: room.use_fold,
    ev.OwnUseEnded: room.use_fold,
    ev.KioskStarted: room.began_fold,
    ev.StillConfirmed: room.seen_still_fold,
    ev.LinedUp: line_fold,
    ev.ReadyInLine: line_fold,
    ev.PassedOver: line_fold,
    ev.LeftLine: line_fold,
    ev.AdultAdded: rights.adult_fold,
    ev.AdultRevoked: rights.adult_fold,
    ev.PinIssued: rights.pin_issued_fold,
    ev.AdultAuthorised: rights.authorised_fold,
    ev.BadgeTried: rights.tried_fold,
    ev.CodeTried: rights.tried_fold,
    ev.BadgePassed: rights.passed_fold,
    ev.CodePassed: rights.passed_fold,
    ev.BadgeUnknown: room.failed_fold,
    ev.CodeFailed: room.failed_fold,
    ev.LevelSet: rights.level_fold,
    ev.LevelGranted: rights.level_fold,
    ev.LevelKept: rights.level_fold,
    ev.BesideSet: rights.beside_fold,
    ev.JobHoleAdded: piloting.made_hole_fold,
    ev.PilotsDrilled: piloting.piloted_fold,
}
