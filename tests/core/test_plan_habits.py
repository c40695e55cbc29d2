"""Steps for every kind of drill: how the isolator is used, chuck, stop, dust control, contacts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from kiosk.content import Loaded, load
from kiosk.core.model import (
    ContactPair,
    Content,
    Habit,
    Hole,
    Job,
    Level,
    Machine,
    Needs,
    Part,
    Sequence,
    Step,
    When,
    Wiring,
    Work,
)
from kiosk.core.plan import Plan, PlanStep, compile_plan, compile_recovery
from kiosk.core.plan.conditions import machine_situation, stands
from kiosk.core.plan.recovering import RECOVERY_RULES, recovery_requirements
from kiosk.core.units import Length

TROUBLES = ("bit_broken", "bit_jammed", "work_spun", "smoke", "hurt", "alarm", "power", "gone")
MOST_JOINING = 6  # steps before the check
DRILLS = tuple(product(Habit, (True, False), (True, False), ("vacuum", "fixed extraction")))
WORKS = (
    Work("bar", Length(40.0), Length(20.0), Length(120.0)),
    Work("sheet", Length(90.0), Length(12.0), Length(200.0)),
    Work("round bar", Length(40.0), Length(40.0), Length(120.0)),
)


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    """The shipped content and its words."""
    return load(Path(__file__).parents[2] / "sequences")


@pytest.fixture(scope="module")
def content(loaded: Loaded) -> Content:
    """The shipped content."""
    assert loaded.content is not None
    return loaded.content


def drill(content: Content, habit: Habit, keyed: bool, stop: bool, extraction: str) -> Machine:
    """The first shipped drill, with other features."""
    first = content.machines[0]
    return replace(first, habit=habit, keyed_chuck=keyed, depth_stop=stop, extraction=extraction)


def plans_on(content: Content, machine: Machine) -> list[Plan]:
    """Plans of metal, wood and plastic, through and part-way, in a vice and under clamps."""
    kinds = (("mild_steel", "twist"), ("pine", "lip_and_spur"), ("acrylic", "plastics"))
    made = [
        compile_plan(content, machine, _job(material, bit, depth, work), 0, Level.SHOWN)
        for (material, bit), depth, work in product(kinds, (None, Length(5.0)), WORKS)
    ]
    return [plan for plan in made if isinstance(plan, Plan)]


def _job(material: str, bit: str, depth: Length | None, work: Work) -> Job:
    return Job("asked", "Asked", material, work, (Hole("one", bit, Length(8.0), depth, 2),))


def paths(plan: Plan) -> tuple[tuple[PlanStep, ...], ...]:
    """Every way through a plan."""
    return plan.fresh, plan.joining, plan.further, plan.clear


def said(loaded: Loaded, step: PlanStep) -> str:
    """All that a step says to those at the drill."""
    names = ("title", "say", "see", "note", "check")
    return " ".join(loaded.words.maybe(f"step.{step.id}.{name}") for name in names).lower()


@pytest.mark.parametrize("kind", DRILLS, ids=str)
def test_every_drill_has_a_plan_within_the_touches_of_a_lesson(
    content: Content, kind: tuple[Habit, bool, bool, str]
) -> None:
    plans = plans_on(content, drill(content, *kind))

    assert len(plans) >= 12
    for plan in plans:
        assert len(plan.joining) - 2 <= MOST_JOINING
        assert len(plan.further) - 2 == 1
        assert 1 <= len(plan.look_for) <= 7


@pytest.mark.parametrize("kind", DRILLS, ids=str)
def test_of_steps_that_differ_by_conditions_exactly_one_stands(
    content: Content, loaded: Loaded, kind: tuple[Habit, bool, bool, str]
) -> None:
    for plan in plans_on(content, drill(content, *kind)):
        for path in paths(plan):
            titles = [loaded.words.say(f"step.{step.id}.title") for step in path]
            assert len(titles) == len(set(titles)), titles
        assert sum(step.part == "look" for step in plan.joining) == 1
        assert sum(step.id.startswith("leave") for step in plan.clear) == 1


@pytest.mark.parametrize("habit", list(Habit))
def test_nobody_is_sent_to_an_isolator_or_a_plug_that_is_not_there(
    content: Content, loaded: Loaded, habit: Habit
) -> None:
    strange = "isolator" if habit is Habit.PLUG else "plug"

    for plan in plans_on(content, drill(content, habit, True, True, "vacuum")):
        for path in paths(plan):
            assert [s.id for s in path if strange in said(loaded, s)] == []


def test_nobody_is_sent_to_a_key_that_is_not_there(content: Content, loaded: Loaded) -> None:
    keyless = drill(content, Habit.BIT_AND_BELT, False, True, "vacuum")

    for plan in plans_on(content, keyless):
        asked = [s.id for path in paths(plan) for s in path if "on its hook" in said(loaded, s)]
        assert asked == []


def test_nobody_is_sent_to_a_depth_stop_that_is_not_there(content: Content, loaded: Loaded) -> None:
    for plan in plans_on(content, drill(content, Habit.DAY_END, True, False, "vacuum")):
        asked = [s.id for path in paths(plan) for s in path if "depth stop" in said(loaded, s)]
        assert asked == []


@pytest.mark.parametrize(
    ("habit", "ids"),
    [
        (Habit.EVERY_HOLE, {"isolator_off", "ready_again_off", "next_vice_off", "off_after"}),
        (Habit.BIT_AND_BELT, {"isolator_off", "ready_again", "next_vice", "leave"}),
        (Habit.DAY_END, {"isolator_off", "ready_again", "next_vice", "leave_day_end"}),
        (Habit.PLUG, {"plug_out", "ready_again", "next_vice", "plug_after"}),
    ],
)
def test_each_habit_has_its_own_steps(content: Content, habit: Habit, ids: set[str]) -> None:
    job = content.job("pen_block")
    assert job is not None

    plan = compile_plan(content, drill(content, habit, True, True, "vacuum"), job, 0, Level.SHOWN)

    assert isinstance(plan, Plan), plan
    assert ids <= {step.id for path in paths(plan) for step in path}


def test_metal_has_a_drop_of_fluid_at_every_hole_and_is_wiped_up(content: Content) -> None:
    bar = content.job("hook_bar")
    assert bar is not None

    plan = compile_plan(content, content.machines[0], bar, 0, Level.SHOWN)

    assert isinstance(plan, Plan), plan
    for path in (plan.fresh, plan.joining, plan.further):
        assert any("cutting_fluid" in step.controls for step in path)
    assert any("wipe_up" in step.controls for step in plan.clear)


def test_round_work_lies_in_a_v_block(content: Content) -> None:
    plans = plans_on(content, content.machines[0])

    round_plans = [p for p in plans if dict(p.values)["shape"] == "round bar"]

    assert round_plans
    assert all("hold_round" in {step.id for step in plan.fresh} for plan in round_plans)


@pytest.mark.parametrize(
    ("words", "inputs", "holds"),
    [
        (("starter",), ("isolator", "starter"), True),
        (("spindle", "isolator"), ("isolator",), True),
        (("spindle",), ("isolator",), False),
        (("none",), (), True),
        (("none",), ("isolator",), False),
    ],
)
def test_a_step_may_stand_by_the_contacts_that_are_wired(
    content: Content, words: tuple[str, ...], inputs: tuple[str, ...], holds: bool
) -> None:
    wiring = Wiring("modbus", inputs=tuple((name, ContactPair(0)) for name in inputs))
    machine = replace(content.machines[0], wiring=wiring)
    step = Step("x", "clear", (), "", when=When((("contact", words),)))

    assert stands(step, None, machine_situation(machine)) is holds


# --- recoveries ----------------------------------------------------------------------------------


@pytest.mark.parametrize("habit", list(Habit))
@pytest.mark.parametrize("trouble", TROUBLES)
def test_every_recovery_fits_every_habit(
    content: Content, loaded: Loaded, trouble: str, habit: Habit
) -> None:
    machine = drill(content, habit, True, True, "vacuum")
    strange = "turn the isolator" if habit is Habit.PLUG else "pull the plug"

    steps = compile_recovery(content, machine, trouble)

    assert steps[-1].who == "adult"
    assert [step.id for step in steps if strange in said(loaded, step)] == []
    sequence = content.recovery(trouble)
    assert sequence is not None
    assert recovery_requirements(sequence, machine) == ()


@pytest.mark.parametrize("trouble", ["bit_broken", "bit_jammed", "smoke", "power"])
def test_power_is_cut_before_an_adults_hands_go_in(content: Content, trouble: str) -> None:
    for habit in Habit:
        steps = compile_recovery(content, drill(content, habit, True, True, "vacuum"), trouble)
        cut = [at for at, step in enumerate(steps) if "off_in_trouble" in step.controls]
        hands = [at for at, step in enumerate(steps) if step.touches]
        assert cut and all(cut[0] < at for at in hands)


Change = Callable[[Step], Step]
BREAKS: dict[str, Change] = {
    "hands_to_chuck": lambda s: replace(s, needs=Needs.STILL) if s.touches else s,
    "still_before_hands": lambda s: replace(s, needs=Needs.NOTHING) if s.touches else s,
    "adult_frees": lambda s: replace(s, touches=(Part.BIT,), needs=Needs.ISOLATOR_OFF),
    "adult_ends": lambda s: replace(s, who="pupil", touches=()),
}


@pytest.mark.parametrize("rule", RECOVERY_RULES, ids=lambda rule: rule.id)
def test_a_broken_rule_of_a_recovery_is_named_with_its_reason(
    rule: object, content: Content
) -> None:
    id, reason = getattr(rule, "id"), getattr(rule, "reason")  # noqa: B009
    shipped = content.recovery("bit_jammed")
    assert shipped is not None
    broken = Sequence(shipped.id, shipped.kind, tuple(map(BREAKS[id], shipped.steps)), shipped.file)

    found = [str(p) for p in recovery_requirements(broken, content.machines[0])]

    assert any(f"house rule {id}:" in line and line.endswith(reason) for line in found), found
    assert getattr(rule, "source")  # noqa: B009
