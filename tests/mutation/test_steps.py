"""The shipped content without one step that carries out a control measure: `check` notices."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.core.story import CONTENT, WORDS
from tests.mutation.known import STANDS_IN
from tests.mutation.steps import first_problem, steps_with_measures

pytestmark = pytest.mark.mutation
FEW = 12


def test_the_steps_named_as_having_another_in_their_place_are_steps() -> None:
    assert set(STANDS_IN) <= set(steps_with_measures(CONTENT))


@pytest.mark.timeout(1800)
def test_without_a_step_of_a_measure_the_content_has_a_problem(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    tried = [step for step in steps_with_measures(CONTENT) if step not in STANDS_IN]
    tried = tried if full else tried[:: max(1, len(tried) // FEW)]

    reasons = {step: first_problem(CONTENT, WORDS, step) for step in tried}

    caught = [step for step, reason in reasons.items() if reason]
    left = f"; {len(STANDS_IN)} not noticed yet" if full else ""
    sum_up(f"mutation, steps: {len(tried)} tried, {len(caught)} caught{left}")
    assert [step for step in reasons if step not in caught] == []
