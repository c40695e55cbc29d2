"""Scrap wood under a through hole: told on every way to the start, and looked for by the adult."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from kiosk.core.model import Habit, Level, Machine
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.plan.wording import named
from kiosk.core.units import Length
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


@pytest.mark.parametrize(
    ("code", "range"),
    [
        ("en", "Use a piece 5 mm to 18 mm thick."),
        ("cy", "Trwch: 5 mm i 18 mm."),
        ("pl", "Grubość: od 5 mm do 18 mm."),
        ("uk", "Товщина: від 5 мм до 18 мм."),
    ],
)
def test_the_step_names_which_thicknesses_of_scrap_wood_serve(code: str, range: str) -> None:
    for plan in plans(THROUGH):
        assert range in said(plan, "fresh", code).replace("\u00a0", " ")


def test_where_only_one_thickness_serves_that_one_is_named() -> None:
    job = CONTENT.job("hook_bar")
    assert job is not None
    short = replace(CONTENT.machines[0], stroke=Length(20))

    plan = compile_plan(CONTENT, short, job, 0, Level.SHOWN)

    assert isinstance(plan, Plan)
    assert "Use a piece 18 mm thick." in said(plan, "fresh", "en").replace("\u00a0", " ")


def test_in_a_vice_the_scrap_wood_is_not_what_gets_gripped() -> None:
    in_vice = [plan for plan in plans(THROUGH) if plan.set_up.way == "vice"]

    assert in_vice
    for plan in in_vice:
        told = said(plan, "fresh", "en")
        assert "narrower than the work" in told
        assert "The vice must grip the work, not the scrap." in told


def test_the_table_step_claims_no_more_room_than_the_sum_gives() -> None:
    for plan in plans(THROUGH):
        told = said(plan, "fresh", "en")
        assert "Bit and work then fit under it." in told
        assert "a hand" not in told
