"""House rules over plans: every rule can be broken, and is then named with its reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.model import Content, Fact, Level, Needs, Part
from kiosk.core.plan import Plan, PlanStep, compile_plan, plan_requirements
from kiosk.core.plan.requirements import HOUSE_RULES, RULE_IDS

Steps = tuple[PlanStep, ...]
PATHS = ("fresh", "joining", "further", "clear")


@pytest.fixture(scope="module")
def content() -> Content:
    """The shipped content."""
    found = load(Path(__file__).parents[2] / "sequences").content
    assert found is not None
    return found


@pytest.fixture(scope="module")
def plan(content: Content) -> Plan:
    """A part-way hole in dusty pine: every rule has something to look at."""
    job = content.job("pen_block")
    assert job is not None
    made = compile_plan(content, content.machines[0], job, 0, Level.SHOWN)
    assert isinstance(made, Plan)
    return made


def on_paths(change: Callable[[Steps], Steps], *names: str) -> Callable[[Plan], Plan]:
    """The plan with some of its paths changed."""
    return lambda plan: replace(plan, **{name: change(plan.path(name)) for name in names})


def without(fact: Fact) -> Callable[[Steps], Steps]:
    """Nothing makes the fact any more."""
    return lambda steps: tuple(
        replace(s, makes=tuple(f for f in s.makes if f is not fact)) for s in steps
    )


def needing(needs: Needs, part: Part) -> Callable[[Steps], Steps]:
    """Steps that touch the part ask only for `needs`."""
    return lambda steps: tuple(replace(s, needs=needs) if part in s.touches else s for s in steps)


def touched_last(part: Part, who: str = "pupil") -> Callable[[Steps], Steps]:
    """One more step touches the part just before the check."""

    def change(steps: Steps) -> Steps:
        extra = replace(
            steps[0],
            id="extra",
            who=who,
            touches=(part,),
            makes=(Fact.ISOLATOR_OFF,),
            needs=Needs.ISOLATOR_OFF,
        )
        return (*steps[:-2], extra, *steps[-2:])

    return change


def swapped(first: str, then: str) -> Callable[[Steps], Steps]:
    """Two steps of the path in each other's place."""

    def change(steps: Steps) -> Steps:
        by_id = {step.id: step for step in steps}
        other = {first: by_id[then], then: by_id[first]}
        return tuple(other.get(step.id, step) for step in steps)

    return change


def touching_check(steps: Steps) -> Steps:
    """The drilling step moves the work."""
    return (*steps[:-1], replace(steps[-1], touches=(Part.WORK,), needs=Needs.STILL))


BREAKS: dict[str, Callable[[Plan], Plan]] = {
    "eyes": on_paths(without(Fact.EYES), "joining"),
    "hair": on_paths(without(Fact.HAIR), "fresh"),
    "clothes": on_paths(without(Fact.CLOTHES), "joining"),
    "no_gloves": on_paths(without(Fact.NO_GLOVES), "fresh"),
    "isolator_off": on_paths(without(Fact.ISOLATOR_OFF), "fresh"),
    "hands_to_chuck": on_paths(needing(Needs.STILL, Part.CHUCK), "fresh"),
    "still_before_hands": on_paths(needing(Needs.NOTHING, Part.WORK), "clear"),
    "bit_true": on_paths(without(Fact.BIT_TRUE), "fresh"),
    "key_out": on_paths(touched_last(Part.CHUCK), "fresh"),
    "belt_cover": on_paths(without(Fact.BELT_COVER_SHUT), "fresh"),
    "speed_set": on_paths(without(Fact.SPEED_SET), "fresh"),
    "adult_moves": on_paths(touched_last(Part.BELT), "joining"),
    "depth_set": on_paths(without(Fact.DEPTH_SET), "fresh"),
    "dust_control": on_paths(without(Fact.DUST_CONTROLLED), "joining"),
    "kept_seen": on_paths(without(Fact.SET_UP_SEEN), "joining"),
    "held": on_paths(without(Fact.HELD), "further"),
    "push_test": on_paths(touched_last(Part.HOLDING), "joining"),
    "marked": on_paths(without(Fact.ON_MARK), "further"),
    "trial_stroke": on_paths(without(Fact.TRIAL_STROKE), "further"),
    "trial_after_hold": on_paths(swapped("trial", "hold_vice"), "fresh"),
    "guard": on_paths(without(Fact.GUARD_DOWN), "joining"),
    "guard_back": on_paths(touched_last(Part.WORK), "joining"),
    "adult_check": on_paths(lambda steps: (*steps[:-2], steps[-1]), "further"),
    "last_touch": on_paths(touching_check, "fresh"),
    "few_lines": lambda plan: replace(plan, look_for=(*plan.look_for, "one", "two")),
    "how_often": lambda plan: replace(plan, checks_every="session"),
}


def test_the_shipped_plan_breaks_no_rule(plan: Plan) -> None:
    assert plan_requirements(plan) == ()


def test_there_is_a_break_for_every_rule() -> None:
    assert set(BREAKS) == set(RULE_IDS)


@pytest.mark.parametrize("rule", RULE_IDS)
def test_a_broken_rule_is_named(rule: str, plan: Plan) -> None:
    broken = BREAKS[rule](plan)

    found = [str(problem) for problem in plan_requirements(broken)]

    assert any(f"house rule {rule}:" in line for line in found), found


@pytest.mark.parametrize("rule", HOUSE_RULES, ids=lambda rule: rule.id)
def test_every_rule_has_a_reason_and_a_source(rule: object) -> None:
    assert getattr(rule, "reason") and getattr(rule, "source")  # noqa: B009
    assert set(getattr(rule, "paths")) <= set(PATHS)  # noqa: B009


def test_a_broken_rule_says_where_and_why(plan: Plan) -> None:
    broken = on_paths(without(Fact.EYES), "joining")(plan)

    assert [str(problem) for problem in plan_requirements(broken)] == [
        "plan of pen_block, hole 1, shown, joining: house rule eyes: nothing makes sure of eyes"
        " before the check; swarf and broken bits fly"
    ]


def test_a_large_bit_asks_for_an_adult_at_every_hole(plan: Plan) -> None:
    large = replace(plan.set_up, diameter=replace(plan.set_up.diameter, mm=16.0))
    wrong = replace(plan, level=Level.SIGNED_OFF, checks_every="set-up", set_up=large)

    assert any("how_often" in str(problem) for problem in plan_requirements(wrong))


NEEDED_STEPS = (
    "eyes",
    "hair",
    "clothes",
    "isolator_off",
    "belt",
    "table",
    "bit",
    "straight",
    "key",
    "mark_line",
    "hold_vice",
    "on_mark_vice",
    "push",
    "depth",
    "trial",
    "guard_dust",
    "adult_check",
    "drill_part_way_lift",
    "look_part_way_dust",
    "ready_again",
    "again_vice",
    "next_vice",
    "dust_vacuum",
)


@pytest.mark.parametrize("id", NEEDED_STEPS)
def test_a_sequence_without_a_step_gives_no_plan(id: str, content: Content) -> None:
    steps = content.drilling.steps
    assert id in {step.id for step in steps}
    left = replace(content.drilling, steps=tuple(s for s in steps if s.id != id))
    job = content.job("pen_block")
    assert job is not None

    made = compile_plan(replace(content, drilling=left), content.machines[0], job, 0, Level.SHOWN)

    assert isinstance(made, tuple)
    assert all("house rule" in str(problem) for problem in made)
