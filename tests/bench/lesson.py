"""Whether a lesson fits: twenty joining pupils, one hole each, one drill, one adult.

Played through the real decide and view, with the times of `_times.py`. Pupils line up while the
one before clears up. What the kiosk adds to a turn is its reading and its touches, the adult's
too; the work itself is there with and without it. Exit code 1 if a target is missed.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from kiosk.core.events import BadgeIssued, Entry
from kiosk.core.inputs import (
    AskAdult,
    BadgeChecked,
    BadgeRead,
    Choose,
    KioskBegan,
    OpenPage,
    PickAdult,
    PickPupil,
    PinChecked,
    SeenRight,
    Still,
    StillThere,
    Touch,
    TypePin,
)
from kiosk.core.kiosk import Shop, advance
from kiosk.core.model import Group, Job, Level, Pupil, Roster
from tests.bench import _times as times
from tests.core.story import CONTENT, TEACHER, Story, lesson_opened, people_known

PUPILS, TARGET_MIN = 20, 40.0
JOINING_S, FURTHER_S, ADULT_TOUCHES = 30.0, 12.0, 4
FIRST = PUPILS + 1  # makes the set-up that the twenty join
IN_LINE = 3  # assumption: so many stand in line, the others work at their benches


@dataclass
class Spent:
    """Seconds and touches of one turn or one hole."""

    kiosk_s: float = 0.0
    pupil_touches: int = 0
    adult_touches: int = 0


@dataclass
class Played(Story):
    """A story in which reading, touching, walking and work take their time."""

    every_word: bool = False
    badge: bool = True
    spent: Spent = field(default_factory=Spent)
    joins: list[int] = field(default_factory=list)

    def takes(self, seconds: float, by_kiosk: bool = False) -> None:
        """Time goes by; what the kiosk adds is counted."""
        self.wait(seconds)
        self.spent.kiosk_s += seconds if by_kiosk else 0.0

    def reads(self, name: str, reading: str):  # type: ignore[no-untyped-def]
        """A contact's reading, if it is wired here."""
        return super().reads(name, reading) if self.shop.machine.wiring.has(name) else ()

    def reads_screen(self) -> None:
        """The pupil reads what is shown."""
        step = self.kiosk.session.step if self.kiosk.session and not self.kiosk.desk.page else None
        self.takes(times.reading_s(self.view, step, self.every_word), by_kiosk=True)

    def pupil(self, touch: Touch, work_s: float = 0.0) -> None:
        """Read the screen, do what it asks, touch."""
        self.reads_screen()
        self.takes(work_s)
        self.takes(times.TOUCH_S, by_kiosk=True)
        self.touch(touch)
        self.spent.pupil_touches += 1

    def adult(self, purpose: str) -> None:
        """The adult comes, looks at each line, and gives a PIN or a badge."""
        self.takes(times.ROOM_M / times.WALKING_M_S)
        self.takes(times.LOOK_S * len(self.view.lines))
        before = self.touches
        if self.badge:
            self.takes(times.KNOWN_SCREEN_S + times.TOUCH_S, by_kiosk=True)
            self.touches += 1
            self.give(BadgeRead("1234567890"))
            self.give(BadgeChecked(TEACHER.ref))
        else:
            self._pin(purpose)
        self.spent.adult_touches += self.touches - before

    def _pin(self, purpose: str) -> None:
        known, touch = times.KNOWN_SCREEN_S, times.TOUCH_S
        if self.kiosk.session and self.kiosk.session.asked:
            self.pupil(StillThere())
        self.takes(2 * touch + 2 * known + 6 * times.DIGIT_S, by_kiosk=True)
        self.touch(AskAdult(purpose))
        self.touch(PickAdult(TEACHER.ref))
        self.touches += 6
        self.give(TypePin(TEACHER.ref, "482915"))
        self.give(PinChecked(TEACHER.ref, True))

    # --- one turn ------------------------------------------------------------------------------

    def turn(self, number: int) -> list[Spent]:
        """One pupil's turn from the first touch; what the kiosk added up to each hole's end."""
        self.takes(times.STEP_UP_S)
        self.spent = Spent()
        self.pupil(PickPupil(number))
        holes: list[Spent] = []
        while self.kiosk.session:
            if self.kiosk.session.is_drilling:
                self._drills()
                holes.append(replace(self.spent))
            elif self.kiosk.session.is_waiting_for_adult:
                self.adult("ok")
            else:
                self._does_step()
        return [*holes, self.spent]

    def _does_step(self) -> None:
        assert self.kiosk.session is not None
        step = self.kiosk.session.step
        if "isolator off" in [fact.value for fact in step.makes]:
            self.reads("isolator", "off")
        if step.who == "adult":
            self.takes(times.act_s(step))
            self.adult("step")
            return
        work = times.act_s(step)
        self.pupil(SeenRight(step.id), max(0.0, work - self._lines_up(step.part)))

    def _lines_up(self, part: str) -> float:
        """The next ones line up while this one clears up; returns how long they had the screen."""
        waiting = len(self.kiosk.lesson.line.waiting) if self.kiosk.lesson else 0
        shown = OpenPage("line") in [b.touch for b in self.buttons()]
        if part != "clear" or not self.joins or waiting >= IN_LINE or not shown:
            return 0.0
        mine, began = replace(self.spent), self.now.us
        number = str(self.joins.pop(0))
        self.pupil(OpenPage("line"))
        self.pupil(Choose("line", number))
        self.pupil(Choose("line_ready", number))
        self.spent = mine
        return (self.now.us - began) / 1e6

    def _drills(self) -> None:
        assert self.kiosk.session is not None
        plan = self.kiosk.session.plan
        self.reads_screen()
        self.reads("isolator", "on")
        self.takes(times.START_S)
        self.reads("starter", "on")
        self.takes(times.cut_s(plan) + times.STOP_S)
        self.reads("starter", "off")
        self.takes(self.shop.machine.run_down.s + 0.1)
        self.takes(times.TOUCH_S, by_kiosk=True)
        self.touch(Still())
        self.spent.pupil_touches += 1


