"""Who is let in, and with what: a new adult, badges, a spare code, a stick, and one revoked."""

from __future__ import annotations

from dataclasses import dataclass

from demo.office import Office
from demo.played import TEACHER, TECHNICIAN, Lesson

COVER, TYPED = "Mx Cover", "mx cover"
COVER_BADGE, TEACHER_BADGE = "0012345678", "0087654321"
WRONG = "000000"
SLIPS = 3  # the third wrong PIN has to wait
QUIZZED = "4"


@dataclass
class LettingIn:
    """The technician at the adults' pages; the hand, the words and the cards are the lesson's."""

    lesson: Lesson
    office: Office

    def _say(self, who: str, *keys: str) -> None:
        for key in keys:
            self.lesson.say(key, who)

    def _words(self, key: str, **values: object) -> str:
        return self.lesson.words.say(key, **values)

    # --- a new adult ---------------------------------------------------------------------------

    def new_adult(self) -> None:
        """A cover teacher for a week: name, PIN, badge, spare codes; the teacher gets a badge."""
        self.lesson.menu(TECHNICIAN, "menu.people")
        self._say(TECHNICIAN, "people.new", "role.cover")
        self.lesson.types(TYPED, TECHNICIAN)
        self._say(TECHNICIAN, "name.done", "until.7", "person.pin", "secret.done")
        self._badge(COVER, COVER_BADGE)
        self._say(TECHNICIAN, "person.codes", "secret.done", "button.back")
        self.lesson.hand.touch(TEACHER, TECHNICIAN)
        self._badge(TEACHER, TEACHER_BADGE)
        self._say(TECHNICIAN, "button.back", "button.back")
        self.office.done(TECHNICIAN)

    def _badge(self, name: str, digits: str) -> None:
        hand = self.lesson.hand
        self._say(TECHNICIAN, "person.badge")
        hand.wait("the badge asked for", lambda s: s.title == self._words("badge.title", name=name))
        hand.read_badge(digits, TECHNICIAN)
        hand.wait("the badge kept", lambda s: s.title == name)

    def badge(self, number: str) -> None:
        """At the adult check the teacher holds the badge to the reader: one touch for the OK."""
        self.lesson.hand.on("adult_check")
        self.lesson.hand.read_badge(TEACHER_BADGE, TEACHER)
        self.lesson.drill(number)

    def badge_menu(self, act: str) -> None:
        """The badge opens the menu from the numbers."""
        self.lesson.hand.wait("the idle screen", lambda s: s.screen == "idle")
        self.lesson.hand.read_badge(TEACHER_BADGE, TEACHER)
        self._say(TEACHER, act)

    # --- guessed at ----------------------------------------------------------------------------

    def spare_code(self, code: str) -> None:
        """Somebody types the teacher's PIN wrong three times; a spare code gets through."""
        hand = self.lesson.hand
        hand.wait("the idle screen", lambda s: s.screen == "idle")
        self._say(TEACHER, "button.menu")
        hand.touch(TEACHER, TEACHER)
        for slip in range(1, SLIPS + 1):
            hand.type_pin(WRONG, "somebody")
            note = self._words("pin.wrong", wrong=slip)
            hand.wait("the PIN found wrong", lambda s, n=note: s.raw["note"] == n)
        self._say(TEACHER, "button.code")
        hand.type_pin(code, TEACHER)
        hand.on("menu")

    def revoked(self) -> None:
        """The cover teacher's week is over early."""
        self.lesson.menu(TECHNICIAN, "menu.people")
        self.lesson.hand.touch(COVER, TECHNICIAN)
        self._say(TECHNICIAN, "person.revoke", "revoke.yes", "button.back")
        self.office.done(TECHNICIAN)

    # --- a stick, questions --------------------------------------------------------------------

    def take_in(self) -> None:
        """What the stick brings in is read, shown and taken in; then the kiosk starts anew."""
        self.lesson.menu(TECHNICIAN, "menu.package")
        self._say(TECHNICIAN, "package.accept", "care.ask_restart", "kiosk_restart.yes")
        self.lesson.hand.wait("the kiosk again", lambda s: s.screen == "idle", 60)

    def questions(self) -> None:
        """A pupil answers the questions before you drill, the first one wrong at first."""
        lesson, hand, who = self.lesson, self.lesson.hand, f"pupil {QUIZZED}"
        hand.touch(QUIZZED, who)
        hand.on("job")
        lesson.choose_language(QUIZZED)
        lesson.own_say("button.questions", who)
        right = {lesson.own.say(f"question.{id}"): id for id in lesson.questions}
        answer = "wrong_1"
        while hand.wait("a question", lambda s: s.screen in ("form", "job")).screen == "form":
            asked = right[hand.on("form").title]
            lesson.own_say(f"question.{asked}.{answer}", who)
            lesson.own_say("reason.go_on", who)
            hand.wait("what comes", lambda s: s.screen in ("form", "job"))
            answer = "right"
        lesson.own_say("button.back", who)
