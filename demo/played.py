"""The invented lesson that the tour plays, act by act, by the people in it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from demo.bench import Bench
from demo.hand import PATIENCE_S, Hand, Lost, Sight
from demo.kiosk import TREE
from kiosk.content import load
from kiosk.core.words import Words

TEACHER, TECHNICIAN = "Ms Invented", "Mr Invented"
GROUP = "Year 8 blue"
SHOWN, SUPERVISED = "3", "14"
JOB, OTHER_JOB = "job.hook_bar", "job.pen_block"
RUN_S = 2.0  # how long the invented pupil drills a hole


@dataclass
class Lesson:
    """The people at the drill: the hand that touches, the bench that is the drill, the PINs.

    Adults read `words`; the pupils choose `language` at their first turn. `has_made`: a job was
    made at the screen, which the lesson is for too.
    """

    hand: Hand
    bench: Bench
    pins: dict[str, str]
    words: Words = field(default_factory=lambda: load(TREE / "sequences").words)
    language: str = "en"
    has_made: bool = False
    chosen: set[str] = field(default_factory=set)

    @property
    def jobs(self) -> tuple[str, ...]:
        """The jobs of the lesson by name: the one made at the screen, if one was, then two more."""
        made = (self.made,) if self.has_made else ()
        return (*made, self.words.say(JOB), self.words.say(OTHER_JOB))

    @property
    def made(self) -> str:
        """The name of the job that was made at the screen."""
        steel = self.words.say("material.mild_steel")
        return self.words.say("job.made", number=1, material=steel)

    @property
    def questions(self) -> tuple[str, ...]:
        """The ids of the questions before you drill."""
        content = load(TREE / "sequences").content
        return tuple(q.id for q in content.people.questions) if content else ()

    @property
    def own(self) -> Words:
        """The words that the pupils read."""
        return self.words.of(self.language)

    # --- adults ------------------------------------------------------------------------------

    def sign(self, who: str, stay: bool = False) -> None:
        """An adult picks a name and types the PIN; `stay` asks for an attended spell."""
        self.hand.touch(who, who)
        if stay:
            self.hand.touch(self.words.say("pin.stay"), who)
        self.hand.type_pin(self.pins[who], who)

    def menu(self, who: str, act: str) -> None:
        """An adult signs in from the idle screen and picks one thing to do, by its key."""
        calm = ("idle", "out_of_use")
        self.hand.wait("the idle screen", lambda s: s.screen in calm)
        self.hand.touch(self.words.say("button.menu"), who)
        self.sign(who)
        self.say(act, who)

    def say(self, key: str, who: str, patience: float = PATIENCE_S) -> None:
        """An adult touches what a key says in the school's language."""
        self.hand.touch(self.words.say(key), who, patience)

    def own_say(self, key: str, who: str, patience: float = PATIENCE_S) -> None:
        """A pupil touches what a key says in the pupil's own language."""
        self.hand.touch(self.own.say(key), who, patience)

    def adult_acts(self, who: str, stay: bool = False) -> None:
        """An adult answers the blue button: by PIN, or by one touch in a spell."""
        self.hand.touch_look("adult", who)
        before, comes = self.hand.seen, ("form", "step", "drilling")
        self.hand.wait("what comes of it", lambda s: s.screen in comes and _is_new(s, before))
        if self.hand.seen and self.hand.seen.screen == "form":
            self.sign(who, stay)
            self.hand.wait("the PIN taken", lambda s: s.screen not in ("pin", "form"))

    def open_lesson(self) -> None:
        """The check of the day unless it holds, then group, jobs and length."""
        self.menu(TEACHER, "menu.open")
        if self.hand.wait("what comes", lambda s: s.screen in ("pre_use", "form")).screen != "form":
            self.say("button.pre_use_right", TEACHER)
        self.hand.touch(GROUP, TEACHER)
        for job in self.jobs:
            self.hand.touch(job, TEACHER)
        self.say("button.jobs_done", TEACHER)
        self.hand.touch(self.words.say("form.minutes", n=60), TEACHER)
        self.hand.wait("the numbers", lambda s: any(p.look == "number" for p in s.spots))

    # --- pupils ------------------------------------------------------------------------------

    def begin(self, number: str) -> None:
        """A pupil touches the number, and the job where the lesson has several."""
        self.hand.touch(number, _pupil(number))
        seen = self.hand.wait("what comes", lambda s: s.screen in ("job", "step", "already_set"))
        if seen.screen == "job":
            self.choose_language(number)
            self.own_say(JOB, _pupil(number))
        self.hand.wait("the first step", lambda s: s.screen in ("step", "already_set"))

    def choose_language(self, number: str) -> None:
        """Once, a pupil finds *text size, language* and touches the name of the own one."""
        if number in self.chosen or self.language == self.words.language:
            return
        self.chosen.add(number)
        self.hand.touch(self.words.say("button.text_size"), _pupil(number))
        self.own_say("language", _pupil(number))
        self.hand.on("job")

    def steps(self, number: str, until: str, stop_at: str = "") -> None:
        """Work through the steps up to a screen, or up to the step with a title."""
        for _ in range(60):
            seen = self._at_a_step(until, stop_at)
            if seen.screen == until or (stop_at and seen.title == stop_at):
                return
            self._do(seen, number)
        raise Lost(f"the steps never came to {until!r}")

    def _at_a_step(self, until: str, stop_at: str) -> Sight:
        on_the_way = (until, "step", "already_set", "adult_check")

        def ready(seen: Sight) -> bool:
            return seen.screen in on_the_way or (stop_at != "" and seen.title == stop_at)

        return self.hand.wait(f"a step on the way to {until}", ready)

    def _do(self, seen: Sight, number: str) -> None:
        if seen.title == self.own.say("step.isolator_off.title"):
            self.bench.isolator_off()
        if any(s.look == "adult" for s in seen.spots):
            self.adult_acts(TEACHER)
        else:
            self.hand.touch_look("main", _pupil(number))
        self.hand.wait("the next screen", lambda s: s.number != seen.number)

    def drill(self, number: str) -> None:
        """Isolator on, start, drill, stop, wait for still, one touch."""
        self.hand.on("drilling")
        self.bench.isolator_on()
        self.bench.press_start()
        time.sleep(RUN_S)
        self.bench.press_stop()
        self.own_say("button.still", _pupil(number), patience=30)

    def hole(self, number: str, stay: bool = False) -> None:
        """Up to the check, the OK, the hole."""
        self.steps(number, "adult_check")
        self.adult_acts(TEACHER, stay)
        self.drill(number)

    def clear_up(self, number: str) -> None:
        """Clear up, and let the next person come."""
        self.steps(number, "finished")
        self.own_say("button.next_person", _pupil(number))

    # --- the acts of the tour ------------------------------------------------------------------

    def shown_pupil(self) -> None:
        """A shown pupil sets up, is halted by the isolator, and drills two holes."""
        self.begin(SHOWN)
        self.steps(SHOWN, "interruption", stop_at=self.own.say("step.bit.title"))
        self.bench.isolator_on()
        self.hand.on("interruption")
        self.bench.isolator_off()
        self.hand.touch_look("adult", TEACHER)
        self.sign(TEACHER)
        self.say("clear.again", TEACHER)
        self.hole(SHOWN, stay=True)
        self.hole(SHOWN)
        self.clear_up(SHOWN)

    def supervised_pupil(self, by_badge: Callable[[str], None]) -> None:
        """A supervised pupil joins the kept set-up; at the second hole the bit breaks."""
        self.begin(SUPERVISED)
        self.steps(SUPERVISED, "adult_check")
        by_badge(SUPERVISED)
        self.steps(SUPERVISED, "drilling")
        self.bit_breaks()
        self.steps(SUPERVISED, "adult_check")
        self.adult_acts(TEACHER)
        self.drill(SUPERVISED)
        self.clear_up(SUPERVISED)

    def bit_breaks(self) -> None:
        """While the drill turns: one line; once still, the picture, the recovery, a note."""
        self.bench.isolator_on()
        self.bench.press_start()
        time.sleep(1.0)
        self.own_say("button.wrong", _pupil(SUPERVISED))
        band = self.own.say("band.lift_clear")
        self.hand.wait("lift clear", lambda s: band in str(s.raw.get("band")))
        self.bench.press_stop()
        self.own_say("button.still", _pupil(SUPERVISED), patience=30)
        self.own_say("trouble.bit_broken.title", _pupil(SUPERVISED))
        self.recovery(SUPERVISED)
        self.near_miss()
        self.say("clear.again", TEACHER)

    def recovery(self, number: str) -> None:
        """The recovery's steps, up to the adult's page."""
        while True:
            seen = self.hand.on("recovery")
            if any(s.look == "adult" for s in seen.spots):
                break
            if seen.title == self.own.say("step.broken_isolator.title"):
                self.bench.isolator_off()
            self.hand.touch_look("main", _pupil(number))
            self.hand.wait("the next one", lambda s, n=seen.number: s.number != n)
        self.hand.touch_look("adult", TEACHER)
        self.sign(TEACHER)
        self.hand.on("menu")

    def near_miss(self) -> None:
        """The teacher notes a near miss, without names."""
        self.say("clear.note", TEACHER)
        self.say("note.near_miss", TEACHER)
        self.say("hazard.flying_parts", TEACHER)
        self.types("bit snapped", TEACHER)
        self.say("button.note_done", TEACHER)
        self.hand.on("menu")

    def types(self, text: str, who: str) -> None:
        """Somebody types on the keyboard of the screen."""
        self.hand.on("note")
        for letter in text:
            space = self.words.say("keyboard.space")
            self.hand.touch(space if letter == " " else letter, who)

    def wire_off(self) -> None:
        """The contact box is unplugged: unknown is shown, then it is read again."""
        self.bench.unplug()
        unknown = tuple(w.say("isolator.unknown") for w in (self.words, self.own))
        self.hand.wait("isolator unknown", lambda s: s.raw["isolator"] in unknown, 10)
        self.hand.touch(SHOWN, _pupil(SHOWN))
        self.own_say(JOB, _pupil(SHOWN))
        self.hand.on("interruption")
        self.own_say("button.leave", _pupil(SHOWN))
        self.bench.plug()
        self.own_say("button.next_person", _pupil(SHOWN))
        self.hand.wait("isolator read", lambda s: s.raw["isolator"] not in unknown, 10)

    def cut_in_a_turn(self, cut: Callable[[], None]) -> None:
        """The power goes in the middle of a turn: the first screen asks whether it is turning."""
        self.begin(SUPERVISED)
        cut()
        self.hand.on("restart", patience=30)
        self.say("button.seen_still", TEACHER)
        self.say("button.confirm", TEACHER)
        self.sign(TEACHER)
        self.hand.wait("the numbers", lambda s: any(p.look == "number" for p in s.spots))

    def end_of_lesson(self) -> None:
        """Own use, close the lesson, download, and take the drill out of use for cleaning."""
        self.menu(TECHNICIAN, "menu.own_use")
        self.hand.touch(self.words.say("button.own_hole", holes=0), TECHNICIAN)
        self.say("button.own_use_end", TECHNICIAN)
        self.menu(TEACHER, "menu.close")
        self.menu(TECHNICIAN, "menu.download")
        self.say("span.week", TECHNICIAN)
        self.hand.on("download")
        self.say("button.done", TECHNICIAN, patience=60)
        self.menu(TECHNICIAN, "menu.out")
        self.say("out.cleaning", TECHNICIAN)
        self.hand.on("out_of_use")


def _pupil(number: str) -> str:
    return f"pupil {number}"


def _is_new(seen: Sight, before: Sight | None) -> bool:
    """Whether a touch has led on from the screen that stood before."""
    return before is None or seen.number != before.number
