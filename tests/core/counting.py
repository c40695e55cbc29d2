"""A lesson told for every job at every drill, with the touches of a pupil and an adult counted."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from kiosk.core.inputs import (
    Act,
    AdultIssued,
    AskAdult,
    BadgeChecked,
    BadgeRead,
    Choose,
    KioskBegan,
    LeavePage,
    LevelsRead,
    PickJob,
    PickPupil,
    SpellOk,
    Still,
    Touch,
)
from kiosk.core.kiosk import Shop
from kiosk.core.model import Group, Level, Pupil, Roster
from kiosk.core.plan.compiling import compile_plan
from kiosk.core.plan.shape import Plan
from tests.core.adults_story import with_badges
from tests.core.story import CONTENT, TEACHER, TECHNICIAN, Story, shop

CLASS = tuple(Pupil(f"p{n}", n, tuple(Level)[n % 4]) for n in range(1, 25))
NUMBERS = {pupil.level: pupil.number for pupil in CLASS}  # of each level the last
WORK = [(job, hole) for job in CONTENT.jobs for hole in range(len(job.holes))]
AT_DRILLS = [
    (machine.id, (job.id, hole))
    for machine, (job, hole) in product(CONTENT.machines, WORK)
    if isinstance(compile_plan(CONTENT, machine, job, hole, Level.SHOWN), Plan)
]


def workshop(machine: str) -> Shop:
    """A workshop at one drill, with a class of 24."""
    roster = Roster((Group("8b", "Year 8 blue", CLASS),), (TEACHER, TECHNICIAN))
    return replace(shop(machine), roster=roster)


class Counted(Story):
    """A story that counts the touches of a pupil and of an adult apart."""

    def lesson(self, *jobs: str) -> None:
        """A lesson of these jobs, opened by the teacher."""
        self.give(KioskBegan(self.shop.machine.id, "test", "first"))
        self.give(AdultIssued(TEACHER.ref, TEACHER.role, "test"))
        with_badges(self)
        self.give(LevelsRead(tuple((p.ref, p.level.word) for p in CLASS)))
        for name, _ in self.shop.machine.wiring.inputs:
            self.reads(name, "on" if name == "isolator" else "off")
        self.touch(AskAdult("menu"))
        self.pin()
        for touch in (Act("open"), Act("pre_use_right"), Choose("group", "8b")):
            self.touch(touch)
        for job in dict.fromkeys(jobs):
            self.touch(Choose("jobs", job))
        self.touch(Act("jobs_done"))
        self.touch(Choose("length", "60"))

    def join(self, job: str, hole: int, level: Level) -> int:
        """A pupil of a level begins a turn; the touches up to its first step."""
        before = self.touches
        self.touch(PickPupil(NUMBERS[level]))
        if self.view.screen == "job":
            self.touch(PickJob(job, hole))
        return self.touches - before

    def by_pupil(self, *until: str) -> int:
        """Work through the steps up to one of these screens; the pupil's touches on the way."""
        count = 0
        while self.view.screen not in until:
            before = self.touches
            count += self.do_step() * (self.touches - before)
        return count

    def do_step(self) -> bool:
        """Do the one step shown; whether it was the pupil's."""
        step = self.kiosk.session.step if self.kiosk.session else None
        super().do_step()
        return step is None or step.who != "adult"

    def drill(self) -> int:
        """Start, stop, wait for still, the one touch; the touches, two where no run was seen."""
        before = self.touches
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
        return self.touches - before

    def finish(self) -> None:
        """All holes drilled, cleared up, left: the set-up is kept."""
        while self.view.screen != "finished":
            if self.view.screen == "adult_check":
                self.ok_by_badge()
            elif self.view.screen == "drilling":
                self.drill()
            else:
                self.do_step()
        self.touch(LeavePage())

    # --- an adult's OK ---

    def ok_by_pin(self, stay: int = 0) -> int:
        """By name and PIN; the adult's touches."""
        before = self.touches
        self.touch(self.adults_button)
        self.pin(stay=stay)
        return self.touches - before

    def ok_by_badge(self) -> int:
        """A badge held to the reader, which counts as one touch."""
        before = self.touches
        self.read_on()
        self.touches += 1
        self.give(BadgeRead("0012345678"))
        self.give(BadgeChecked(TEACHER.ref))
        return self.touches - before

    def ok_in_a_spell(self) -> int:
        """The one button of an adult who has stayed."""
        before = self.touches
        self.touch_kind(SpellOk)
        return self.touches - before

    @property
    def adults_button(self) -> Touch:
        """The touch that asks for an adult's name."""
        return next(b.touch for b in self.buttons() if b.look == "adult")

    def read_on(self) -> None:
        """Read all that the screen says; the core has no pages to turn."""
