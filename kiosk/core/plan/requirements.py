"""House rules over the order of a plan's steps. They live in code and can't be overridden.

`compile_plan` asks `plan_requirements` of every plan it makes. A rule's id is the id of the
control measure that it enforces in the risk assessment.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from kiosk.core.model import Fact, Needs, Part
from kiosk.core.plan.ordering import (
    Parts,
    Question,
    check_not_last,
    if_dusty,
    if_keyed,
    if_part_way,
    isolator_not_first,
    looks_too_seldom,
    made_too_early,
    needs_less,
    not_by_adult,
    not_made,
    not_made_after,
    too_many_lines,
    touched_after_check,
)
from kiosk.core.plan.shape import Plan
from kiosk.core.problems import Place, Problem

IN_THE_CHUCK = frozenset({Part.BIT, Part.CHUCK})
HANDS_IN = IN_THE_CHUCK | {Part.BELT}
AT_THE_WORK = frozenset({Part.WORK, Part.HOLDING, Part.TABLE})
MOVES_GUARD = frozenset({Part.BIT, Part.CHUCK, Part.WORK, Part.HOLDING, Part.GUARD})


@dataclass(frozen=True)
class HouseRule:
    """One rule: the paths it looks at, why it is there, where it comes from, what breaks it."""

    id: str
    paths: tuple[str, ...]
    reason: str
    source: str
    broken: Question


def plan_requirements(plan: Plan) -> tuple[Problem, ...]:
    """Every house rule that the order of the plan's steps breaks, with its path and reason."""
    return tuple(
        _problem(plan, path, rule, found)
        for rule in HOUSE_RULES
        for path in rule.paths
        if (found := rule.broken(plan, plan.path(path)))
    )


def _problem(plan: Plan, path: str, rule: HouseRule, found: str) -> Problem:
    where = f"plan of {plan.job}, hole {plan.hole + 1}, {plan.level.value}, {path}"
    return Problem(Place(where), f"house rule {rule.id}: {found}", advice=rule.reason)


# --- the rules -----------------------------------------------------------------------------------

_ALL = ("fresh", "joining", "further")
_FIRST = ("fresh", "joining")  # what a session carries over from one hole to the next
_FRESH = ("fresh",)


def _made(*facts: Fact) -> Question:
    return partial(not_made, facts)


def _after(parts: Parts, fact: Fact) -> Question:
    return partial(not_made_after, parts, fact)


def _needs(parts: Parts, *needs: Needs) -> Question:
    return partial(needs_less, parts, needs)


_BOTH = (Needs.ISOLATOR_OFF, Needs.STILL)

