"""What every screen's maker is handed, and the parts that all screens share."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from kiosk.core.inputs import Act, AskAdult, GoBack, LeavePage, SomethingWrong, StopEveryone, Touch
from kiosk.core.kiosk.adult_acts import is_wanted
from kiosk.core.kiosk.everyone import is_at_work, is_stopped
from kiosk.core.kiosk.language_acts import whose_screen
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.machining.worked import Value
from kiosk.core.model import Adult, Habit, Reading
from kiosk.core.plan.shape import PlanStep
from kiosk.core.plan.wording import named, pre_use_line
from kiosk.core.session import Session
from kiosk.core.units import Moment
from kiosk.core.view.shape import Button, Head, Picture, View
from kiosk.core.words import Words


@dataclass(frozen=True)
class Scene:
    """The state, the words to say it in, and the time. `school` are the words for adults."""

    shop: Shop
    kiosk: Kiosk
    words: Words
    now: Moment
    school: Words | None = None

    @property
    def for_adults(self) -> Scene:
        """The same in the school's language: what an adult reads on a pupil's screen."""
        return replace(self, words=self.school or self.words)

    @cached_property
    def pupil(self) -> str:
        """The reference of the pupil whose screen stands; empty for adults' and the room's."""
        return whose_screen(self.shop, self.kiosk)

    @property
    def adults(self) -> tuple[Adult, ...]:
        """The adults who are let in, in the order of the roster."""
        known = self.kiosk.adults
        return tuple(a for a in self.shop.roster.adults if known.find(a.ref))

    def say(self, key: str, /, **values: object) -> str:
        """One text."""
        return self.words.say(key, **values)

    def lines(self, key: str, /, **values: object) -> tuple[str, ...]:
        """The sentences of one text, one a line."""
        text = self.words.maybe(key, **values)
        return tuple(line for line in text.split("\n") if line)

    def who(self, session: Session) -> str:
        """`No. 14 · supervised`, with the name only if the school has turned names on."""
        pupil = self.shop.roster.pupil(session.pupil)
        number = pupil.number if pupil else "?"
        name = f" {pupil.name}" if pupil and pupil.name else ""
        return self.say("head.who", number=f"{number}{name}", level=self.level(session.level))

    def number_of(self, pupil: str) -> str:
        """The list number behind a pupil's reference."""
        found = self.shop.roster.pupil(pupil)
        return str(found.number) if found else "?"

    def level(self, word: str) -> str:
        """A training level in the language."""
        return self.say(f"level.{word}")

    def adult_name(self, ref: str) -> str:
        """The adult's name as the kiosk shows it."""
        adult = self.shop.roster.adult(ref)
        return adult.name if adult else "?"

    def step_values(self, step: PlanStep) -> dict[str, Value]:
        """The values a step's texts may name: the plan's, then its own."""
        if step.id not in self._named:
            self._named[step.id] = self._values_named(step)
        return self._named[step.id]

    @cached_property
    def _named(self) -> dict[str, dict[str, Value]]:
        """The values of the steps that were asked for, by the step's id."""
        return {}

    def _values_named(self, step: PlanStep) -> dict[str, Value]:
        session = self.kiosk.session
        values: dict[str, Value] = dict(session.plan.values) if session else {}
        values.update(step.values)
        if session:
            values["hole"] = min(session.done + 1, session.plan.holes)
            values["holes"] = session.plan.holes
        return named(values, self.words)

    def pre_use(self, item: str) -> str:
        """The line of one item of the pre-use check, as this machine has it."""
        return pre_use_line(self.words, self.shop.machine.id, item)

    @property
    def stops(self) -> Picture:
        """Where this drill is stopped: red stop, isolator or plug, room stop."""
        is_plug = self.shop.machine.habit is Habit.PLUG
        return Picture("stops_plug" if is_plug else "stops")

    def step_picture(self, step: PlanStep) -> Picture | None:
        """The step's drawing with the plan's lengths."""
        if not step.picture:
            return None
        session, kept = self.kiosk.session, self.kiosk.machine.set_up
        values: dict[str, Value] = dict(session.plan.values) if session else {}
        values.update(step.values)
        if kept and self.shop.machine.drive == "one belt":
            values["groove_now"] = kept.spec.groove
        return Picture(step.picture, tuple(sorted(values.items())))


UNREAD = ("adult_check", "drilling", "form")  # an adult's, or nothing may lead an ear astray


def scene_of(shop: Shop, kiosk: Kiosk, words: Words, now: Moment) -> Scene:
    """A pupil's screen is in the pupil's language, every other in the school's."""
    school = Scene(shop, kiosk, words, now, words)
    language = shop.language_of(school.pupil)
    return replace(school, words=words.of(language)) if language else school


def as_used(scene: Scene, view: View) -> View:
    """A view in its language, as whoever reads it uses the screen."""
    habits = scene.shop.habits_of(scene.pupil)
    read = "aloud" in habits and scene.shop.has_voice and view.screen not in UNREAD
    return replace(
        view,
        language=view.language or scene.words.language,
        large="large" in habits,
        left="left" in habits,
        aloud=read,
    )


def head(scene: Scene, with_wrong: bool = True) -> Head:
    """Machine, isolator, whose turn it is, and *Something wrong?*."""
    kiosk, shop = scene.kiosk, scene.shop
    reading = kiosk.machine.reading("isolator") if shop.reads_isolator else None
    word = reading.value if reading else "none"
    wrong = Button(scene.say("button.wrong"), SomethingWrong(), "danger") if with_wrong else None
    who = scene.who(kiosk.session) if kiosk.session else ""
    return Head(
        machine=scene.say(f"machine.{shop.machine.id}"),
        isolator=word,
        isolator_word=scene.say(f"isolator.{word}"),
        who=who,
        wrong=wrong,
        stop=_stop(scene) if with_wrong else None,
    )


def _stop(scene: Scene) -> Button | None:
    """*Everyone stop*, while there is work to stop."""
    if not is_at_work(scene.kiosk):
        return None
    live = not is_stopped(scene.kiosk)
    return Button(scene.say("button.everyone"), StopEveryone(), "plain", live)


def back(scene: Scene) -> Button:
    """Back one step."""
    return Button(scene.say("button.back"), GoBack())


def leave(scene: Scene) -> Button:
    """Leave the desk's page."""
    return Button(scene.say("button.back"), LeavePage())


def to_page(scene: Scene, page: str, about: str = "") -> Button:
    """Back to a page of the adult who is signed in."""
    return Button(scene.say("button.back"), Act(page, about))


def adult(scene: Scene, purpose: str, key: str = "button.adult_pin") -> Button:
    """An adult must act: opens the list of names."""
    live = is_wanted(scene.shop, scene.kiosk, purpose)
    return Button(scene.say(key), AskAdult(purpose), "adult", live)


def choice(
    label: str, touch: Touch, picture: Picture | None = None, look: str = "choice"
) -> Button:
    """One of many to touch."""
    return Button(label, touch, look, picture=picture)


def reading_is_lost(scene: Scene) -> bool:
    """Whether the isolator has a contact here but nothing to go by."""
    lost = (Reading.UNKNOWN, Reading.FAULT)
    return scene.shop.reads_isolator and scene.kiosk.machine.reading("isolator") in lost
