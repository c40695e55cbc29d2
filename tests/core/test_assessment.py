"""The risk assessment against what carries it out: nothing is left over."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.assessment import controls_of, left_over
from kiosk.core.model import CheckItem, Content, Control
from kiosk.core.plan.requirements import RULE_IDS


@pytest.fixture(scope="module")
def content() -> Content:
    """The shipped content."""
    found = load(Path(__file__).parents[2] / "sequences").content
    assert found is not None
    return found


def problems_of(content: Content, rules: tuple[str, ...] = RULE_IDS) -> list[str]:
    """What is left over in the content, in words."""
    sequences = (content.drilling, *content.recoveries)
    found = left_over(content.assessment, sequences, content.machines, rules)
    return [str(problem) for problem in found]


def with_control(content: Content, control: Control) -> Content:
    """The content with one more control measure for the first hazard."""
    first, *rest = content.assessment.hazards
    longer = replace(first, controls=(*first.controls, control))
    assessment = replace(content.assessment, hazards=(longer, *rest))
    return replace(content, assessment=assessment)


def test_nothing_is_left_over_in_the_shipped_assessment(content: Content) -> None:
    assert problems_of(content) == []


def test_every_hazard_says_who_may_be_harmed_and_has_a_control(content: Content) -> None:
    for hazard in content.assessment.hazards:
        assert hazard.who and hazard.harm and hazard.controls, hazard.id


@pytest.mark.parametrize("by", ["step", "house rule", "installation check"])
def test_a_control_that_nothing_carries_out_is_a_problem(content: Content, by: str) -> None:
    changed = with_control(content, Control("bollards", "Bollards", by, 7))

    assert problems_of(changed)[0].startswith(
        f"sequences/assessment.yaml:7: no {by} carries out control measure 'bollards'"
    )


def test_a_step_that_carries_out_what_no_hazard_lists_is_a_problem(content: Content) -> None:
    first, *rest = content.drilling.steps
    odd = replace(content.drilling, steps=(replace(first, controls=("eyes", "polish")), *rest))

    found = problems_of(replace(content, drilling=odd))

    assert len(found) == 1
    assert "step 'eyes' carries out 'polish', which no hazard lists" in found[0]


def test_a_house_rule_and_a_pre_use_line_must_belong_to_a_hazard(content: Content) -> None:
    machine = content.machines[0]
    lit = replace(machine, pre_use=(*machine.pre_use, CheckItem("lamp", "Lamp on")))

    found = problems_of(replace(content, machines=(lit,)), (*RULE_IDS, "whistle"))

    assert len(found) == 2
    assert "house rule 'whistle' belongs to no hazard" in found[0]
    assert "pre-use line 'lamp' belongs to no hazard" in found[1]


def test_an_installation_check_must_stand_on_every_machine(content: Content) -> None:
    machine = content.machines[0]
    second = replace(machine, id="drill-2", pre_use=machine.pre_use[1:])

    found = problems_of(replace(content, machines=(machine, second)))

    assert len(found) == 1
    assert "the pre-use check of drill-2 has no line 'guard_whole'" in found[0]


def test_a_control_written_twice_is_a_problem(content: Content) -> None:
    twice = with_control(content, controls_of(content.assessment)[0])

    assert any("is written twice" in line for line in problems_of(twice))