def lesson_of(job: Job, level: Level, holes: int, **how: bool) -> Played:
    """A lesson opened for so many holes of a job's first kind."""
    one = replace(job, holes=(replace(job.holes[0], count=holes),))
    pupils = tuple(Pupil(f"p{n}", n, level) for n in range(1, FIRST + 1))
    machine = CONTENT.machine("drill-1")
    assert machine is not None
    roster = Roster((Group("8b", "Year 8 blue", pupils),), (TEACHER,))
    shop = Shop(replace(CONTENT, jobs=(one,)), machine, roster, "bench")
    story = Played(shop, **how)  # type: ignore[arg-type]
    story.give(KioskBegan("drill-1", "bench", "first"))
    people_known(story, tuple((p.ref, p.level.word) for p in pupils))
    lesson_opened(story, (job.id,), minutes=120)
    issued = Entry(0, story.now, BadgeIssued(TEACHER.ref, "bench"))
    story.kiosk = advance(story.kiosk, issued)
    return story


@dataclass(frozen=True)
class Told:
    """What one lesson came to."""

    job: str
    minutes: float
    kiosk_s: float
    pupil_touches: int
    adult_touches: int


def played(job: Job, **how: bool) -> Told:
    """Twenty supervised pupils join one after the other; the worst turn counts."""
    story = lesson_of(job, Level.SUPERVISED, 1, **how)
    story.joins = list(range(1, PUPILS + 1))
    story.turn(FIRST)
    began, turns = story.now.us, []
    for number in range(1, PUPILS + 1):
        turns.append(story.turn(number)[-1])
    minutes = (story.now.us - began) / 60e6
    worst = max(turns, key=lambda spent: spent.kiosk_s)
    return Told(job.id, minutes, worst.kiosk_s, worst.pupil_touches, worst.adult_touches)


def further_s(job: Job, level: Level, every_word: bool = False) -> float:
    """What the kiosk adds to the second of two holes."""
    story = lesson_of(job, level, 2, every_word=every_word)
    first, second, *_ = story.turn(1)
    return second.kiosk_s - first.kiosk_s


def main() -> int:
    """Plays every shipped job's lesson and prints the slowest against the targets."""
    told = [played(job) for job in CONTENT.jobs]
    pins = [played(job, badge=False) for job in CONTENT.jobs]
    news = [played(job, every_word=True) for job in CONTENT.jobs]
    further = max(further_s(j, lv) for j in CONTENT.jobs for lv in (Level.SHOWN, Level.SIGNED_OFF))
    slow, added = max(told, key=lambda t: t.minutes), max(t.kiosk_s for t in told)
    touches = max(t.adult_touches for t in told)
    print(
        f"lesson: {PUPILS} joining pupils in {slow.minutes:.1f} min (target {TARGET_MIN:g} min), "
        f"slowest job {slow.job} of {len(told)}; adult with a badge"
    )
    print(
        f"  the kiosk adds {added:.1f} s to a joining pupil (target {JOINING_S:g} s), "
        f"{further:.1f} s to a further hole (target {FURTHER_S:g} s)"
    )
    print(
        f"  touches of a joining pupil {max(t.pupil_touches for t in told)}, "
        f"of the adult {touches} (target {ADULT_TOUCHES})"
    )
    _print_beside("with a PIN each time", pins)
    _print_beside("if every word of every screen is read", news)
    right = added <= JOINING_S and further <= FURTHER_S and touches <= ADULT_TOUCHES
    return 0 if right and slow.minutes <= TARGET_MIN else 1


def _print_beside(what: str, told: list[Told]) -> None:
    slow, added = max(t.minutes for t in told), max(t.kiosk_s for t in told)
    touches = max(t.adult_touches for t in told)
    print(f"  {what}: {slow:.1f} min, {added:.1f} s a pupil, {touches} touches of the adult")
