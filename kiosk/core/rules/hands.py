"""Rules for hands at the machine: isolator, a run, readings, the drilling screen."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.events import Entry
from kiosk.core.model import Fact, Needs
from kiosk.core.plan.shape import PlanStep
from kiosk.core.rules.freeing import FREED_OFF, reads_on, wants_off
from kiosk.core.rules.past import House, Past, step_called
from kiosk.core.rules.rule import Rule

_STEPS = (ev.StepDone, ev.RecoveryStepDone)

# What may happen while the drilling screen stands; everything else would take it away.
_STANDS = (
    ev.ReadingChanged,
    ev.TroubleSeen,
    ev.EveryoneStopped,
    ev.StillAsked,
    ev.StillThereAsked,
    ev.StillThereSaid,
    ev.HoleDrilled,
    ev.Interrupted,
    ev.DrillingShown,
    ev.SpellEnded,
    ev.PinTried,
    ev.PinPassed,
    ev.PinFailed,
    ev.KioskStarted,
    ev.KioskStopped,
    ev.ClockStepped,
    ev.LevelSet,
    ev.AdultAdded,
    ev.PinIssued,
    ev.AdultRevoked,
    ev.AdultAuthorised,
    ev.BadgeIssued,
    ev.CodesIssued,
    ev.BadgePassed,
    ev.BadgeUnknown,
    ev.CodePassed,
    ev.CodeFailed,
    ev.RosterTaken,
    ev.BesideSet,
    ev.Downloaded,
    ev.DownloadFailed,
    ev.PackageTaken,
    ev.PackageRefused,
    ev.PackageShown,
    ev.Progressed,
    ev.DeskCleared,
)


def _step(house: House, past: Past, entry: Entry) -> PlanStep | None:
    event, turn = entry.event, past.turn
    if isinstance(event, ev.StepDone):
        return step_called(turn.plan, event.step) if turn else None
    assert isinstance(event, ev.RecoveryStepDone)
    steps = house.recovery(turn.trouble if turn else past.trouble)
    return next((s for s in steps if s.id == event.step), None)


def _isolator_on(house: House, past: Past, entry: Entry) -> str:
    """In a trouble a lost reading holds nobody up; in a set-up it does."""
    step, turn = _step(house, past, entry), past.turn
    if step is None or not wants_off(step):
        return ""
    if isinstance(entry.event, ev.RecoveryStepDone):
        unmade = entry.event.by == "nobody" and step.needs is not Needs.ISOLATOR_OFF
        wrong = reads_on(past) and not unmade
    else:
        wrong = turn is not None and turn.way == "sensed" and past.isolator != "off"
    return f"step {step.id} was done while the isolator read {past.isolator}" if wrong else ""


def _isolator_unsaid(house: House, past: Past, entry: Entry) -> str:
    step, turn = _step(house, past, entry), past.turn
    if step is None or turn is None or step.needs is not Needs.ISOLATOR_OFF:
        return ""
    if turn.way == "sensed" or Fact.ISOLATOR_OFF in turn.facts:
        return ""
    return f"step {step.id} puts hands in, and nobody turned the isolator off for it"


def _turning(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    over = isinstance(event, ev.SessionEnded) and event.how in ("cut_short", "ended", "left")
    if not past.running or over or _is_for_ending(event):
        return ""
    return f"a contact said that the drill was turning ({', '.join(past.running)})"


def _is_for_ending(event: ev.Event) -> bool:
    return isinstance(event, ev.InterruptionCleared) and event.choice == "end"


def _left(house: House, past: Past, entry: Entry) -> str:
    if not past.is_drilling or isinstance(entry.event, _STANDS) or past.owed == "cut_short":
        return ""
    return "the drilling screen stood, and something took it away"


def _gone_unless_off(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.Interrupted)
    if not past.is_drilling or event.why != "gone":
        return ""
    wired = [name for name in ("starter", "spindle") if name in house.inputs]
    known = bool(wired) and all(name in past.resting for name in wired)
    return "" if known else "nobody was there, and no contact said that the drill had stopped"


def _no_hole(house: House, past: Past, entry: Entry) -> str:
    event, turn = entry.event, past.turn
    assert isinstance(event, ev.HoleDrilled)
    if turn is None or not past.is_drilling:
        return "a hole was counted, and no drilling screen stood"
    right = turn.done < turn.plan.holes and event.hole == turn.done + 1
    return "" if right else "a hole was counted that the job does not have"


def _running_down(house: House, past: Past, entry: Entry) -> str:
    turn = past.turn
    passed = entry.at.since(turn.off_at) if turn and turn.off_at else None
    if passed is None or passed.s >= house.run_down_s:
        return ""
    return "a hole was counted while the spindle was still running down"


def _not_sensed(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    wired = [name for name in ("starter", "spindle") if name in house.inputs]
    rests = bool(wired) and all(name in past.resting for name in wired)
    seen = past.turn is not None and past.turn.run_seen
    if isinstance(event, ev.HoleDrilled) and event.run == "sensed" and not (rests and seen):
        return "a hole counts as sensed, and no contact saw the drill run and stop"
    if isinstance(event, ev.StillConfirmed) and event.by == "sensed" and not rests:
        return "standing still counts as sensed, and no contact says so"
    return ""


def _lost(house: House, past: Past, entry: Entry) -> str:
    turn = past.turn
    if turn is None or not turn.lost:
        return ""
    if isinstance(entry.event, ev.StepDone) and turn.way != "unread":
        return ""  # an adult has looked; the isolator must be read off before hands go in
    return "a reading was lost, and no adult had taken over by looking"


def _wrong_way(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.SessionStarted)
    known = "unread" if past.isolator == "lost" else "sensed"
    way = known if "isolator" in house.inputs else "said"
    return "" if event.way == way else f"the session counts as {event.way}; it is {way}"


_OWED = {
    "run": (ev.RunWithoutOkSeen,),
    "halt": (ev.Interrupted,),
    "trouble": (ev.TroubleSeen,),
    "cut_short": (ev.SessionEnded,),
}


def owes(past: Past, event: ev.Event | None) -> str:
    """What should have come at once and did not; `event` is what came instead, if anything."""
    wanted = _OWED.get(past.owed, ())
    if not wanted or (event is not None and isinstance(event, wanted)):
        return ""
    names = {
        "run": "the drill ran without an OK, and that was not recorded",
        "halt": "the session was not halted",
        "trouble": "the drilling screen does not say that a reading was lost",
        "cut_short": "a session was cut short by a restart, and that was not recorded",
    }
    return names[past.owed]


def _owing(house: House, past: Past, entry: Entry) -> str:
    return owes(past, entry.event)


HANDS = (
    Rule(
        "isolator_off",
        _STEPS,
        "a start by mistake with a hand in the chuck or at the belt",
        "PUWER 1998 reg 19 and 22; ISO 14118",
        _isolator_on,
    ),
    FREED_OFF,
    Rule(
        "isolator_said",
        (ev.StepDone,),
        "a start by mistake with a hand in the chuck or at the belt",
        "PUWER 1998 reg 19 and 22; ISO 14118",
        _isolator_unsaid,
    ),
    Rule(
        "still",
        (
            *_STEPS,
            ev.CheckAsked,
            ev.OkGiven,
            ev.DrillingShown,
            ev.HoleDrilled,
            ev.StillConfirmed,
            ev.SessionStarted,
            ev.SessionEnded,
            ev.MistakeCleared,
            ev.InterruptionCleared,
        ),
        "nothing goes on while the drill is known to turn",
        "PUWER 1998 reg 11 and 14; EN 60204-1 7.5",
        _turning,
    ),
    Rule(
        "drilling_stands",
        (ev.Event,),
        "while the drill may be turning nothing asks to be touched",
        "PUWER 1998 reg 11; project's safety position",
        _left,
    ),
    Rule(
        "gone",
        (ev.Interrupted,),
        "still is never assumed without a contact that says so",
        "project's safety position",
        _gone_unless_off,
    ),
    Rule(
        "hole_counted",
        (ev.HoleDrilled,),
        "the record tells what happened",
        "PUWER 1998 reg 5; project's record",
        _no_hole,
    ),
    Rule(
        "run_down",
        (ev.HoleDrilled,),
        "a spindle running down still catches",
        "PUWER 1998 reg 11; apprentice case published by HSE",
        _running_down,
    ),
    Rule(
        "sensed",
        (ev.HoleDrilled, ev.StillConfirmed),
        "sensed is what a contact said, not a person",
        "project's record",
        _not_sensed,
    ),
    Rule(
        "lost_reading",
        (ev.StepDone, ev.OkGiven, ev.DrillingShown),
        "nothing carries on as if a lost reading were a good one",
        "PUWER 1998 reg 18; project's safety position",
        _lost,
    ),
    Rule(
        "way",
        (ev.SessionStarted,),
        "unknown is never taken for off",
        "project's safety position",
        _wrong_way,
    ),
    Rule(
        "at_once",
        (ev.Event,),
        "a warning does not wait",
        "PUWER 1998 reg 24; project's safety position",
        _owing,
    ),
)
