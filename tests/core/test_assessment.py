"""The risk assessment against what carries it out: nothing is left over."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.assessment import carried_out_by, controls_of, left_over, measures_of
from kiosk.core.model import CheckItem, Content, Control, InstallationCheck
from kiosk.core.plan.recovering import ALL_RULE_IDS


@pytest.fixture(scope="module")
def content() -> Content:
    """The shipped content."""
    found = load(Path(__file__).parents[2] / "sequences").content
    assert found is not None
    return found


def problems_of(content: Content, rules: tuple[str, ...] = ALL_RULE_IDS) -> list[str]:
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
        assert hazard.by_year and hazard.by_need and hazard.residual, hazard.id


# What a school's assessment of a pillar drill has to speak of.
NAMED = (
    "entanglement flying_parts grabbed_work swarf broken_bit dust heat cutting_fluid electric noise"
    " trips lifting unauthorised_use no_adult start_by_mistake belt_and_table late_stop"
)


@pytest.mark.parametrize("hazard", NAMED.split())
def test_every_hazard_of_a_pillar_drill_is_spoken_of(content: Content, hazard: str) -> None:
    found = [each for each in content.assessment.hazards if each.id == hazard]

    assert len(found) == 1
    assert len(measures_of(content.assessment, found[0])) >= 2


def test_a_hazards_name_fits_its_button(content: Content) -> None:
    long = [h.name for h in content.assessment.hazards if len(h.name) > 22]

    assert long == []


def test_links_go_both_ways(content: Content) -> None:
    sequences = (content.drilling, *content.recoveries)
    steps = {s.id for each in sequences for s in each.steps if s.controls}

    linked = {
        id
        for control in controls_of(content.assessment)
        for id in carried_out_by(sequences, control)
    }

    assert linked == steps


def test_a_shared_control_measure_counts_for_both_hazards(content: Content) -> None:
    swarf = next(h for h in content.assessment.hazards if h.id == "swarf")

    names = [control.id for control in measures_of(content.assessment, swarf)]

    assert names[: len(swarf.controls)] == [control.id for control in swarf.controls]
    assert {"eyes", "guard"} <= set(names)


def test_a_shared_control_measure_that_is_none_is_a_problem(content: Content) -> None:
    first, *rest = content.assessment.hazards
    odd = replace(first, also=(*first.also, "gaurd"))
    assessment = replace(content.assessment, hazards=(odd, *rest))

    found = problems_of(replace(content, assessment=assessment))

    assert len(found) == 1
    assert "shares control measure 'gaurd'" in found[0]


def test_an_installation_check_belongs_to_a_hazard(content: Content) -> None:
    bell = InstallationCheck("bell", "The bell rings", "1 year", 7)
    installation = (*content.assessment.installation, bell)
    assessment = replace(content.assessment, installation=installation)

    found = problems_of(replace(content, assessment=assessment))

    assert found == [
        "sequences/assessment.yaml:7: installation check 'bell' belongs to no hazard;"
        " add bell to a hazard"
    ]


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

    found = problems_of(replace(content, machines=(lit,)), (*ALL_RULE_IDS, "whistle"))

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
