"""How many touches a turn takes, counted on what is shown, for every job at every drill.

A pupil's set-up at most 30; joining a kept one at most 8 up to the adult check; a further hole at
most 2; an adult's OK at most 4 in a spell or by badge, at most 10 by PIN. The same is counted on
the panel, with the keys that turn pages, in `tests/screens/test_touch_counts.py`.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from kiosk.core.model import Level
from tests.core.counting import AT_DRILLS, Counted, workshop

Work = tuple[str, int]


def begun_turn(machine: str, work: Work, level: Level = Level.SHOWN) -> tuple[Counted, int]:
    """A turn at its first step in a lesson of all jobs, and the touches up to there."""
    story = Counted(shop=workshop(machine))
    story.lesson(*(job for where, (job, _) in AT_DRILLS if where == machine))
    return story, story.join(*work, level)


def at_the_check(machine: str, work: Work) -> Counted:
    """A shown pupil waits for the first OK."""
    story, _ = begun_turn(machine, work)
    story.by_pupil("adult_check")
    return story


@pytest.mark.parametrize(("machine", "work"), AT_DRILLS)
def test_a_whole_set_up_by_a_shown_pupil_is_at_most_thirty(machine: str, work: Work) -> None:
    story, touches = begun_turn(machine, work)

    touches += story.by_pupil("adult_check")

    assert story.kiosk.session and story.kiosk.session.path == "fresh"
    assert 15 <= touches <= 30


@pytest.mark.parametrize("level", list(Level))
@pytest.mark.parametrize(("machine", "work"), AT_DRILLS)
def test_joining_is_at_most_eight_at_any_level(machine: str, work: Work, level: Level) -> None:
    story = at_the_check(machine, work)
    story.finish()

    touches = story.join(*work, level) + story.by_pupil("adult_check", "drilling")

    assert story.kiosk.session and story.kiosk.session.path == "joining"
    assert 3 <= touches <= 8


@pytest.mark.parametrize(("machine", "work"), AT_DRILLS)
def test_a_further_hole_is_at_most_two(machine: str, work: Work) -> None:
    story = at_the_check(machine, work)
    counted = []

    story.ok_by_badge()
    story.drill()
    while story.kiosk.session and story.kiosk.session.path == "further":
        touches = story.by_pupil("adult_check")
        story.ok_by_badge()
        counted.append(touches + story.drill())

    holes = story.kiosk.session.plan.holes if story.kiosk.session else 0
    assert len(counted) == holes - 1
    assert all(1 <= touches <= 2 for touches in counted)


OKS = (
    (Counted.ok_by_pin, 10),
    (lambda story: story.ok_by_pin(stay=1), 10),
    (Counted.ok_by_badge, 4),
)


@pytest.mark.parametrize(("ok", "most"), OKS, ids=("pin", "pin and stay", "badge"))
@pytest.mark.parametrize(("machine", "work"), AT_DRILLS)
def test_an_ok_is_at_most_ten_touches_by_pin_and_four_by_badge(
    machine: str, work: Work, ok: Callable[[Counted], int], most: int
) -> None:
    story = at_the_check(machine, work)

    touches = ok(story)

    assert story.view.screen == "drilling"
    assert 1 <= touches <= most


def test_in_a_spell_an_ok_is_one_touch() -> None:
    story = at_the_check("drill-1", ("hook_bar", 0))
    story.ok_by_pin(stay=1)
    story.drill()
    story.by_pupil("adult_check")

    touches = story.ok_in_a_spell()

    assert story.view.screen == "drilling"
    assert touches == 1
