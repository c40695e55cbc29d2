"""Plans compiled from the shipped content: figures, steps, checks and refusals."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.machining.vice import holding_way
from kiosk.core.machining.worked import Figure
from kiosk.core.model import Content, Hole, Job, Level, Part, Work
from kiosk.core.plan import Plan, compile_plan, compile_recovery
from kiosk.core.plan.holding import checks_every
from kiosk.core.plan.shape import canonical, plain
from kiosk.core.units import Duration, Length, SpindleSpeed

BAR = Work("bar", Length(40.0), Length(6.0), Length(120.0))
SET_UP = {Part.BIT, Part.CHUCK, Part.BELT, Part.TABLE, Part.STOP}


@pytest.fixture(scope="module")
def content() -> Content:
    """The shipped content."""
    found = load(Path(__file__).parents[2] / "sequences").content
    assert found is not None
    return found


def plan_of(content: Content, job: str, hole: int = 0, level: Level = Level.SHOWN) -> Plan:
    """The plan of a shipped job's hole on the shipped machine."""
    found = content.job(job)
    assert found is not None
    plan = compile_plan(content, content.machines[0], found, hole, level)
    assert isinstance(plan, Plan), plan
    return plan


def refusal(content: Content, job: Job) -> str:
    """Why the first hole of a job gets no plan."""
    plan = compile_plan(content, content.machines[0], job, 0, Level.SHOWN)
    assert isinstance(plan, tuple)
    return str(plan[0])


def asked(material: str, bit: str, diameter: float, depth: float | None, work: Work) -> Job:
    """A job with one hole."""
    deep = None if depth is None else Length(depth)
    return Job("asked", "Asked", material, work, (Hole("one", bit, Length(diameter), deep, 1),))


def figure(plan: Plan, name: str) -> Figure:
    """The plan's figure of that name."""
    return next(each for each in plan.figures if each.name == name)


def test_an_8_mm_hole_in_mild_steel_runs_at_the_fastest_groove_for_pupils(content: Content) -> None:
    plan = plan_of(content, "hook_bar")

    # 1000 x (20 + (37 - 20) / 3) / (pi x 8) = 1021 rpm at most: the lower third of 20 to 37 m/min
    # (US Navy training manual 14345 and trade tables); the plate gives 1200, 810 and 500 rpm.
    assert figure(plan, "speed").value == SpindleSpeed(810.0)
    assert plan.set_up.groove == 4
    assert "1021 rpm at most" in figure(plan, "speed").working
    assert "US Navy training manual" in figure(plan, "speed").source


def test_a_through_hole_needs_no_stop_and_says_how_thick_the_scrap_is(content: Content) -> None:
    plan = plan_of(content, "hook_bar")

    assert plan.set_up.stop is None
    assert "depth" not in {step.id for step in plan.fresh}
    scrap = figure(plan, "scrap").value
    assert isinstance(scrap, Length)
    assert scrap.mm == 5.0  # 118 degree point 0.3 d, overrun 2 mm: 4.4 mm, rounded up


def test_a_part_way_hole_sets_the_stop_by_depth_and_point(content: Content) -> None:
    plan = plan_of(content, "pen_block")

    # 30 mm + 10 / 2 / tan 60 degrees = 32.89 mm, rounded down to the thicker floor
    assert plan.set_up.stop == Length(32.5)
    assert dict(plan.values)["floor"] == Length(12.5)
    assert "depth" in plan.look_for


@pytest.mark.parametrize("job", ["hook_bar", "pen_block", "key_tag", "peg_board", "shelf_bracket"])
def test_every_way_ends_with_one_check_and_one_drilling_step(content: Content, job: str) -> None:
    plan = plan_of(content, job)

    for path in (plan.fresh, plan.joining, plan.further):
        assert [step.part for step in path[-2:]] == ["check", "drill"]
        assert [step.part for step in path].count("drill") == 1


@pytest.mark.parametrize("level", list(Level))
@pytest.mark.parametrize("job", ["hook_bar", "pen_block", "key_tag", "peg_board", "shelf_bracket"])
def test_touches_stay_within_what_a_lesson_has_time_for(
    content: Content, job: str, level: Level
) -> None:
    plan = plan_of(content, job, level=level)

    before_check = [s for s in plan.joining if s.part not in ("check", "drill")]
    assert len(before_check) + 2 <= 8  # number and job are touched before
    assert [s.part for s in plan.further] == ["look", "check", "drill"]
    assert len(plan.fresh) <= 22
    assert len(plan.look_for) <= 7


