"""People at one drill: they do what a screen asks, sometimes something else, in their time."""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

from kiosk.core.events import Event
from kiosk.core.inputs import (
    Act,
    AskAdult,
    BadgeChecked,
    BadgeRead,
    ByMistake,
    Choose,
    GoBack,
    Leave,
    LeavePage,
    NameTrouble,
    NotDrilled,
    OpenPage,
    PickAdult,
    PickJob,
    PickNotRight,
    PickPupil,
    PinChecked,
    ReadingIs,
    SeenRight,
    SomethingWrong,
    SpellOk,
    Still,
    StillThere,
    Touch,
    TypePin,
)
from kiosk.core.model import Adult, Reading
from tests.core.story import TEACHER, Story

SLOW_STEPS = ("hold", "mark", "belt", "trial_stroke")
PATIENCE = 300
LOSSES = ("silent", "unplugged", "stale")
ISOLATOR_OFF = "isolator off"


@dataclass
class Drill(Story):
    """One drill with its people. `teacher` has the lesson; `calm` when nothing odd happens."""

    dice: Random = field(default_factory=lambda: Random(1))
    teacher: Adult = TEACHER
    calm: bool = False

    # --- little things ---------------------------------------------------------------------------

    def happens(self, share: float) -> bool:
        """Whether the dice say so; never while all is calm."""
        return not self.calm and self.dice.random() < share

    def takes(self, middle_s: float) -> None:
        """A piece of work takes about so long."""
        self.wait(self.dice.lognormvariate(0, 0.5) * middle_s)

    def shown(self, kind: type[Touch]) -> list[Touch]:
        """The touches of a kind that are shown."""
        return [button.touch for button in self.buttons() if isinstance(button.touch, kind)]

    def touches_shown(self) -> list[Touch]:
        """Every touch that is shown."""
        return [button.touch for button in self.buttons()]

    def may(self, touch: Touch) -> bool:
        """Touch it if it is shown."""
        if touch not in self.touches_shown():
            return False
        self.touch(touch)
        return True

    def reads_all(self, **readings: str) -> None:
        """Contacts that this drill has settle."""
        for name, reading in readings.items():
            known = self.kiosk.machine.reading(name).value
            if self.shop.machine.wiring.has(name) and known != reading:
                why = self.dice.choice(LOSSES) if reading == "unknown" else "settled"
                self.give(ReadingIs(name, Reading(reading), why))

    # --- adults ----------------------------------------------------------------------------------

    def lets_in(self, adult: Adult) -> None:
        """An adult is let in: mostly by PIN, now and then with a mistake first, or by badge."""
        self.takes(4)
        if self.happens(0.3) and self.view.screen in ("names", "form", "pin"):
            if self.happens(0.1):
                self.give(BadgeRead("0099999999"))
                self.give(BadgeChecked(""))
                self.wait(5)
            self.give(BadgeRead("0012345678"))
            self.give(BadgeChecked(adult.ref))
            return
        if not self.may(PickAdult(adult.ref)):
            return
        if self.happens(0.05):
            self.give(TypePin(adult.ref, "000000"))
            self.give(PinChecked(adult.ref, False))
            self.wait(35)
        self.give(TypePin(adult.ref, "482915", int(self.happens(0.2))))
        if self.kiosk.adults.trying:
            self.give(PinChecked(adult.ref, True))

    def menu(self, adult: Adult) -> bool:
        """An adult signs in to the menu from rest; whether it came to that."""
        if not self.may(AskAdult("menu")):
            return False
        self.lets_in(adult)
        return bool(self.kiosk.desk.signed)

    def acts(self, adult: Adult, *touches: Touch) -> bool:
        """An adult signs in, touches these, and leaves; whether all of them were shown."""
        done = self.menu(adult) and all(self.may(touch) for touch in touches)
        self.may(LeavePage())
        return done

    # --- a pupil's turn --------------------------------------------------------------------------

    def turn(self, number: int) -> bool:
        """A pupil's whole turn, whatever comes in between; whether it began."""
        if not self.may(PickPupil(number)):
            return False
        for _ in range(PATIENCE):
            if self.kiosk.session is None and self.view.screen not in self.BEFORE:
                break
            self.goes_on()
        self.may(LeavePage())
        return True

    def start_only(self, number: int) -> None:
        """A pupil begins a turn and does its first steps."""
        self.may(PickPupil(number))
        for _ in range(8):
            self.goes_on()

    BEFORE = ("job", "question", "reason", "form")

    def goes_on(self) -> None:
        """The next thing at the screen."""
        session = self.kiosk.session
        if session is not None and session.halt is None and self.happens(0.006):
            self.something_odd()
        elif self.view.screen == "adult_check":
            self.check()
        elif session is not None and session.is_drilling:
            self.drill()
        else:
            self.asked()

    def asked(self) -> None:
        """Do what the screen asks, by the kind of its buttons."""
        for kind, answer in (
            (StillThere, self.touch),
            (SeenRight, self.step),
            (NameTrouble, self.touch),
            (Choose, self.choose),
            (OpenPage, self.touch),
            (PickJob, self.touch),
            (PickAdult, lambda _: self.lets_in(self.teacher)),
            (Act, self.touch),
            (Still, self.touch),
        ):
            shown = self.shown(kind)
            if kind is OpenPage:
                shown = [t for t in shown if "questions" in str(t) and self.happens(0.12)]
            if shown:
                answer(self.dice.choice(shown))
                return
        self.waits_for_adult()

    def waits_for_adult(self) -> None:
        """Nothing is left to a pupil: an adult comes."""
        self.takes(20)
        blue = [b.touch for b in self.buttons() if b.look == "adult"]
        if blue:
            self.touch(blue[0])
        elif not self.may(LeavePage()):
            self.reads_all(isolator="off", starter="off", spindle="off")
            self.wait(40)

    def choose(self, touch: Touch) -> None:
        """One of several answers, after some thought; of a question mostly the right one."""
        self.takes(3)
        rights = {question.right for question in self.shop.content.people.questions}
        right = [t for t in self.shown(Choose) if getattr(t, "value", "") in rights]
        touch = right[0] if right and self.dice.random() < 0.8 else touch
        self.may(touch)

    def step(self, touch: Touch) -> None:
        """Do a step, then say what is seen."""
        assert isinstance(touch, SeenRight)
        slow = any(touch.step.startswith(name) for name in SLOW_STEPS)
        self.takes(55 if slow else 9)
        makes = self._makes()
        if ISOLATOR_OFF in makes:
            self.reads_all(isolator="off")
        if self.happens(0.02) and self.shown(GoBack):
            self.touch_kind(GoBack)
        elif self.may(touch) and self.refusal:
            self.reads_all(isolator="off", starter="off", spindle="off")
            self.wait(8)

    def _makes(self) -> list[str]:
        session = self.kiosk.session
        return [fact.value for fact in session.step.makes] if session else []

    # --- the check, the drill --------------------------------------------------------------------

    def check(self) -> None:
        """An adult looks: mostly all is right."""
        self.takes(25)
        if self.happens(0.08) and self.may(OpenPage("not_right")):
            wrong = self.shown(PickNotRight)
            guard = [t for t in wrong if "guard" in str(t)]
            self.touch(self.dice.choice(guard * 3 + wrong))
            return
        spell = self.shown(SpellOk)
        if spell:
            self.touch(spell[0])
            return
        self.touch(AskAdult("ok"))
        self.lets_in(self.teacher)

    def drill(self) -> None:
        """Start, drill, stop, still; the contacts that are there see it."""
        self.reads_all(isolator="on")
        self.takes(3)
        if self.happens(0.03):  # touched too early
            self.wait(self.shop.machine.run_down.s + 1)
            self.touch_one(Still)
        self.reads_all(starter="on")
        self.reads_all(spindle="on")
        self.takes(12)
        if self.happens(0.02):
            self.reads_all(isolator="unknown")
        if self.happens(0.03):
            self.may(SomethingWrong())
        self.reads_all(starter="off")
        self.wait(2 + self.dice.random())
        self.reads_all(spindle="off", isolator="on")
        self.wait(self.shop.machine.run_down.s + 1)
        for _ in range(6):
            session = self.kiosk.session
            if session is None or not session.is_drilling:
                return
            self.touch_one(NotDrilled, Still, StillThere)
            self.wait(5)

    def touch_one(self, *kinds: type[Touch]) -> tuple[Event, ...]:
        """The first of these that is shown."""
        for kind in kinds:
            shown = self.shown(kind)
            if shown:
                return self.touch(shown[0])
        return ()

    # --- what goes wrong -------------------------------------------------------------------------

    def something_odd(self) -> None:
        """One of the things that happen in a workshop."""
        what = self.dice.choice(
            ("wrong", "mistake", "isolator", "lost", "running", "running", "nobody", "leave", "all")
        )
        match what:
            case "wrong":
                self.may(SomethingWrong())
            case "mistake":
                self.may(SomethingWrong())
                self.wait(3)
                self.may(ByMistake())
            case "isolator":
                self.reads_all(isolator="on")
            case "lost":
                self.lost()
            case "running":
                self.reads_all(starter="on")
                self.wait(4)
                self.reads_all(starter="off")
            case "nobody":
                self.wait(400)
            case "leave":
                self.touch_one(Leave)
            case "all":
                stop = self.view.head.stop
                if stop is not None and stop.live:
                    self.touch(stop.touch)

    def lost(self) -> None:
        """The box falls silent and comes back."""
        self.reads_all(isolator="unknown", starter="unknown", spindle="unknown")
        self.wait(30)
        self.reads_all(isolator="on", starter="off", spindle="off")
