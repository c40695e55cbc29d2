"""A day at one drill: power, clock, lessons, what adults do before and after."""

from __future__ import annotations

from dataclasses import dataclass, replace

from kiosk.core.events import Entry, Event
from kiosk.core.inputs import (
    Act,
    AdultAllowed,
    AdultEnded,
    AdultIssued,
    AskAdult,
    Choose,
    ClockMoved,
    CodeChecked,
    DownloadEnded,
    KioskBegan,
    KioskEnding,
    NoteKept,
    OpenPage,
    PickAdult,
    RosterRead,
    SecretReady,
    StopEveryone,
    TypeCode,
)
from kiosk.core.kiosk import advance
from kiosk.core.units import Moment
from tests.core.story import TECHNICIAN
from tests.recorded.people import PATIENCE, Drill
from tests.recorded.school import COVER, GROUPS, SIZES, TEACHERS

SECOND = 1_000_000
HOUR = 3600 * SECOND
DAY = 24 * HOUR
MONDAY_US = 1_788_768_000_000_000  # 2026-09-07 08:00 UTC
JOBS = ("hook_bar", "pen_block", "key_tag", "peg_board", "shelf_bracket")


@dataclass
class Days(Drill):
    """One drill through its days. `clock` is `good`, `restored` (runs on) or `unset`."""

    boots: int = 0
    clock: str = "good"

    # --- power and clock -------------------------------------------------------------------------

    def starts(self, wall_us: int, after: str = "clean") -> None:
        """The kiosk starts; a bad clock says something else, and may be put right later."""
        self.boots += 1
        said, quality = {
            "good": (wall_us, 2),
            "restored": (self.now.wall_us + 60 * SECOND, 1),
            "unset": (1_000_000 * SECOND, 0),
        }[self.clock]
        boot = f"{self.shop.machine.id}-boot-{self.boots}"
        self.now = Moment(boot, 20 * SECOND, said, quality)
        self.give(KioskBegan(self.shop.machine.id, "pillarside 0.1.0", after))
        self.reads_all(isolator="on", starter="off", spindle="off")
        if self.kiosk.machine.ask_still:
            self.asked()
        if self.clock == "restored" and self.dice.random() < 0.7:
            self.synchronised(wall_us)

    def synchronised(self, wall_us: int) -> None:
        """A few minutes later the clock is set by the network."""
        self.wait(180)
        by = wall_us + self.now.us - self.now.wall_us
        self.now = replace(self.now, wall_us=self.now.wall_us + by, quality=2)
        self.give(ClockMoved(by, 2))

    def stops(self) -> None:
        """In order at the end of the day."""
        self.give(KioskEnding())

    def tells(self, event: Event) -> None:
        """An event that the record itself writes, such as the first of a renewed one."""
        entry = Entry(len(self.record) + 1, self.now, event)
        self.kiosk = advance(self.kiosk, entry)
        self.record.append(entry)

    # --- the first day ---------------------------------------------------------------------------

    def first_day(self, wall_us: int) -> None:
        """Adults get their PINs, badges and codes, and the roster is taken in."""
        self.starts(wall_us, "first")
        for adult in (*TEACHERS, TECHNICIAN):
            self.give(AdultIssued(adult.ref, adult.role, "command", codes=2))
            self.give(SecretReady(adult.ref, "badge", "command"))
        self.give(
            AdultIssued(COVER.ref, COVER.role, "command", self.shop.machine.id, self.day + 60)
        )
        pupils = [pupil for group in GROUPS for pupil in group.pupils]
        levels = tuple((pupil.ref, pupil.level.word) for pupil in pupils)
        count = sum(SIZES.values())
        self.give(RosterRead("roster", count, count, 0, 0, levels, ("9a-3",)))

    @property
    def day(self) -> int:
        """Today, in days of UTC since 1970."""
        return self.now.day

    # --- a lesson --------------------------------------------------------------------------------

    def lesson(self, group: str, turns: int) -> None:
        """A teacher opens a lesson; so many pupils have a turn; the teacher closes it."""
        self.teacher = self.dice.choice(TEACHERS)
        if not self.opened(group):
            return
        numbers = list(range(1, SIZES[group] + 1))
        self.dice.shuffle(numbers)
        for number in numbers[:turns]:
            self.between(number)
            line = self.kiosk.lesson.line.next if self.kiosk.lesson else None
            first = int(line.pupil.split("-")[1]) if line else number
            if not self.turn(first):
                self.stands_still()
            self.wait(self.dice.uniform(10, 60))
        self.closes()

    def closes(self) -> None:
        """The lesson is closed, or comes to its end by itself."""
        for _ in range(4):
            if self.kiosk.lesson is None or self.acts(self.teacher, Act("close")):
                return
            self.settles()
        self.wait(2 * 3600)

    def settles(self) -> None:
        """Whatever stands is seen to until the drill is at rest."""
        for _ in range(PATIENCE):
            if self.kiosk.session is None and AskAdult("menu") in self.touches_shown():
                return
            self.goes_on()

    def opened(self, group: str) -> bool:
        """Whether a lesson is open for the group now; the check of the day is done on the way."""
        self.takes_up()
        self.closes()
        if self.kiosk.machine.out_of_use:
            self.repaired()
        if not self.menu(self.teacher):
            return False
        self.may(Act("open"))
        if self.happens(0.04):
            self.may(Act("pre_use_wrong"))
            self.may(Act("pre_use_item", self.dice.choice(self.shop.machine.pre_use).id))
            self.repaired()
            return False
        self.may(Act("pre_use_right"))
        self.may(Choose("group", group))
        for job in self.dice.sample(JOBS, 2):
            self.may(Choose("jobs", job))
        self.may(Act("jobs_done"))
        self.may(Choose("length", "60"))
        return self.kiosk.lesson is not None

    def takes_up(self) -> None:
        """After a restart: is it still, and an adult takes up the lesson that was open."""
        for _ in range(PATIENCE):
            if self.may(AskAdult("confirm")):
                self.lets_in(self.teacher)
            elif AskAdult("menu") in self.touches_shown():
                return
            else:
                self.goes_on()

    def repaired(self) -> None:
        """The technician sees to it, later that day, and returns the drill to use."""
        self.wait(3600)
        self.acts(TECHNICIAN, Act("return"), Act("pre_use_right"))

    def between(self, number: int) -> None:
        """Before a turn: one lines up, or an adult changes something."""
        if self.happens(0.5) and self.may(OpenPage("line")):
            self.lines_up(number)
        if self.happens(0.05):
            self.acts(self.teacher, Act("longer"), Act("longer_by", "10"))
        if self.happens(0.03):
            self.acts(self.teacher, Act("tighter"), Act("tighten", "no_spell"))
        if self.happens(0.08):
            self.grants(number)
        if self.happens(0.05):
            self.reads_all(isolator="unknown")

    def lines_up(self, number: int) -> None:
        """A pupil stands in line, and sees to hair and sleeves there; or changes their mind."""
        self.may(Choose("line", str(number)))
        shown = [t for t in self.shown(Choose) if "line_job" in str(t)]
        if shown:
            self.touch(self.dice.choice(shown))
        self.wait(self.dice.uniform(20, 240))
        what = self.dice.choices(("line_ready", "line_leave", "line_pass"), (8, 1, 1))[0]
        if not self.may(Choose(what, str(number))):
            self.may(Choose("line_ready", str(number)))

    def grants(self, number: int) -> None:
        """A teacher raises a pupil's level after watching."""
        lesson = self.kiosk.lesson
        if lesson is None or not self.menu(self.teacher):
            return
        level = self.dice.choice(("shown", "supervised", "signed_off"))
        about = f"{lesson.group} {lesson.group}-{number} plain {level} hole"
        self.give(Act("level", about))
        self.give(Act("menu"))
        self.acts(self.teacher)

    def stands_still(self) -> None:
        """A turn could not begin: an adult takes the lesson up again, resumes or clears."""
        for purpose in ("confirm", "resume", "clear"):
            if self.may(AskAdult(purpose)):
                self.lets_in(self.teacher)
                self.asked()
                return
        self.wait(30)

    # --- what adults do besides ------------------------------------------------------------------

    def notes(self, what: str, hazard: str) -> None:
        """An adult writes down a near miss, an incident or something else."""
        if not self.menu(self.teacher):
            return
        self.may(Act("note"))
        self.may(Choose("note_what", what))
        self.may(Choose("note_hazard", hazard))
        self.give(NoteKept(f"n{len(self.record)}", what, hazard, "0" * 64))
        self.acts(self.teacher)

    def own_use(self) -> None:
        """The technician drills for the department."""
        self.acts(TECHNICIAN, Act("own_use"))
        self.reads_all(starter="on", spindle="on")
        self.wait(45)
        self.reads_all(starter="off")
        self.wait(3)
        self.reads_all(spindle="off")
        self.may(Act("own_use_end"))

    def out_of_use(self, why: str) -> None:
        """Taken out of use for some hours."""
        self.acts(TECHNICIAN, Act("out"), Act("out_why", why))
        self.repaired()

    def downloads(self, span: str, why: str = "") -> None:
        """The technician takes the log away."""
        if not self.menu(TECHNICIAN):
            return
        self.may(Act("download"))
        self.may(Act("download", span))
        self.wait(20)
        last = len(self.record)
        ended = DownloadEnded(span, why) if why else DownloadEnded(span, "", 1, last, "0" * 64)
        self.give(ended)
        self.acts(TECHNICIAN)

    def office(self) -> None:
        """Codes, badges, a cover teacher: what happens once in a term."""
        self.give(SecretReady(TEACHERS[0].ref, "codes", "command", ("", "")))
        self.give(AdultAllowed(COVER.ref, self.shop.machine.id, self.day + 3, "command"))
        if self.menu(TECHNICIAN):
            self.may(Act("people"))
            self.may(Act("person", COVER.ref))
            self.may(Act("secret", f"{COVER.ref} pin"))
            self.give(SecretReady(COVER.ref, "pin", TECHNICIAN.ref, ("482915",)))
        self.acts(TECHNICIAN)
        self.wait(400)
        for right in (0, 1):
            self.with_a_code(right)
        self.give(AdultEnded(COVER.ref, "command"))

    def with_a_code(self, number: int) -> None:
        """A teacher gets in by a spare code, once wrong and once right."""
        self.may(AskAdult("menu"))
        self.may(PickAdult(TEACHERS[0].ref))
        self.give(OpenPage("code"))
        self.give(TypeCode(TEACHERS[0].ref, "1234567890"))
        self.give(CodeChecked(TEACHERS[0].ref, number))
        self.acts(TEACHERS[0])
        self.wait(400)

    def everyone_stops(self) -> None:
        """One touch, and an adult lets work go on."""
        self.may(StopEveryone())
        self.wait(30)
        self.stands_still()
