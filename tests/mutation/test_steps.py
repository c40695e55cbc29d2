"""The content without one step that carries out a control measure: `check` notices."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import pytest

from kiosk.core.plan.trials import Trial
from tests.core.story import CONTENT, WORDS
from tests.mutation.steps import (
    Named,
    first_problem,
    ids_in,
    plans_of,
    steps_with_measures,
    with_all_machines,
)

pytestmark = pytest.mark.mutation
FEW = 12
WIDE = with_all_machines(CONTENT)


def where_they_stand(steps: Iterable[Named]) -> dict[str, Trial]:
    """For each step of the drilling sequence the first trial in whose plan it stands."""
    wanted = {id for sequence, id in steps if sequence == WIDE.drilling.id}
    found: dict[str, Trial] = {}
    for trial, plan in plans_of(WIDE, WORDS):
        found |= dict.fromkeys(wanted & ids_in(plan) - found.keys(), trial)
        if len(found) == len(wanted):
            break
    return found


def test_without_a_step_of_a_measure_the_content_has_a_problem(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    tried = steps_with_measures(WIDE)
    tried = tried if full else tried[:: max(1, len(tried) // FEW)]
    where = where_they_stand(tried)

    reasons = {step: first_problem(WIDE, WORDS, step, where.get(step[1])) for step in tried}

    caught = [step for step, reason in reasons.items() if reason]
    sum_up(f"mutation, steps: {len(tried)} tried, {len(caught)} caught")
    assert [step for step in reasons if step not in caught] == []
