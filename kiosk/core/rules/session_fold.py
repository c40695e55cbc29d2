"""How the judge's memory of one session grows: readings, steps, starts, interruptions."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.model import Fact, Needs
from kiosk.core.plan.shape import PlanStep
from kiosk.core.rules.past import (
    AT_THE_WORK,
    READY,
    RUN_INPUTS,
    SET_UP,
    SET_UP_FACTS,
    Here,
    House,
    Past,
    Turn,
    in_turn,
    made_by,
    made_stale,
    step_called,
    unmade,
)
from kiosk.core.rules.piloting import drilled
from kiosk.core.values import replace

# --- readings ------------------------------------------------------------------------------------


def reading_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.ReadingChanged)
    lost = event.reading in ("unknown", "fault")
    if event.input == "isolator":
        past = replace(past, isolator="lost" if lost else event.reading)
    if event.input in RUN_INPUTS:
        past = _run_reading(past, event.input, event.reading, entry)
    return _owing(past, event, lost, here)


def _run_reading(past: Past, name: str, reading: str, entry: ev.Entry) -> Past:
    running = tuple(sorted({*past.running} - {name} | ({name} if reading == "on" else set())))
    resting = tuple(sorted({*past.resting} - {name} | ({name} if reading == "off" else set())))
    past = replace(past, running=running, resting=resting)
    turn = past.turn
    if turn is None:
        return past
    if reading == "on":
        seen = turn.run_seen or past.is_drilling
        return in_turn(past, run_seen=seen, ran=True, off_at=None)
    off = reading == "off" and past.is_drilling  # a lost reading says nothing of the run-down
    return in_turn(past, off_at=entry.at if off else None)


def _owing(past: Past, event: ev.ReadingChanged, lost: bool, here: Here) -> Past:
    """What a reading in a session must lead to at once."""
    turn, ran = past.turn, event.input in RUN_INPUTS and event.reading == "on"
    drilling = turn is not None and turn.drilling
    if ran and not drilling and not past.own_use:
        return replace(past, owed="run")
    if turn is None or turn.way != "sensed":
        return past
    if lost:
        owed = "trouble" if past.is_drilling else "halt" if turn.may_go_on else ""
        return replace(in_turn(past, lost=True), owed=owed)
    if event.input != "isolator":
        return past
    hands = here is not None and here.needs is Needs.ISOLATOR_OFF
    owed = "halt" if event.reading == "on" and hands and not turn.halted else ""
    return replace(in_turn(past, lost=turn.lost and bool(turn.halted)), owed=owed)


def run_without_ok_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    goes_on = past.turn is not None and past.turn.may_go_on
    return replace(past, kept=None, owed="halt" if goes_on else "")


# --- one session ---------------------------------------------------------------------------------


def started_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.SessionStarted) and entry.plan is not None
    turn = Turn(entry.plan, event.way, event.pupil, lost=event.way == "unread")
    return replace(past, turn=turn, signed="")


def step_done_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event, turn = entry.event, past.turn
    assert isinstance(event, ev.StepDone)
    step = step_called(turn.plan, event.step) if turn else None
    if turn is None or step is None:
        return made_stale(past)
    facts = unmade(turn.facts, step.touches) | made_by(step, turn.plan)
    stood = event.by if step.who == "adult" else ""
    past = in_turn(past, facts=facts, stood=stood, stood_at=entry.at if stood else None)
    if not SET_UP.isdisjoint(step.touches):
        past = replace(in_turn(past, ok=""), kept=None)
    return made_stale(past)


def asked_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return _nobody_stands(past)


def _nobody_stands(past: Past) -> Past:
    """Whoever did the last step may have gone."""
    stands = past.turn is not None and past.turn.stood
    return in_turn(past, stood="", stood_at=None) if stands else past


def went_back_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event, turn = entry.event, past.turn
    assert isinstance(event, ev.SteppedBack | ev.NotRight)
    step = step_called(turn.plan, event.step) if turn else None
    facts = turn.facts - made_by(step, turn.plan) if turn and step else frozenset()
    past = _nobody_stands(made_stale(in_turn(past, facts=facts)))
    if not isinstance(event, ev.NotRight):
        return past
    past = in_turn(past, ok="")
    return past if step and _leaves_set_up(step) else replace(past, kept=None)


def _leaves_set_up(step: PlanStep) -> bool:
    """Whether clothes, work or guard were not right, and nothing of the set-up."""
    return SET_UP.isdisjoint(step.touches) and SET_UP_FACTS.isdisjoint(step.makes)


def ok_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event, turn = entry.event, past.turn
    assert isinstance(event, ev.OkGiven)
    kept = turn.plan.set_up if turn else None
    just = event.adult if event.by == "pin" else ""
    return replace(in_turn(past, ok="next"), kept=kept, used=entry.at, just_ok=just)


def drilling_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    turn = past.turn
    ok = "session" if turn and turn.ok else ""
    facts = turn.facts - {Fact.ISOLATOR_OFF} if turn else frozenset()
    past = in_turn(past, facts=facts, drilling=True, ok=ok, run_seen=False, ran=False, off_at=None)
    return _nobody_stands(made_stale(past))


def trouble_seen_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return in_turn(past, troubled=True)


def hole_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    turn = past.turn
    if turn is None:
        return past
    facts = turn.facts - AT_THE_WORK
    owed = "halt" if turn.troubled else ""
    past = drilled(house, past)
    past = in_turn(past, facts=facts, done=turn.done + 1, drilling=False, run_seen=False, ran=False)
    spell = entry.at if past.spell else None
    return replace(past, used=entry.at, spell_last=spell, owed=owed)


def ended_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return replace(made_stale(past), turn=None, used=entry.at)


# --- interruptions -------------------------------------------------------------------------------


def halted_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event, turn = entry.event, past.turn
    why = event.why if isinstance(event, ev.Interrupted) else "wrong"
    why = turn.halted if turn and turn.halted and turn.halted != "wrong" else why
    past = replace(made_stale(past), kept=None, spell="", spell_last=None)
    facts = turn.facts & READY if turn and why != "wrong" else None
    past = _nobody_stands(past)
    past = in_turn(past, ok="", halted=why, troubled=False, drilling=False)
    return past if facts is None else in_turn(past, facts=facts)


def named_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.TroubleNamed)
    past = replace(halted_fold(house, past, entry, here), signed="")
    if past.turn is None:
        return replace(past, trouble=event.trouble, recovered=0)
    facts = past.turn.facts & READY
    return in_turn(past, trouble=event.trouble, recovered=0, facts=facts)


def recovery_step_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    if past.turn is None:
        return replace(past, recovered=past.recovered + 1)
    return in_turn(past, recovered=past.turn.recovered + 1)


def mistake_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    """Nothing had happened: the work is as it was, but an adult's OK no longer stands."""
    return in_turn(past, halted="")


def cleared_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.InterruptionCleared)
    past = replace(past, trouble="", recovered=0, signed="", cleared=True)
    if past.turn is None:
        return past
    looks = event.choice == "look" or past.turn.way == "unread"
    way = "said" if looks else past.turn.way
    lost = past.turn.lost and not looks and past.isolator == "lost"
    past = in_turn(
        past, facts=past.turn.facts & READY, way=way, lost=lost, ran=False, run_seen=False
    )
    return in_turn(past, halted="", trouble="", recovered=0)


def said_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return in_turn(past, way="said", lost=False)