HOUSE_RULES = (
    HouseRule(
        "eyes",
        _FIRST,
        "swarf and broken bits fly",
        "PPE at Work Regulations 1992; EN 166, EN ISO 16321",
        _made(Fact.EYES),
    ),
    HouseRule(
        "hair",
        _FIRST,
        "a spindle that catches hair does not let go",
        "PUWER 1998 reg 11; entanglement cases published by HSE",
        _made(Fact.HAIR),
    ),
    HouseRule(
        "clothes",
        _FIRST,
        "sleeves, ties and cords are wound in",
        "PUWER 1998 reg 11; entanglement cases published by HSE",
        _made(Fact.CLOTHES),
    ),
    HouseRule(
        "no_gloves",
        _FIRST,
        "a caught glove takes the hand with it",
        "ISO 7010 P028; glove cases published by HSE",
        _made(Fact.NO_GLOVES),
    ),
    HouseRule(
        "isolator_off",
        _ALL,
        "a start by mistake with a hand in the chuck or at the belt",
        "PUWER 1998 reg 19 and 22",
        isolator_not_first,
    ),
    HouseRule(
        "hands_to_chuck",
        (*_ALL, "clear"),
        "a start by mistake with a hand in the chuck or at the belt",
        "PUWER 1998 reg 19 and 22",
        _needs(HANDS_IN, Needs.ISOLATOR_OFF),
    ),
    HouseRule(
        "still_before_hands",
        (*_ALL, "clear"),
        "a spindle running down still catches",
        "PUWER 1998 reg 11; apprentice case published by HSE",
        _needs(AT_THE_WORK, *_BOTH),
    ),
    HouseRule(
        "bit_true",
        _ALL,
        "a bit that runs out wanders, grabs and breaks",
        "common practice",
        _after(frozenset({Part.BIT}), Fact.BIT_TRUE),
    ),
    HouseRule(
        "key_out",
        _ALL,
        "a key left in the chuck is thrown at the start",
        "PUWER 1998 reg 12; common practice",
        partial(if_keyed, _after(IN_THE_CHUCK, Fact.KEY_OUT)),
    ),
    HouseRule(
        "belt_cover",
        _ALL,
        "an open belt cover leaves belt and pulleys in reach",
        "PUWER 1998 reg 11; EN 12717",
        _after(frozenset({Part.BELT}), Fact.BELT_COVER_SHUT),
    ),
    HouseRule(
        "speed_set",
        _FRESH,
        "a bit that runs too fast burns, grabs or breaks",
        "handbook cutting speeds, see the figures",
        _made(Fact.SPEED_SET, Fact.BIT_FITTED, Fact.TABLE_SET),
    ),
    HouseRule(
        "adult_moves",
        _ALL,
        "belt and table trap fingers and are heavy",
        "PUWER 1998 reg 9; BS 4163",
        partial(not_by_adult, frozenset({Part.BELT, Part.TABLE})),
    ),
    HouseRule(
        "depth_set",
        _FRESH,
        "without a stop the bit comes through where it should not",
        "common practice",
        partial(if_part_way, _made(Fact.DEPTH_SET)),
    ),
    HouseRule(
        "dust_control",
        _FIRST,
        "wood dust harms lungs and nose",
        "COSHH 2002; EH40",
        partial(if_dusty, _made(Fact.DUST_CONTROLLED)),
    ),
    HouseRule(
        "kept_seen",
        ("joining",),
        "a set-up that somebody else made may have been changed",
        "common practice",
        _made(Fact.SET_UP_SEEN),
    ),
    HouseRule(
        "held",
        _ALL,
        "loose work spins with the bit",
        "PUWER 1998 reg 20",
        _made(Fact.HELD, Fact.PUSHED),
    ),
    HouseRule(
        "push_test",
        _ALL,
        "only a push shows whether the work is held",
        "PUWER 1998 reg 20; common practice",
        _after(frozenset({Part.HOLDING}), Fact.PUSHED),
    ),
    HouseRule(
        "marked",
        _ALL,
        "a bit without a mark wanders and breaks",
        "common practice",
        _made(Fact.MARKED, Fact.ON_MARK),
    ),
    HouseRule(
        "trial_stroke",
        _ALL,
        "an unpowered stroke shows what the bit would hit",
        "common practice",
        _made(Fact.TRIAL_STROKE),
    ),
    HouseRule(
        "trial_after_hold",
        _ALL,
        "a stroke tried before the work was held shows nothing",
        "common practice",
        partial(made_too_early, Fact.HELD, Fact.TRIAL_STROKE),
    ),
    HouseRule(
        "guard",
        _ALL,
        "the guard keeps hands, hair and swarf apart",
        "PUWER 1998 reg 11; EN 12717; BS 4163",
        _made(Fact.GUARD_DOWN),
    ),
    HouseRule(
        "guard_back",
        _ALL,
        "a guard moved for work or bit must come back",
        "PUWER 1998 reg 11; EN 12717",
        _after(MOVES_GUARD, Fact.GUARD_DOWN),
    ),
    HouseRule(
        "adult_check",
        _ALL,
        "an adult looks after the last change and before the start",
        "PUWER 1998 reg 9; project's adult-check rule",
        check_not_last,
    ),
    HouseRule(
        "last_touch",
        _ALL,
        "a change after the check was not looked at",
        "project's adult-check rule",
        touched_after_check,
    ),
    HouseRule(
        "few_lines",
        _FRESH,
        "a long list is ticked, not read",
        "5 to 9 items at a pause point; aviation and theatre checklists",
        too_many_lines,
    ),
    HouseRule(
        "how_often",
        _FRESH,
        "how often an adult looks goes by level and bit",
        "project's adult-check rule",
        looks_too_seldom,
    ),
)
RULE_IDS = tuple(rule.id for rule in HOUSE_RULES)
