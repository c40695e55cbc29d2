"""Single things that people do at the kiosk, the office, the clock and the power."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st
from hypothesis.stateful import invariant, precondition, rule

from kiosk.core.events import (
    PinTried,
)
from kiosk.core.inputs import (
    Act,
    AdultAllowed,
    AdultEnded,
    AskAdult,
    BadgeChecked,
    BadgeRead,
    ClockMoved,
    CodeChecked,
    DeadlinePassed,
    KioskBegan,
    OpenPage,
    PickAdult,
    PinChecked,
    SecretReady,
    Still,
    TypeCode,
    TypePin,
)
from kiosk.core.kiosk import next_deadline
from kiosk.core.kiosk.allowed import may
from kiosk.core.units import Moment
from tests.people.workshop import ADULTS, DAY_US, REFS, SAID, Workshop


class Walking(Workshop):
    """Any touch, any PIN, any restart."""

    @rule(chance=st.integers(0, 10_000))
    def touches(self, chance: int) -> None:
        """A button that is shown; where an isolator must be off, it is turned off first."""
        touches = self.shown()
        if not touches:
            return
        touch = touches[chance % len(touches)]
        if isinstance(touch, Act) and touch.what == "revoke":
            ref = touch.about
            if [type(e).__name__ for e in self.give(touch)][:1] == ["AdultRevoked"]:
                self.secrets.forget(ref)
            return
        events = self.give(touch)
        self.carry_out(events)

    @rule(purpose=st.sampled_from(("menu", "ok", "confirm", "step")))
    def asks_for_an_adult(self, purpose: str) -> None:
        self.give(AskAdult(purpose))

    @rule()
    def goes_on_with_the_turn(self) -> None:
        """A pupil who wants to get on: the next step, turning the isolator where it is asked."""
        session = self.kiosk.session
        if session is None or session.halt or session.is_drilling:
            return
        if "isolator off" in [f.value for f in session.step.makes]:
            self.read("isolator", "off")
        for touch in self.shown():
            if type(touch).__name__ == "SeenRight":
                self.give(touch)
                return

    @rule(ref=st.sampled_from(REFS), right=st.booleans(), stay=st.booleans())
    def types_a_pin(self, ref: str, right: bool, stay: bool) -> None:
        if self.kiosk.desk.page == "names":
            self.give(PickAdult(ref))
        digits = self.secrets.pins.get(ref, "none") if right else "000000"
        events = self.give(TypePin(ref, digits, int(stay)))
        if any(isinstance(e, PinTried) for e in events):
            self.waiting, self.is_right = digits, digits == self.secrets.pins.get(ref)

    @precondition(lambda self: self.kiosk.machine.ask_still)
    @rule()
    def the_drill_is_seen_still(self) -> None:
        self.give(Still())

    @precondition(lambda self: self.kiosk.session is not None and self.kiosk.session.is_drilling)
    @rule()
    def a_hole_is_drilled(self) -> None:
        self.read("isolator", "on")
        self.read("starter", "on")
        self.read("starter", "off")
        self.time_passes(5)
        self.give(Still())

    @precondition(lambda self: self.kiosk.adults.trying is not None)
    @rule()
    def the_worker_answers(self) -> None:
        trying, secrets = self.kiosk.adults.trying, self.secrets
        assert trying is not None
        match trying.way:
            case "pin":  # compared with what was kept when it was typed
                self.give(PinChecked(trying.adult, self.is_right))
            case "badge":
                owner = next((r for r, b in secrets.badges.items() if b == self.waiting), "")
                self.give(BadgeChecked(owner))
            case "code":
                known = secrets.codes.get(trying.adult, [])
                number = known.index(self.waiting) + 1 if self.waiting in known else 0
                self.give(CodeChecked(trying.adult, number))

    @rule(ref=st.sampled_from(REFS), known=st.booleans())
    def holds_a_badge_to_the_reader(self, ref: str, known: bool) -> None:
        digits = self.secrets.badges.get(ref, "none") if known else "stranger"
        events = self.give(BadgeRead(digits))
        if events:
            self.waiting = digits
        self.carry_out(events)

    @rule(ref=st.sampled_from(REFS), right=st.booleans())
    def types_a_spare_code(self, ref: str, right: bool) -> None:
        """At the names, or from wherever the pad stands."""
        if self.kiosk.desk.page not in ("names", "pin"):
            self.give(AskAdult("ok" if self.kiosk.session else "menu"))
        self.give(PickAdult(ref))
        self.give(OpenPage("code"))
        code = (self.secrets.codes.get(ref) or ["none"])[0] if right else "wrong"
        if self.give(TypeCode(ref, code)):
            self.waiting = code

    # --- the office, the clock, the power --------------------------------------------------------

    @rule(ref=st.sampled_from(REFS), days=st.integers(0, 6))
    def a_command_issues_or_authorises(self, ref: str, days: int) -> None:
        adult = next(a for a in ADULTS if a.ref == ref)
        if self.kiosk.adults.find(ref) is None:
            needs_a_day = adult.role in ("cover", "assistant")
            self.issue(ref, adult.role, days + 1 if needs_a_day else 0)
        else:
            self.give(AdultAllowed(ref, self.shop.machine.id, self.now.day + days, "command"))

    @rule(ref=st.sampled_from(REFS))
    def a_command_reads_in_a_badge(self, ref: str) -> None:
        if self.kiosk.adults.find(ref) is not None:
            self.secrets.badges[ref] = self.secrets.new()
            self.give(SecretReady(ref, "badge", "command"))

    @rule(ref=st.sampled_from(REFS))
    def a_command_revokes(self, ref: str) -> None:
        if self.kiosk.adults.technicians == (ref,):
            return
        self.give(AdultEnded(ref, "command"))
        self.secrets.forget(ref)

    @rule(seconds=st.sampled_from((1, 5, 40, 130, 700, 4000)))
    def time_passes(self, seconds: int) -> None:
        us = seconds * 1_000_000
        self.now = replace(self.now, us=self.now.us + us, wall_us=self.now.wall_us + us)
        self.let_deadlines_pass()

    def let_deadlines_pass(self) -> None:
        for _ in range(8):
            due = next_deadline(self.shop, self.kiosk, self.now)
            if due is None or due.us > self.now.us:
                return
            self.give(DeadlinePassed(due.kind))

    @rule(days=st.integers(-8, 8), rarely=st.integers(0, 3))
    def the_clock_is_set(self, days: int, rarely: int) -> None:
        if rarely:
            return
        moved = self.now.wall_us + days * DAY_US
        self.now = replace(self.now, wall_us=moved, quality=1)
        self.give(ClockMoved(days * DAY_US, 1))

    @rule(after=st.sampled_from(("clean", "cut")), rarely=st.integers(0, 4))
    def the_kiosk_restarts(self, after: str, rarely: int) -> None:
        if rarely:
            return
        self.boots += 1
        wall = self.now.wall_us + 60_000_000
        self.now = Moment(f"boot{self.boots}", 10_000_000, wall, 1)
        self.give(KioskBegan("drill-1", "walk", after))
        self.read("isolator", "on")
        self.read("starter", "off")

    # --- what holds at every moment --------------------------------------------------------------

    @invariant()
    def no_adult_who_is_revoked_is_signed_in_or_stays(self) -> None:
        known = {a.ref for a in self.kiosk.adults.known if not a.revoked}
        assert not self.kiosk.desk.signed or self.kiosk.desk.signed in known
        spell = self.kiosk.lesson.spell if self.kiosk.lesson else None
        assert spell is None or spell.adult in known

    @invariant()
    def the_drilling_screen_has_an_ok_behind_it(self) -> None:
        session = self.kiosk.session
        if session is not None and session.is_drilling:
            assert self.past.is_drilling

    @invariant()
    def no_secret_lies_in_the_state(self) -> None:
        text = repr(self.kiosk)
        assert not any(pin in text for pin in self.secrets.pins.values())

    @invariant()
    def somebody_can_always_get_in(self) -> None:
        """Whatever PINs were typed, a spare code or a badge of a technician is taken at once."""
        for ref in self.kiosk.adults.technicians:
            if not self.secrets.codes.get(ref) or not may(
                self.shop, self.kiosk, ref, "menu", self.now
            ):
                continue
            state = self.kiosk.adults.find(ref)
            assert state is not None and state.codes == len(self.secrets.codes[ref])
            SAID["a way in that no PIN can shut"] += 1
