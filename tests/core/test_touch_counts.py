"""How many touches a turn takes, counted on what is shown, for every job at every drill.

A pupil's set-up at most 30; joining a kept one at most 8 up to the adult check; a further hole at
most 2; an adult's OK at most 4 in a spell or by badge, at most 10 by PIN.
"""

from __future__ import annotations

from itertools import product

import pytest

from kiosk.core.inputs import (
    Act,
    AdultIssued,
    AskAdult,
    BadgeRead,
    Choose,
    KioskBegan,
    LeavePage,
    LevelsRead,
    PickJob,
    PickPupil,
    PinChecked,
    SeenRight,
    SpellOk,
    Still,
    TypePin,
)
from kiosk.core.model import Level
from kiosk.core.plan.compiling import compile_plan
from kiosk.core.plan.shape import Plan
from tests.core.story import CONTENT, PUPILS, TEACHER, Story, shop

SHOWN, SUPERVISED = 5, 14
WORK = [(job, hole) for job in CONTENT.jobs for hole in range(len(job.holes))]
AT_DRILLS = [
    (machine.id, (job.id, hole))
    for machine, (job, hole) in product(CONTENT.machines, WORK)
    if isinstance(compile_plan(CONTENT, machine, job, hole, Level.SHOWN), Plan)
]


class Counted(Story):
    """A story that counts the touches of a pupil and of an adult apart."""

    def lesson(self, jobs: tuple[str, ...]) -> None:
        """A lesson of these jobs, opened by the teacher."""
        self.give(KioskBegan(self.shop.machine.id, "test", "first"))
        self.give(AdultIssued(TEACHER.ref, TEACHER.role, "test"))
        self.give(LevelsRead(tuple((p.ref, p.level.word) for p in PUPILS)))
        for name, _ in self.shop.machine.wiring.inputs:
            self.reads(name, "on" if name == "isolator" else "off")
        self.touch(AskAdult("menu"))
        self.pin()
        for touch in (Act("open"), Act("pre_use_right"), Choose("group", "8b")):
            self.touch(touch)
        for job in jobs:
            self.touch(Choose("jobs", job))
        self.touch(Act("jobs_done"))
        self.touch(Choose("length", "60"))

    def by_pupil(self, until: str) -> int:
        """Work through the steps up to a screen; the pupil's touches on the way."""
        count = 0
        while self.view.screen != until:
            step = self.kiosk.session.step if self.kiosk.session else None
            own = step is not None and step.who != "adult"
            if step is not None and "isolator off" in [fact.value for fact in step.makes]:
                self.reads("isolator", "off")
            self.touch_kind(SeenRight) if own else self.do_step()
            count += own
        return count

    def drill(self) -> None:
        """Start, stop, wait for still, the one touch."""
        for name, word, after in (
            ("isolator", "on", 3),
            ("starter", "on", 9),
            ("starter", "off", 0),
        ):
            if self.shop.machine.wiring.has(name):
                self.reads(name, word)
            self.wait(after)
        self.wait(self.shop.machine.run_down.s + 1)
        self.touch(Still())
        if self.kiosk.session and self.kiosk.session.is_drilling:
            self.touch(Still())

    def ok_by_pin(self, stay: int = 0) -> int:
        """The adult's OK by name and PIN; the adult's touches."""
        before = self.touches
        self.touch(next(b.touch for b in self.buttons() if b.look == "adult"))
        self.pin(stay=stay)
        return self.touches - before + stay  # staying is one touch more on the pad


def begun_turn(machine: str, job: str, hole: int, number: int = SHOWN) -> tuple[Counted, int]:
    """A turn at its first step, and the touches up to there."""
    story = Counted(shop=shop(machine))
    story.lesson(tuple(dict.fromkeys((job, "hook_bar"))))
    return story, join(story, job, hole, number)


def join(story: Counted, job: str, hole: int, number: int) -> int:
    story.touch(PickPupil(number))
    if story.view.screen == "job":
        story.touch(PickJob(job, hole))
        return 2
    return 1


@pytest.mark.parametrize(("machine", "work"), AT_DRILLS)
def test_a_whole_set_up_by_a_shown_pupil_is_at_most_thirty(machine, work):
    story, touches = begun_turn(machine, *work)

    touches += story.by_pupil("adult_check")

    assert touches <= 30


@pytest.mark.parametrize(("machine", "work"), AT_DRILLS)
def test_joining_is_at_most_eight_and_a_further_hole_at_most_two(machine, work):
    story, _ = begun_turn(machine, *work)
    story.by_pupil("adult_check")
    story.ok_by_pin()
    story.drill()
    holes = story.kiosk.session.plan.holes
    further = story.by_pupil("adult_check") + 1 if holes > 1 else 0  # and the touch when still
    for hole in range(1, holes):
        if hole > 1:
            story.by_pupil("adult_check")
        story.ok_by_pin()
        story.drill()
    story.by_pupil("finished")
    story.touch(LeavePage())

    joining = join(story, *work, SUPERVISED) + story.by_pupil("adult_check")

    assert story.kiosk.session.path == "joining"
    assert joining <= 8
    assert further <= 2


def test_an_adults_ok_is_at_most_ten_touches_by_pin_and_one_in_a_spell():
    story, _ = begun_turn("drill-1", "hook_bar", 0)
    story.by_pupil("adult_check")

    by_pin = story.ok_by_pin(stay=1)
    story.drill()
    story.by_pupil("adult_check")
    in_spell = [b.touch for b in story.buttons() if isinstance(b.touch, SpellOk)]
    story.touch(in_spell[0])

    assert by_pin <= 10
    assert story.view.screen == "drilling"


def test_the_way_to_the_pad_is_two_touches_and_the_pin_six():
    story, _ = begun_turn("drill-1", "hook_bar", 0)
    story.by_pupil("adult_check")
    before = story.touches

    story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
    story.pin_begun()
    way = story.touches - before
    story.give(TypePin(TEACHER.ref, "482915"))
    story.give(PinChecked(TEACHER.ref, True))

    assert story.view.screen == "drilling"
    assert way + 6 <= 10
    assert BadgeRead("0123456789").digits  # a badge types by itself: no touch at all
