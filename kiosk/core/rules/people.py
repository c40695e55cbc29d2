"""Rules for who may: an adult's PIN just now, a spell, roles, and what an adult must end."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.events import Entry
from kiosk.core.model import Part
from kiosk.core.rules.past import House, Past, step_called
from kiosk.core.rules.rule import Rule

SPELL_FOR_S, STANDS_FOR_S = 120.0, 60.0
FREE_TRIES, FIRST_WAIT_S, LONGEST_WAIT_S = 2, 30.0, 3600.0
_AT_THE_DESK = (
    ev.LessonOpened,
    ev.LessonLengthened,
    ev.LessonTightened,
    ev.Resumed,
    ev.PreUsePassed,
    ev.PreUseFailed,
    ev.TakenOutOfUse,
    ev.ReturnedToUse,
    ev.OwnUseStarted,
    ev.Noted,
    ev.FollowedUp,
    ev.ReviewSaid,
    ev.IncidentClosed,
    ev.DownloadAsked,
    ev.SheetAsked,
    ev.SheetAccepted,
    ev.PackageAsked,
    ev.PackageAccepted,
    ev.InterruptionCleared,
)


def _passed(past: Past, adult: str, purpose: str) -> bool:
    passed = past.passed
    return passed is not None and passed.adult == adult and passed.purpose == purpose


def _by_spell(past: Past, adult: str, entry: Entry) -> bool:
    gone = entry.at.since(past.spell_last) if past.spell_last else None
    fresh = gone is not None and gone.s <= SPELL_FOR_S
    return bool(past.spell) and past.spell == adult and fresh


def _stands_there(past: Past, adult: str, entry: Entry) -> bool:
    """Whether the step before was this adult's, done a moment ago."""
    turn = past.turn
    gone = entry.at.since(turn.stood_at) if turn and turn.stood_at else None
    fresh = gone is not None and gone.s <= STANDS_FOR_S
    return turn is not None and bool(adult) and turn.stood == adult and fresh


def _ok_by_nobody(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.OkGiven)
    if event.by == "spell":
        return "" if _by_spell(past, event.adult, entry) else "no adult's spell stands"
    return "" if _passed(past, event.adult, "ok") else "no adult has just shown a PIN for the OK"


def _step_by_wrong_one(house: House, past: Past, entry: Entry) -> str:
    event, turn = entry.event, past.turn
    assert isinstance(event, ev.StepDone)
    step = step_called(turn.plan, event.step) if turn else None
    if step is None:
        return ""
    moves = not {Part.BELT, Part.TABLE}.isdisjoint(step.touches)
    if step.who != "adult" and not moves:
        return "" if event.by in ("pupil", "line") else f"step {step.id} is the pupil's own"
    looked = _passed(past, event.by, "step") or _by_spell(past, event.by, entry)
    looked = looked or _stands_there(past, event.by, entry)
    return "" if looked else f"step {step.id} is an adult's, and none was there"


def _not_just_passed(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.SaidAllowed | ev.LessonConfirmed)
    purpose = "said" if isinstance(event, ev.SaidAllowed) else "confirm"
    return "" if _passed(past, event.adult, purpose) else "no adult has just shown a PIN for it"


def _not_signed(house: House, past: Past, entry: Entry) -> str:
    adult = getattr(entry.event, "adult", "")
    return "" if adult and adult == past.signed else "no adult is signed in at the desk"


def _closed_by_nobody(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.LessonClosed)
    if event.by != "time":
        return "" if event.by == past.signed else "no adult is signed in at the desk"
    gone = entry.at.since(past.opened) if past.opened else None
    over = gone is not None and gone.s >= past.length_s
    return "" if over else "the lesson's time has not passed"


def _returned_by_another(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.ReturnedToUse)
    who, role = event.adult, dict(past.roles).get(event.adult)
    if not past.failed.isdisjoint(house.stopping):
        return "a check that was not right was not entered as right"
    if role == "technician" or (past.out_of_use == "teacher" and role == "teacher"):
        return ""
    if past.out_of_use == "own":
        return "" if who == past.out_by else "somebody else has locked it off"
    if past.out_of_use == "deputy":
        return "" if who == past.deputy else "only a technician or the deputy returns it to use"
    return "only a technician returns it to use"


def _spell_from_nowhere(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.SpellStarted)
    if not house.spell_allowed:
        return "this school has no spells"
    if "no_spell" in past.tighter:
        return "this lesson has no spells"
    return "" if past.just_ok == event.adult else "a spell begins with an OK by PIN only"


