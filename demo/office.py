"""What the adults of the invented lesson do beside drilling: the corner, jobs, levels, quiet."""

from __future__ import annotations

from dataclasses import dataclass

from demo.played import GROUP, TEACHER, TECHNICIAN, Lesson
from kiosk.core.words import capital

LINED_UP, WATCHED, PILOTED = "6", "4", "5"
SLOW_S = 60.0  # a sheet is made by a process of its own
PIECE = ("material.mild_steel", "shape.bar")


@dataclass
class Office:
    """The adults at the desk; the hand, the words and the PINs are the lesson's."""

    lesson: Lesson

    def _say(self, who: str, *keys: str) -> None:
        for key in keys:
            self.lesson.say(key, who)

    def _touch(self, who: str, *labels: str) -> None:
        for label in labels:
            self.lesson.hand.touch(label, who)

    def done(self, who: str) -> None:
        """The adult leaves the desk."""
        self._say(who, "button.done")
        self.lesson.hand.wait("the room", lambda s: s.screen in ("idle", "out_of_use"))

    # --- before the lesson ---------------------------------------------------------------------

    def corner(self) -> None:
        """The technician enters a check, counts bits, names a deputy, sets the run-down."""
        words, say = self.lesson.words.say, self._say
        self.lesson.menu(TECHNICIAN, "menu.care")
        say(TECHNICIAN, "care.checks", "control.extraction_tested", "checks.right_30")
        say(TECHNICIAN, "control.belt_sound", "checks.not_right", "control.belt_sound")
        say(TECHNICIAN, "checks.right_0", "button.back", "care.racks")
        bit = words("racks.bit", diameter="8\u00a0mm", bit=words("bit.twist"))
        self._touch(TECHNICIAN, bit)
        say(TECHNICIAN, "racks.new", "racks.new", "racks.blunt", "button.back", "button.back")
        say(TECHNICIAN, "care.deputy")
        self._touch(TECHNICIAN, TEACHER)
        say(TECHNICIAN, "care.data")
        self._touch(TECHNICIAN, words("data.run_down", time="4\u00a0s"))
        self._touch(TECHNICIAN, words("data.seconds", n=5))
        say(TECHNICIAN, "button.back", "care.fault_log", "button.back", "button.back")
        say(TECHNICIAN, "menu.down")
        day = next(s.label for s in self.lesson.hand.on("form").spots if s.label[:2] == "20")
        self._touch(TECHNICIAN, day, words("form.minutes", n=30), "2")
        say(TECHNICIAN, "menu.return", "button.pre_use_right")
        self.done(TECHNICIAN)

    def job(self) -> None:
        """The teacher makes a job with a pilot for the group."""
        say = self.lesson.words.say
        self.lesson.menu(TEACHER, "menu.jobs_made")
        self._say(TEACHER, "make.new")
        self._touch(TEACHER, GROUP)
        self._say(TEACHER, *PIECE)
        self._touch(TEACHER, "12\u00a0mm", "40\u00a0mm", "120\u00a0mm")
        self._touch(TEACHER, f"12\u00a0mm\n{say('bit.twist')}")
        self._say(TEACHER, "make.through")
        self._touch(TEACHER, "2")
        self._say(TEACHER, "make.keep")
        self._touch(TEACHER, self.lesson.made)
        self._say(TEACHER, "button.back", "button.back")
        self.done(TEACHER)
        self.lesson.has_made = True

    def sheet(self) -> None:
        """The teacher reads the lesson card of the job just made, and has it put on the stick."""
        self.lesson.menu(TEACHER, "menu.sheets")
        self._say(TEACHER, "sheets.card")
        self._touch(TEACHER, self.lesson.made)
        self.lesson.say("sheets.onward", TEACHER, SLOW_S)
        self._say(TEACHER, "sheets.to_stick")
        self.lesson.say("button.done", TEACHER, SLOW_S)
        self._say(TEACHER, "button.back")
        self.done(TEACHER)

    # --- in the lesson -------------------------------------------------------------------------

    def level(self) -> None:
        """A level is granted after watching; the lesson is made longer, and tighter."""
        say = self.lesson.words.say
        self.lesson.menu(TEACHER, "menu.level")
        self._touch(TEACHER, WATCHED)
        self._say(TEACHER, "level.plain")
        self._touch(TEACHER, capital(say("level.supervised")))
        self._say(TEACHER, "watched.hole")
        self._say(TEACHER, "button.back", "menu.longer")
        self._touch(TEACHER, say("form.minutes", n=10))
        self._say(TEACHER, "menu.tighter", "tighter.no_spell", "button.back")
        self.done(TEACHER)

    def pilots(self) -> None:
        """A hole waits for its pilot, which an adult has seen in the work from the other drill."""
        hand, pupil = self.lesson.hand, f"pupil {PILOTED}"
        what = self.lesson.words.say("job.hole_through", n=2, diameter="12\u00a0mm")
        hole = f"{self.lesson.made}\n{what.rstrip(', ')}"
        self._touch(pupil, PILOTED)
        hand.on("job")
        self._say(pupil, "button.back")
        self.lesson.menu(TEACHER, "menu.pilots")
        self._touch(TEACHER, hole, PILOTED)
        self.done(TEACHER)
        self._touch(pupil, PILOTED, hole)
        hand.wait("the first step", lambda s: s.screen == "step")
        self._say(pupil, "button.not_me", "button.next_person")

    def line(self) -> None:
        """A pupil lines up, gets ready, and is let go again."""
        who = f"pupil {LINED_UP}"
        self._say(who, "button.line_up")
        self._touch(who, LINED_UP, self.lesson.words.say("job.hook_bar"))
        self._say(who, "step.ready_again.see", "button.line_up")
        self._touch(who, self.lesson.words.say("form.picked", job=LINED_UP))
        self._say(who, "button.line_leave")
        self.lesson.hand.on("idle")

    def everyone_stops(self) -> None:
        """Anybody stops everyone; an adult lets work go on."""
        self._say("pupil 3", "button.everyone")
        self._say(TEACHER, "button.resume")
        self.lesson.sign(TEACHER)
        self.lesson.hand.wait("the numbers", lambda s: any(p.look == "number" for p in s.spots))

    def quiet(self) -> None:
        """Silent hours begin and end; the teacher is at the menu already."""
        self._say(TEACHER, "menu.quiet")
        self._touch(TEACHER, self.lesson.words.say("form.minutes", n=30))
        self._say(TEACHER, "menu.quiet_end")
        self.done(TEACHER)

    # --- after the lesson ----------------------------------------------------------------------

    def incident(self) -> None:
        """The near miss is followed up: cause, what was done, review; then it is closed.

        The teacher has come to the page by badge.
        """
        words = self.lesson.words.say
        self._touch(TEACHER, words("incidents.near_miss"))
        for part, text in (("cause", "blunt"), ("action", "new bit")):
            self._say(TEACHER, f"incidents.{part}")
            self.lesson.types(text, TEACHER)
            self._say(TEACHER, "button.note_done")
            self.lesson.hand.on("incident")
        self._say(TEACHER, "incidents.review_yes", "incidents.close", "button.back")
        self.done(TEACHER)

    def belt(self) -> None:
        """A small fault: out of use, and the deputy returns the drill."""
        self.lesson.menu(TEACHER, "menu.out")
        self._say(TEACHER, "out.belt")
        self.lesson.hand.on("out_of_use")
        self.lesson.menu(TEACHER, "menu.return")
        self._say(TEACHER, "button.pre_use_right")
        self.done(TEACHER)
