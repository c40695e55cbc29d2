"""Real views in one language: invented lessons at every shipped drill, told screen by screen.

`told("pl")` has every screen that the lessons come to, once, with all words in Polish. So what a
translation makes of a screen is seen without anybody writing it down again.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from kiosk.core.inputs import (
    Act,
    AdultIssued,
    AskAdult,
    Choose,
    KioskBegan,
    LeavePage,
    LevelsRead,
    NameTrouble,
    OpenPage,
    PackageIn,
    PackageRead,
    PickJob,
    PickPupil,
    SeenRight,
    SomethingWrong,
    Still,
)
from kiosk.core.kiosk.office_acts import NOTE_KINDS
from kiosk.core.view import View, show
from kiosk.core.view.fault_views import closed_record_view, record_fault_view
from kiosk.core.view.trouble_views import TROUBLES
from kiosk.core.words import Words
from tests.core.exploring import BEGAN, PACKAGE_LINES, PACKAGE_MISTAKES, REFUSALS
from tests.core.story import CONTENT, PUPILS, TEACHER, TECHNICIAN, WORDS, Story, shop
from tests.screens.gallery.corner import corner, make, piloted, sheets, signed

MENU = ("out", "open", "note", "pre_use", "help_start", "own_use", "download")
FAULTS = ("full", "read_only", "failing", "in_use", "damaged", "newer", "slow")


@dataclass
class Told(Story):
    """A story that remembers each screen it came to, in the words of a language."""

    words: Words = WORDS
    seen: dict[str, View] = field(default_factory=dict)

    def look(self) -> None:
        """Remember what stands on the screen."""
        view = show(self.shop, self.kiosk, self.words, self.now, self.refusal)
        self.keep(view)

    def keep(self, view: View) -> None:
        """Remember a view unless one just like it was seen."""
        bare = replace(view, picture=None, rail=None, number=0)
        if all(replace(v, picture=None, rail=None, number=0) != bare for v in self.seen.values()):
            self.seen[f"{view.screen}_{len(self.seen) + 1}"] = view

    def step_on(self) -> None:
        """Do the step shown, seeing each screen on the way."""
        self.look()
        self.do_step()


def told(language: str) -> dict[str, View]:
    """Every screen that the lessons come to, by a name of its own, numbered from 1."""
    seen: dict[str, View] = {}
    for machine in CONTENT.machines:
        story = _begun(machine.id, WORDS.of(language), seen)
        _office(story)
        for job in CONTENT.jobs:
            for hole in range(len(job.holes)):
                _turns(_begun(machine.id, WORDS.of(language), seen), job.id, hole)
    _from_a_stick(_begun("drill-1", WORDS.of(language), seen))
    _troubles(_begun("drill-1", WORDS.of(language), seen))
    _faults(_begun("drill-1", WORDS.of(language), seen))
    return {name: replace(view, number=at) for at, (name, view) in enumerate(seen.items(), 1)}


def _begun(machine: str, words: Words, seen: dict[str, View]) -> Told:
    """A kiosk that has started, with two adults and a drill at rest."""
    story = Told(shop=shop(machine), words=words, seen=seen)
    story.give(KioskBegan(machine, "told", "first"))
    for adult in (TEACHER, TECHNICIAN):
        story.give(AdultIssued(adult.ref, adult.role, "told"))
    story.give(LevelsRead(tuple((p.ref, p.level.word) for p in PUPILS)))
    for name, _ in story.shop.machine.wiring.inputs:
        story.reads(name, "on" if name == "isolator" else "off")
    return story


def _office(story: Told) -> None:
    """Each page of the menu."""
    for act in MENU:
        signed(story)
        story.give(Act(act))
        story.look()
        if act == "own_use":
            story.give(Act("own_use_end"))
    if story.shop.machine is CONTENT.machines[0]:  # these pages are alike at every drill
        corner(story)
        make(story)
        sheets(story)
        _open_lesson(story, ("made_1",))
        piloted(story)
    for kind in NOTE_KINDS:
        signed(story)
        story.give(Act("note"))
        story.give(Choose("note_what", kind))
        story.look()
    _open_lesson(story, tuple(job.id for job in CONTENT.jobs))
    story.give(PickPupil(14))
    story.look()
    story.give(OpenPage("language"))
    story.look()


def _from_a_stick(story: Told) -> None:
    """What a package brings in, how taking it in ends, and each reason to refuse it."""
    for why in ("", *REFUSALS):
        signed(story)
        story.give(Act("package"))
        story.look()
        lines = PACKAGE_MISTAKES if why == "mistakes" else () if why else PACKAGE_LINES
        story.give(PackageRead("" if why else "d1", 0 if why else BEGAN.wall_us, lines, why))
        story.look()
    signed(story)
    story.give(Act("package"))
    story.give(PackageRead("d1", BEGAN.wall_us, PACKAGE_LINES))
    for given in (Act("package_in", "d1"), PackageIn(TECHNICIAN.ref, "d1", BEGAN.wall_us)):
        story.give(given)
        story.look()


def _open_lesson(story: Told, jobs: tuple[str, ...]) -> None:
    signed(story)
    story.give(Act("open"))
    story.look()
    story.give(Act("pre_use_right"))
    story.look()
    story.give(Choose("group", "8b"))
    story.look()
    for job in jobs:
        story.give(Choose("jobs", job))
    story.look()
    story.give(Act("jobs_done"))
    story.look()
    story.give(Choose("length", "60"))
    story.look()


def _turns(story: Told, job: str, hole: int) -> None:
    """A shown pupil sets up and drills; the next one finds it set up."""
    _open_lesson(story, (job,))
    for number in (5, 14):
        story.give(PickPupil(number))
        story.look()
        if story.kiosk.desk.page == "job":
            story.give(PickJob(job, hole))
        if story.kiosk.session is None:
            return  # this drill can't make it
        _turn(story)
        story.wait(20)


def _turn(story: Told) -> None:
    for _ in range(120):
        session = story.kiosk.session
        if session is None:
            story.look()
            return
        if session.is_drilling:
            _drill(story)
        elif session.is_waiting_for_adult:
            story.look()
            story.give(OpenPage("not_right"))
            story.look()
            story.give(LeavePage())
            story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
            story.look()
            story.pin()
        else:
            story.step_on()


def _drill(story: Told) -> None:
    """Start, stop, wait for still, touch; what the contacts there say is seen on the way."""
    story.look()
    for name, word in (("isolator", "on"), ("starter", "on"), ("starter", "off")):
        if story.shop.machine.wiring.has(name):
            story.wait(3)
            story.reads(name, word)
            story.look()
    story.wait(story.shop.machine.run_down.s + 1)
    story.give(Still())
    if story.kiosk.session and story.kiosk.session.is_drilling:
        story.look()
        story.give(Still())


def _troubles(story: Told) -> None:
    """Each picture of *Something wrong?* up to the adult's page; lost and changed readings."""
    _open_lesson(story, ("hook_bar",))
    for trouble in TROUBLES:
        story.give(SomethingWrong())
        story.look()
        story.give(NameTrouble(trouble))
        _recover(story)
    story.give(PickPupil(5))
    story.do_step()
    for reading in ("unknown", "off", "on"):
        story.reads("isolator", reading)
        story.look()


def _recover(story: Told) -> None:
    story.reads("isolator", "off")
    for _ in range(12):
        story.look()
        seen = next((b.touch for b in story.buttons() if isinstance(b.touch, SeenRight)), None)
        if seen is None:
            break
        story.give(seen)
    story.give(AskAdult("clear"))
    story.pin()
    story.look()
    story.give(Act("end"))


def _faults(story: Told) -> None:
    """A restart, and a record that can't be written."""
    for why in FAULTS:
        story.keep(record_fault_view(story.shop, story.kiosk, story.words, story.now, why))
        story.keep(closed_record_view("Drill 1", story.words, why))
    _open_lesson(story, ("hook_bar",))
    story.give(PickPupil(5))
    story.give(KioskBegan("drill-1", "told", "cut"))
    story.look()
    story.give(Still())
    story.look()