def _too_soon(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.PinTried)
    count, last = next(((n, at) for a, n, at in past.wrong if a == event.adult), (0, entry.at))
    over = count - FREE_TRIES
    wait = min(FIRST_WAIT_S * 2.0 ** min(over - 1, 7), LONGEST_WAIT_S) if over > 0 else 0.0
    gone = entry.at.since(last)
    early = gone is None or gone.s < wait
    return f"a PIN was tried after {count} wrong ones without a wait" if wait and early else ""


# --- what only an adult ends ---------------------------------------------------------------------


def _went_on_halted(house: House, past: Past, entry: Entry) -> str:
    stands = past.turn is not None and past.turn.halted
    return f"an interruption stands ({past.turn.halted})" if past.turn and stands else ""


def _ended_without_adult(house: House, past: Past, entry: Entry) -> str:
    event, turn = entry.event, past.turn
    if turn is None or past.cleared or past.owed == "cut_short":
        return ""
    slip = turn.is_slip and not (turn.ran or turn.run_seen)
    if isinstance(event, ev.SessionEnded):
        return "" if not turn.halted or slip else "an interruption ended without an adult"
    return "" if slip else "this was no slip of a finger: an adult must look"


def _recovery_left_out(house: House, past: Past, entry: Entry) -> str:
    trouble = past.turn.trouble if past.turn else past.trouble
    done = past.turn.recovered if past.turn else past.recovered
    due = house.recovery(trouble)[done:] if trouble else ()
    left = [step.id for step in due if step.who != "adult"]
    return f"recovery step {left[0]} was left out" if left else ""


def _halt_on_nothing(house: House, past: Past, entry: Entry) -> str:
    halted = past.turn.halted if past.turn else past.trouble
    return "" if halted else "there was no interruption to end"


PEOPLE = (
    Rule(
        "ok_by_adult",
        (ev.OkGiven,),
        "only an adult who has just looked gives the OK",
        "PUWER 1998 reg 9; MHSWR 1999 reg 3",
        _ok_by_nobody,
    ),
    Rule(
        "adult_step",
        (ev.StepDone,),
        "belt and table trap fingers and are heavy: an adult moves them",
        "PUWER 1998 reg 9; BS 4163",
        _step_by_wrong_one,
    ),
    Rule(
        "adult_allows",
        (ev.SaidAllowed, ev.LessonConfirmed),
        "only an adult takes over from a contact or after a restart",
        "PUWER 1998 reg 9",
        _not_just_passed,
    ),
    Rule(
        "signed_in",
        _AT_THE_DESK,
        "the record names the adult who decided",
        "PUWER 1998 reg 9; MHSWR 1999 reg 5",
        _not_signed,
    ),
    Rule(
        "lesson_closed",
        (ev.LessonClosed,),
        "a lesson ends by its adult or its time",
        "PUWER 1998 reg 9",
        _closed_by_nobody,
    ),
    Rule(
        "technician_returns",
        (ev.ReturnedToUse,),
        "a machine with a fault is mended by someone competent; whoever locks it off unlocks it",
        "PUWER 1998 reg 5 and 22; 29 CFR 1910.147(e)(3)",
        _returned_by_another,
    ),
    Rule(
        "spell_begins",
        (ev.SpellStarted,),
        "a spell is an adult who stays at the drill",
        "project's adult-check rule",
        _spell_from_nowhere,
    ),
    Rule(
        "pin_wait",
        (ev.PinTried,),
        "guessing must not pay",
        "NIST SP 800-63B 5.2.2",
        _too_soon,
    ),
    Rule(
        "halt_stands",
        (
            ev.StepDone,
            ev.SteppedBack,
            ev.CheckAsked,
            ev.OkGiven,
            ev.NotRight,
            ev.DrillingShown,
            ev.HoleDrilled,
            ev.SaidAllowed,
        ),
        "nothing goes on while an interruption stands",
        "ISO 13850, by likeness; project's safety position",
        _went_on_halted,
    ),
    Rule(
        "adult_ends_halt",
        (ev.SessionEnded, ev.MistakeCleared),
        "every recovery ends with an adult who looks",
        "PUWER 1998 reg 9; BS 4163",
        _ended_without_adult,
    ),
    Rule(
        "recovery_done",
        (ev.InterruptionCleared,),
        "what to do after a trouble is done in order",
        "MHSWR 1999 reg 8",
        _recovery_left_out,
    ),
    Rule(
        "halt_to_end",
        (ev.InterruptionCleared,),
        "the record tells what happened",
        "project's record",
        _halt_on_nothing,
    ),
)
