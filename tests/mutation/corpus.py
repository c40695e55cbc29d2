"""Events that may come where they should not, and short ways before them that are right."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.events import Event
from kiosk.core.plan.shape import Plan
from kiosk.core.walk.grounds import TEACHER, TECHNICIAN, WORK

ADULTS = (TEACHER.ref, TECHNICIAN.ref, "nobody")


def events_of(plan: Plan, trouble: str) -> tuple[Event, ...]:
    """One or more of every kind of event that a rule asks about."""
    steps = {s.id: s for p in (plan.fresh, plan.joining, plan.further, plan.clear) for s in p}
    done = [ev.StepDone(s, by) for s in steps for by in ("pupil", TEACHER.ref, "line")]
    begun = [
        ev.SessionStarted("p1", level, WORK, 0, plan.digest, path, 0, way)
        for level in ("adult_beside", "supervised", "signed_off")
        for path in ("fresh", "joining")
        for way in ("sensed", "said", "unread")
    ]
    return (*begun, *done, *_of_the_drill(trouble), *_of_adults(), *_of_the_room())


def _of_the_drill(trouble: str) -> tuple[Event, ...]:
    return (
        *(ev.OkGiven(adult, by, 1) for adult in ADULTS for by in ("pin", "spell")),
        *(ev.DrillingShown(1, ok) for ok in ("check", "again", "earlier")),
        *(ev.HoleDrilled(hole, run) for hole in (1, 2, 9) for run in ("said", "sensed")),
        *(ev.SessionEnded(how) for how in ("finished", "left", "closed", "ended")),
        *(ev.Interrupted(why) for why in ("gone", "wrong", "running")),
        *(ev.InterruptionCleared(a, c) for a in ADULTS for c in ("again", "look", "end")),
        *(ev.StillConfirmed(by) for by in ("said", "sensed")),
        ev.MistakeCleared(),
        ev.CheckAsked(1),
        ev.TroubleNamed(trouble),
        ev.KioskStarted("drill-1", "walk", "cut"),
        ev.EveryoneStopped(""),
    )


def _of_adults() -> tuple[Event, ...]:
    return (
        *(kind(adult) for adult in ADULTS for kind in (ev.SaidAllowed, ev.LessonConfirmed)),
        *(kind(adult) for adult in ADULTS for kind in (ev.PreUsePassed, ev.ReturnedToUse)),
        *(kind(adult) for adult in ADULTS for kind in (ev.OwnUseStarted, ev.Resumed)),
        *(ev.LessonOpened(adult, "g", (WORK,), 3600) for adult in ADULTS),
        *(ev.SpellStarted(adult) for adult in ADULTS),
        *(ev.LessonClosed(by) for by in (*ADULTS, "time")),
        *(ev.AdultRevoked(who, by) for who in ADULTS[:2] for by in ADULTS),
        *(ev.AdultAdded("new", "teacher", by) for by in ADULTS),
        *(ev.LevelGranted("p1", "shown", "", "plain", w, 0, TEACHER.ref) for w in ("", "seen")),
        *(ev.SecretAsked("new", "pin", by) for by in ADULTS),
        ev.AdultAdded(TEACHER.ref, "trainee", "walk"),
        *(ev.PinTried(adult, what) for adult in ADULTS[:2] for what in ("ok", "menu", "said")),
    )


def _of_the_room() -> tuple[Event, ...]:
    return (
        ev.TakenOutOfUse("fault", TEACHER.ref),
        ev.PageOpened("menu"),
        ev.DeskCleared(),
        *(ev.ReadingChanged(n, r, "settled") for n in ("isolator", "starter") for r in _READ),
    )


_READ = ("on", "off", "unknown")


def ways_before(trouble: str) -> tuple[tuple[Event, ...], ...]:
    """What may come just before: nothing, readings, an adult let in, a wrong PIN twice and more."""
    ran = ev.ReadingChanged("starter", "on", "settled"), ev.ReadingChanged("starter", "off", "x")
    wrong = ev.PinTried(TEACHER.ref, "menu"), ev.PinFailed(TEACHER.ref, "menu")
    let_in = [
        (ev.PinTried(a, what), ev.PinPassed(a, what))
        for a in ADULTS[:2]
        for what in ("ok", "step", "said", "menu", "clear", "confirm")
    ]
    return (
        (),
        *((ev.ReadingChanged(n, r, "settled"),) for n in ("isolator", "starter") for r in _READ),
        ran,
        wrong * 3,
        *let_in,
        (ev.KioskStarted("drill-1", "walk", "cut"), ev.SessionEnded("cut_short")),
        (ev.KioskStarted("drill-1", "walk", "clean"),),
        (ev.EveryoneStopped(""),),
        *((*let_in[3], e) for e in (ev.LessonClosed(TEACHER.ref), ev.OwnUseStarted(TEACHER.ref))),
        (*let_in[3], ev.TakenOutOfUse("fault", TEACHER.ref)),
        (ev.TroubleNamed(trouble),),
        (ev.Interrupted("wrong"),),
        (ev.Interrupted("gone"),),
        (ev.TroubleSeen("reading_lost"),),
    )
