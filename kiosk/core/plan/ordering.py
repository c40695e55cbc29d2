"""What may be wrong with the order of a path's steps: the questions that house rules ask.

Each takes the plan and the steps of one path and says in words what is wrong, or None.
`requirements` puts them together with their reasons and sources.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from kiosk.core.model import Fact, Level, Needs, Part
from kiosk.core.plan.shape import Plan, PlanStep

Steps: TypeAlias = tuple[PlanStep, ...]
Parts: TypeAlias = frozenset[Part]
Found: TypeAlias = "str | None"
Question: TypeAlias = Callable[[Plan, Steps], "str | None"]

MOST_LINES = 7  # more than this is not read at the machine
LARGE_BIT_MM = 13.0  # over it an adult stands beside
OFTEN = {
    Level.ADULT_BESIDE: ("hole",),
    Level.SHOWN: ("hole",),
    Level.SUPERVISED: ("hole", "session"),
    Level.SIGNED_OFF: ("hole", "session", "set-up"),
}


def not_made(facts: tuple[Fact, ...], plan: Plan, steps: Steps) -> Found:
    """Every fact must be made by a step before the check."""
    made = {fact for step in steps[: _at(steps, "check")] for fact in step.makes}
    missing = [fact.value for fact in facts if fact not in made]
    return f"nothing makes sure of {', '.join(missing)} before the check" if missing else None


def not_made_after(parts: Parts, fact: Fact, plan: Plan, steps: Steps) -> Found:
    """After the last touch of the parts, the same step or a later one must make the fact."""
    touched = [at for at, step in enumerate(steps) if not parts.isdisjoint(step.touches)]
    if not touched:
        return None
    last, until = touched[-1], _at(steps, "check")
    if any(fact in step.makes for step in steps[last:until]):
        return None
    return f"step {steps[last].id} is not followed by {fact.value}"


def made_too_early(first: Fact, then: Fact, plan: Plan, steps: Steps) -> Found:
    """Whatever makes `then` must come with or after what makes `first`."""
    firsts = [at for at, step in enumerate(steps) if first in step.makes]
    early = next((at for at, step in enumerate(steps) if then in step.makes), None)
    if early is None or (firsts and firsts[0] <= early):
        return None
    return f"step {steps[early].id} comes before {first.value}"


def needs_less(parts: Parts, needs: tuple[Needs, ...], plan: Plan, steps: Steps) -> Found:
    """A step that touches the parts must ask for one of these before hands go in."""
    wrong = [s.id for s in steps if not parts.isdisjoint(s.touches) and s.needs not in needs]
    return f"step {wrong[0]} does not ask for {needs[-1].value}" if wrong else None


def isolator_not_first(plan: Plan, steps: Steps) -> Found:
    """The isolator is turned off before the first step that needs it off."""
    off = [at for at, step in enumerate(steps) if Fact.ISOLATOR_OFF in step.makes]
    hands = [at for at, step in enumerate(steps) if step.needs is Needs.ISOLATOR_OFF]
    if not hands or (off and off[0] < hands[0]):
        return None
    return f"step {steps[hands[0]].id} comes before the isolator is turned off"


def not_by_adult(parts: Parts, plan: Plan, steps: Steps) -> Found:
    """Only an adult's step may touch the parts."""
    wrong = [s.id for s in steps if not parts.isdisjoint(s.touches) and s.who != "adult"]
    return f"step {wrong[0]} is not an adult's" if wrong else None


def check_not_last(plan: Plan, steps: Steps) -> Found:
    """A path ends with one adult check and then one drilling step."""
    ends = [(step.part, step.who) for step in steps[-2:]]
    parts = [step.part for step in steps]
    once = parts.count("check") == parts.count("drill") == 1
    if once and ends == [("check", "adult"), ("drill", "pupil")]:
        return None
    return "it does not end with one adult check and then one drilling step"


def touched_after_check(plan: Plan, steps: Steps) -> Found:
    """Neither the check nor the drilling step may touch a part."""
    wrong = [s.id for s in steps if s.part in ("check", "drill") and s.touches]
    return f"step {wrong[0]} touches a part after the adult has looked" if wrong else None


def too_many_lines(plan: Plan, steps: Steps) -> Found:
    """There are some lines for the adult, and no more than are read."""
    count = len(plan.look_for)
    if 1 <= count <= MOST_LINES:
        return None
    return f"{count} lines for an adult to look for; 1 to {MOST_LINES} are read"


def looks_too_seldom(plan: Plan, steps: Steps) -> Found:
    """An adult must look as often as the level and the size of the bit ask."""
    large = plan.set_up.diameter.mm > LARGE_BIT_MM
    allowed = ("hole",) if large else OFTEN[plan.level]
    if plan.checks_every in allowed:
        return None
    return f"an adult looks every {plan.checks_every}, not every {allowed[-1]}"


def _at(steps: Steps, part: str) -> int:
    return next((at for at, step in enumerate(steps) if step.part == part), len(steps))


def if_part_way(rule: Question, plan: Plan, steps: Steps) -> Found:
    """The question, asked only where the hole goes part-way."""
    return rule(plan, steps) if plan.set_up.stop is not None else None


def if_dusty(rule: Question, plan: Plan, steps: Steps) -> Found:
    """The question, asked only where the material makes dust."""
    return rule(plan, steps) if dict(plan.values).get("dust") == "yes" else None


def if_keyed(rule: Question, plan: Plan, steps: Steps) -> Found:
    """The question, asked only where the chuck has a key."""
    return rule(plan, steps) if dict(plan.values).get("chuck") == "keyed" else None
