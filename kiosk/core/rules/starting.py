"""Rules for what must have been seen right before the OK and before the drilling screen."""

from __future__ import annotations

from functools import partial

from kiosk.core.events import DrillingShown, Entry, OkGiven, SessionStarted
from kiosk.core.model import Fact
from kiosk.core.rules.past import House, Past, Turn, not_asked
from kiosk.core.rules.rule import Rule

KEPT_FOR_S = 600.0
BEFORE = (OkGiven, DrillingShown)


def _begins(entry: Entry) -> bool:
    """Whether the event stands before a start; *again* is the same start shown once more."""
    return not (isinstance(entry.event, DrillingShown) and entry.event.ok == "again")


def _unseen(fact: Fact, house: House, past: Past, entry: Entry) -> str:
    turn = past.turn
    if turn is None or not _begins(entry) or fact in turn.facts:
        return ""
    return f"{fact.value} was not seen in this session before the start"


def _unseen_if_asked(fact: Fact, house: House, past: Past, entry: Entry) -> str:
    """The question, asked only where the plan has a use for it."""
    asked = past.turn is not None and fact not in not_asked(past.turn.plan)
    return _unseen(fact, house, past, entry) if asked else ""


def _ok_missing(house: House, past: Past, entry: Entry) -> str:
    event, turn = entry.event, past.turn
    assert isinstance(event, DrillingShown)
    if turn is None or not _begins(entry):
        return ""
    every = "hole" if "every_hole" in past.tighter else turn.plan.checks_every
    return "" if _ok_stands(past, turn, every) else f"no OK stands (one is due every {every})"


def _ok_stands(past: Past, turn: Turn, every: str) -> bool:
    if every == "hole":
        return turn.ok == "next"
    if every == "session":
        return turn.ok != ""
    return turn.ok != "" or past.kept == turn.plan.set_up


def _again_without_start(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, DrillingShown)
    return "" if event.ok != "again" or past.is_drilling else "the drilling screen did not stand"


def _not_kept(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, SessionStarted)
    if event.path != "joining" or entry.plan is None:
        return ""
    if past.kept != entry.plan.set_up:
        return "the set-up that the session joins is not the one that an adult gave the OK to"
    gap = entry.at.since(past.used) if past.used else None
    fresh = gap is not None and gap.s <= KEPT_FOR_S
    return "" if fresh else "the kept set-up was last used more than ten minutes ago"


def _fact(id: str, fact: Fact, reason: str, source: str) -> Rule:
    return Rule(id, BEFORE, reason, source, partial(_unseen, fact))


_CATCH = "a spindle that catches does not let go"
_HSE = "PUWER 1998 reg 11; entanglement cases published by HSE"

STARTING = (
    _fact("eyes", Fact.EYES, "swarf flies", "PPE at Work Regulations 1992; BS 4163"),
    _fact("hair", Fact.HAIR, _CATCH, _HSE),
    _fact("clothes", Fact.CLOTHES, _CATCH, _HSE),
    _fact("no_gloves", Fact.NO_GLOVES, "a caught glove takes the hand", "ISO 7010 P028"),
    _fact("marked", Fact.MARKED, "without a mark the bit wanders", "common practice"),
    _fact("on_mark", Fact.ON_MARK, "a bit beside its mark bends and breaks", "common practice"),
    _fact("held", Fact.HELD, "loose work spins with the bit", "PUWER 1998 reg 20"),
    _fact("push_test", Fact.PUSHED, "only a push shows that it is held", "PUWER 1998 reg 20"),
    _fact(
        "trial_stroke",
        Fact.TRIAL_STROKE,
        "after a change only an unpowered stroke shows what the bit would hit",
        "common practice",
    ),
    _fact(
        "guard",
        Fact.GUARD_DOWN,
        "a guard that was moved must come back",
        "PUWER 1998 reg 11; EN 12717; HSE PM83",
    ),
    Rule(
        "bit_true",
        BEFORE,
        "a bit that runs out grabs and breaks",
        "PUWER 1998 reg 12; common practice",
        partial(_unseen, Fact.BIT_TRUE),
    ),
    Rule(
        "bit_fitted",
        BEFORE,
        "the numbers are for this bit alone",
        "common practice",
        partial(_unseen, Fact.BIT_FITTED),
    ),
    Rule(
        "key_out",
        BEFORE,
        "a key left in the chuck is thrown at the start",
        "PUWER 1998 reg 12",
        partial(_unseen_if_asked, Fact.KEY_OUT),
    ),
    Rule(
        "speed_set",
        BEFORE,
        "too fast and the bit grabs or breaks",
        "PUWER 1998 reg 4; handbook cutting speeds",
        partial(_unseen, Fact.SPEED_SET),
    ),
    Rule(
        "belt_cover",
        BEFORE,
        "an open cover leaves belt and pulleys in reach",
        "PUWER 1998 reg 11; EN 12717",
        partial(_unseen, Fact.BELT_COVER_SHUT),
    ),
    Rule(
        "table_set",
        BEFORE,
        "a loose table drops",
        "BS 4163; common practice",
        partial(_unseen, Fact.TABLE_SET),
    ),
    Rule(
        "depth_set",
        BEFORE,
        "without a stop the bit comes through",
        "common practice",
        partial(_unseen_if_asked, Fact.DEPTH_SET),
    ),
    Rule(
        "dust_control",
        BEFORE,
        "wood dust harms lungs and nose",
        "COSHH 2002; EH40",
        partial(_unseen_if_asked, Fact.DUST_CONTROLLED),
    ),
    Rule(
        "adult_check",
        (DrillingShown,),
        "an adult looks after the last change and after anything that came between",
        "PUWER 1998 reg 9; project's adult-check rule",
        _ok_missing,
    ),
    Rule(
        "again",
        (DrillingShown,),
        "a hole not drilled yet is the same start, not a new one",
        "project's adult-check rule",
        _again_without_start,
    ),
    Rule(
        "kept_set_up",
        (SessionStarted,),
        "a set-up is kept for ten minutes of one lesson, with nothing between",
        "project's rule of the kept set-up",
        _not_kept,
    ),
)
