"""House rules over the order of a plan's steps. They live in code and can't be overridden.

`compile_plan` asks `plan_requirements` of every plan it makes. A rule's id is the id of the
control measure that it enforces in the risk assessment.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

from kiosk.core.model import Fact, Needs, Part
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.problems import Place, Problem

Steps: TypeAlias = tuple[PlanStep, ...]
Found: TypeAlias = "str | None"

MOST_LINES = 7  # more than this is not read at the machine
IN_THE_CHUCK = frozenset({Part.BIT, Part.CHUCK})
AT_THE_WORK = frozenset({Part.WORK, Part.HOLDING, Part.TABLE})
MOVES_GUARD = frozenset({Part.BIT, Part.CHUCK, Part.WORK, Part.HOLDING, Part.GUARD})


@dataclass(frozen=True)
class HouseRule:
    """One rule: the paths it looks at, why it is there, where it comes from, what breaks it."""

    id: str
    paths: tuple[str, ...]
    reason: str
    source: str
    broken: Callable[[Plan, Steps], Found]


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


# --- what may break a rule -----------------------------------------------------------------------


def _not_made(facts: tuple[Fact, ...], plan: Plan, steps: Steps) -> Found:
    made = {fact for step in steps[: _at(steps, "check")] for fact in step.makes}
    missing = [fact.value for fact in facts if fact not in made]
    return f"nothing makes sure of {', '.join(missing)} before the check" if missing else None


def _not_made_after(parts: frozenset[Part], fact: Fact, plan: Plan, steps: Steps) -> Found:
    """After the last touch of the parts, the same step or a later one must make the fact."""
    touched = [at for at, step in enumerate(steps) if parts & set(step.touches)]
    if not touched:
        return None
    last, until = touched[-1], _at(steps, "check")
    if any(fact in step.makes for step in steps[last:until]):
        return None
    return f"step {steps[last].id} is not followed by {fact.value}"


def _made_before(first: Fact, then: Fact, plan: Plan, steps: Steps) -> Found:
    """Whatever makes `then` must come with or after what makes `first`."""
    firsts = [at for at, step in enumerate(steps) if first in step.makes]
    early = next((at for at, step in enumerate(steps) if then in step.makes), None)
    if early is None or (firsts and firsts[0] <= early):
        return None
    return f"step {steps[early].id} comes before {first.value}"


def _needs_less(
    parts: frozenset[Part], needs: tuple[Needs, ...], plan: Plan, steps: Steps
) -> Found:
    wrong = [s.id for s in steps if parts & set(s.touches) and s.needs not in needs]
    return f"step {wrong[0]} does not ask for {needs[-1].value}" if wrong else None


def _isolator_not_first(plan: Plan, steps: Steps) -> Found:
    off = [at for at, step in enumerate(steps) if Fact.ISOLATOR_OFF in step.makes]
    hands = [at for at, step in enumerate(steps) if step.needs is Needs.ISOLATOR_OFF]
    if not hands or (off and off[0] < hands[0]):
        return None
    return f"step {steps[hands[0]].id} comes before the isolator is turned off"


def _not_by_adult(parts: frozenset[Part], plan: Plan, steps: Steps) -> Found:
    wrong = [s.id for s in steps if parts & set(s.touches) and s.who != "adult"]
    return f"step {wrong[0]} is not an adult's" if wrong else None


def _check_not_last(plan: Plan, steps: Steps) -> Found:
    ends = [(step.part, step.who) for step in steps[-2:]]
    parts = [step.part for step in steps]
    once = parts.count("check") == parts.count("drill") == 1
    if once and ends == [("check", "adult"), ("drill", "pupil")]:
        return None
    return "it does not end with one adult check and then one drilling step"


def _check_touches(plan: Plan, steps: Steps) -> Found:
    wrong = [s.id for s in steps if s.part in ("check", "drill") and s.touches]
    return f"step {wrong[0]} touches a part after the adult has looked" if wrong else None


def _not_shown_lines(plan: Plan, steps: Steps) -> Found:
    count = len(plan.look_for)
    if 1 <= count <= MOST_LINES:
        return None
    return f"{count} lines for an adult to look for; 1 to {MOST_LINES} are read"


def _too_seldom(plan: Plan, steps: Steps) -> Found:
    often = plan.checks_every in ("hole", "session", "set-up")
    return None if often else f"an adult looks every {plan.checks_every!r}"


def _at(steps: Steps, part: str) -> int:
    return next((at for at, step in enumerate(steps) if step.part == part), len(steps))


# --- only where it matters -----------------------------------------------------------------------


def _if_part_way(rule: Callable[[Plan, Steps], Found], plan: Plan, steps: Steps) -> Found:
    return rule(plan, steps) if plan.set_up.stop is not None else None


def _if_dusty(rule: Callable[[Plan, Steps], Found], plan: Plan, steps: Steps) -> Found:
    return rule(plan, steps) if dict(plan.values).get("dust") == "yes" else None


def _if_keyed(rule: Callable[[Plan, Steps], Found], plan: Plan, steps: Steps) -> Found:
    return rule(plan, steps) if dict(plan.values).get("chuck") == "keyed" else None


# --- the rules -----------------------------------------------------------------------------------

_ALL = ("fresh", "joining", "further")
_FIRST = ("fresh", "joining")  # what a session carries over from one hole to the next
_FRESH = ("fresh",)


def _made(*facts: Fact) -> Callable[[Plan, Steps], Found]:
    return partial(_not_made, facts)


def _after(parts: frozenset[Part], fact: Fact) -> Callable[[Plan, Steps], Found]:
    return partial(_not_made_after, parts, fact)


def _needs(parts: frozenset[Part], *needs: Needs) -> Callable[[Plan, Steps], Found]:
    return partial(_needs_less, parts, needs)


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
        _isolator_not_first,
    ),
    HouseRule(
        "hands_to_chuck",
        (*_ALL, "clear"),
        "a start by mistake with a hand in the chuck or at the belt",
        "PUWER 1998 reg 19 and 22",
        _needs(IN_THE_CHUCK | {Part.BELT}, Needs.ISOLATOR_OFF),
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
        partial(_if_keyed, _after(IN_THE_CHUCK, Fact.KEY_OUT)),
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
        partial(_not_by_adult, frozenset({Part.BELT, Part.TABLE})),
    ),
    HouseRule(
        "depth_set",
        _FRESH,
        "without a stop the bit comes through where it should not",
        "common practice",
        partial(_if_part_way, _made(Fact.DEPTH_SET)),
    ),
    HouseRule(
        "dust_control",
        _FIRST,
        "wood dust harms lungs and nose",
        "COSHH 2002; EH40",
        partial(_if_dusty, _made(Fact.DUST_CONTROLLED)),
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
        partial(_made_before, Fact.HELD, Fact.TRIAL_STROKE),
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
        _check_not_last,
    ),
    HouseRule(
        "last_touch",
        _ALL,
        "a change after the check was not looked at",
        "project's adult-check rule",
        _check_touches,
    ),
    HouseRule(
        "few_lines",
        _FRESH,
        "a long list is ticked, not read",
        "5 to 9 items at a pause point; aviation and theatre checklists",
        _not_shown_lines,
    ),
    HouseRule(
        "how_often",
        _FRESH,
        "how often an adult looks goes by level and bit",
        "project's adult-check rule",
        _too_seldom,
    ),
)
RULE_IDS = tuple(rule.id for rule in HOUSE_RULES)