def test_a_joining_pupil_touches_no_part_of_the_kept_set_up(content: Content) -> None:
    plan = plan_of(content, "pen_block")

    for step in (*plan.joining, *plan.further, *plan.clear):
        assert not SET_UP & set(step.touches), step.id


def test_steps_stand_by_the_material(content: Content) -> None:
    steel, pine = plan_of(content, "hook_bar"), plan_of(content, "pen_block")

    steel_ids = {step.id for path in (steel.fresh, steel.clear) for step in path}
    pine_ids = {step.id for path in (pine.fresh, pine.clear) for step in path}
    assert {"mark_punch", "guard_fluid", "brush_fluid"} <= steel_ids
    assert {"mark_line", "guard_dust", "vacuum"} <= pine_ids
    assert not steel_ids & {"mark_line", "vacuum", "dust_vacuum", "plug_out"}
    assert not pine_ids & {"mark_punch", "brush_fluid", "brush", "guard_fluid"}


def test_only_pupils_new_to_the_drill_point_to_the_stops(content: Content) -> None:
    shown = plan_of(content, "hook_bar", level=Level.SHOWN)
    supervised = plan_of(content, "hook_bar", level=Level.SUPERVISED)

    assert "stops" in {step.id for step in shown.fresh}
    assert "stops" not in {step.id for step in supervised.fresh}


@pytest.mark.parametrize(
    ("level", "every"),
    [
        (Level.ADULT_BESIDE, "hole"),
        (Level.SHOWN, "hole"),
        (Level.SUPERVISED, "session"),
        (Level.SIGNED_OFF, "set-up"),
    ],
)
def test_an_adult_looks_as_often_as_the_level_asks(
    content: Content, level: Level, every: str
) -> None:
    assert plan_of(content, "hook_bar", level=level).checks_every == every


@pytest.mark.parametrize(
    ("bit", "diameter", "work"),
    [
        ("forstner", 12.0, BAR),
        ("twist", 13.5, BAR),
        ("twist", 8.0, Work("sheet", Length(90.0), Length(2.0), Length(200.0))),
        ("twist", 8.0, Work("bar", Length(20.0), Length(6.0), Length(60.0))),
        ("twist", 8.0, Work("small part", Length(20.0), Length(6.0), Length(90.0))),
    ],
    ids=["forstner", "over 13 mm", "thin sheet", "short work", "small part"],
)
def test_hard_holes_ask_for_an_adult_at_every_hole_whatever_the_level(
    content: Content, bit: str, diameter: float, work: Work
) -> None:
    kind = content.bit(bit)
    assert kind is not None

    assert checks_every(Level.SIGNED_OFF, kind, Length(diameter), work) == "hole"
    easy = content.bit("twist")
    assert easy is not None
    assert checks_every(Level.SIGNED_OFF, easy, Length(13.0), BAR) == "set-up"


def test_sheet_and_wide_work_are_clamped_where_the_drill_has_clamps(content: Content) -> None:
    machine = content.machines[0]
    sheet = Work("sheet", Length(90.0), Length(3.0), Length(200.0))
    wide = Work("block", Length(150.0), Length(20.0), Length(200.0))

    assert holding_way(machine, BAR) == "vice"
    assert holding_way(machine, sheet) == holding_way(machine, wide) == "clamps"
    assert holding_way(replace(machine, holding=("vice",)), sheet) == "vice"


def test_dusty_work_has_a_dust_step_by_the_control_of_the_drill(content: Content) -> None:
    machine, job = content.machines[0], content.job("peg_board")
    assert job is not None
    fixed = replace(machine, extraction="fixed extraction")

    by_vacuum = compile_plan(content, machine, job, 0, Level.SHOWN)
    by_hood = compile_plan(content, fixed, job, 0, Level.SHOWN)

    assert isinstance(by_vacuum, Plan) and isinstance(by_hood, Plan)
    assert "dust_vacuum" in {step.id for step in by_vacuum.fresh}
    assert "dust_fixed" in {step.id for step in by_hood.fresh}


