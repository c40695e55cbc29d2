"""Scrap wood under a through hole: told on every way to the start, and looked for by the adult."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from kiosk.core.model import Habit, Level, Machine
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.plan.wording import named
from tests.core.story import CONTENT, WORDS

WAYS = ("fresh", "joining", "further")
THROUGH, PART_WAY = ("hook_bar", 0), ("pen_block", 0)


def drills() -> Iterator[Machine]:
    """Every shipped drill, with a vice and with clamps, and with the isolator off for each hole."""
    for drill in CONTENT.machines:
        for way in ("vice", "clamps"):
            for habit in (drill.habit, Habit.EVERY_HOLE):
                yield replace(drill, holding=(way,), habit=habit, extraction="vacuum")


def plans(asked: tuple[str, int]) -> Iterator[Plan]:
    """The plans of a shipped hole, for each level on each of these drills."""
    job = CONTENT.job(asked[0])
    assert job is not None
    for drill in drills():
        for level in Level:
            plan = compile_plan(CONTENT, drill, job, asked[1], level)
            assert isinstance(plan, Plan), plan
            yield plan


def said(plan: Plan, way: str, code: str) -> str:
    """What the pupil reads on this way, up to the check."""
    words = WORDS.of(code)
    values = named(dict(plan.values), words)
    read = [step for step in plan.path(way) if step.part != "drill"]
    return "\n".join(words.say(f"step.{step.id}.say", **values) for step in read)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(
    ("code", "scrap"), [("en", "scrap"), ("cy", "sgrap"), ("pl", "odpad"), ("uk", "дошк")]
)
def test_a_pupil_is_told_of_scrap_wood_on_every_way_to_a_through_hole_and_to_no_other(
    way: str, code: str, scrap: str
) -> None:
    through = [said(plan, way, code).lower() for plan in plans(THROUGH)]
    part_way = [said(plan, way, code).lower() for plan in plans(PART_WAY)]

    assert all(scrap in text for text in through)
    assert not any(scrap in text for text in part_way)


@pytest.mark.parametrize(("asked", "lines"), [(THROUGH, 1), (PART_WAY, 0)])
def test_the_adult_looks_for_scrap_wood_under_a_through_hole(
    asked: tuple[str, int], lines: int
) -> None:
    for plan in plans(asked):
        found = [WORDS.say(f"step.{id}.check", **dict(plan.values)) for id in plan.look_for]

        assert found.count("Scrap wood under the work") == lines
        assert len(found) <= 7