def test_dusty_work_is_refused_on_a_drill_without_dust_control(content: Content) -> None:
    job = content.job("peg_board")
    assert job is not None
    bare = replace(content.machines[0], extraction="none")

    refused = compile_plan(content, bare, job, 0, Level.SHOWN)

    assert isinstance(refused, tuple)
    assert "no dust control" in str(refused[0])


@pytest.mark.parametrize(
    ("job", "said"),
    [
        (asked("mild_stell", "twist", 8, None, BAR), "did you mean 'mild_steel'?"),
        (asked("mild_steel", "twit", 8, None, BAR), "did you mean 'twist'?"),
        (asked("mild_steel", "forstner", 25, None, BAR), "a Forstner bit is not for mild steel"),
        (asked("mild_steel", "twist", 8.3, None, BAR), "there is no 8.3 mm twist bit in the set"),
        (asked("mild_steel", "twist", 8, 5, BAR), "the point would come through"),
        (asked("mild_steel", "twist", 16, None, BAR), "nearest: a 13 mm twist bit"),
    ],
    ids=["material", "bit", "family", "size", "through", "range"],
)
def test_what_cannot_be_drilled_is_refused_with_the_nearest(
    content: Content, job: Job, said: str
) -> None:
    assert said in refusal(content, job)


def test_a_hole_that_the_job_does_not_have_is_refused(content: Content) -> None:
    job = content.job("hook_bar")
    assert job is not None

    refused = compile_plan(content, content.machines[0], job, 7, Level.SHOWN)

    assert isinstance(refused, tuple)
    assert str(refused[0]).endswith("hole 8; allowed: hole 1 to 1")


def test_tape_goes_round_the_bit_where_there_is_no_depth_stop(content: Content) -> None:
    job = content.job("pen_block")
    assert job is not None
    bare = replace(content.machines[0], depth_stop=False)

    plan = compile_plan(content, bare, job, 0, Level.SHOWN)

    assert isinstance(plan, Plan), plan
    ids = [step.id for path in (plan.fresh, plan.joining) for step in path]
    assert {"depth_tape", "look_tape_dust", "drill_tape_lift"} <= set(ids)
    assert not {"depth", "look_part_way_dust", "drill_part_way_lift"} & set(ids)
    assert ids.index("depth_tape") < ids.index("straight")  # a hand was at the bit
    assert plan.set_up.stop == Length(32.5)  # from the tip, as deep as a stop would be set


def test_equal_plans_have_equal_digests_and_any_change_another(content: Content) -> None:
    plan, again = plan_of(content, "hook_bar"), plan_of(content, "hook_bar")

    assert plan == again
    assert plan.digest == again.digest
    assert replace(plan, holes=3).digest != plan.digest
    assert plan_of(content, "hook_bar", level=Level.SUPERVISED).digest != plan.digest


def test_a_quantity_is_stored_in_thousandths_however_it_was_typed() -> None:
    assert plain(Length(20)) == plain(Length(20.0)) == {"mm": 20000}
    assert canonical(plain((Length(2.5), 3, "a", None))) == b'[{"mm":2500},3,"a",null]'


def test_a_plan_holds_only_what_can_be_stored() -> None:
    with pytest.raises(TypeError, match="holds no set"):
        plain({1, 2})


@pytest.mark.parametrize(
    "trouble",
    ["bit_broken", "bit_jammed", "work_spun", "smoke", "hurt", "alarm", "power", "gone"],
)
def test_every_recovery_ends_with_an_adult(content: Content, trouble: str) -> None:
    steps = compile_recovery(content, content.machines[0], trouble)

    assert steps[-1].who == "adult"
    assert all(step.part == "recovery" for step in steps)
    assert dict(steps[0].values)["run_down"] == Duration(4.0)


def test_nothing_is_asked_of_anyone_but_an_adult_when_somebody_is_hurt(content: Content) -> None:
    steps = compile_recovery(content, content.machines[0], "hurt")

    assert {step.who for step in steps} == {"adult"}


def test_an_unknown_trouble_has_no_steps(content: Content) -> None:
    assert compile_recovery(content, content.machines[0], "flood") == ()
