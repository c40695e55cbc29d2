"""Adults, roster, levels, lessons and sessions walked at random, with the judge looking on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import initialize, rule

from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    LeavePage,
    OpenPage,
    PickAdult,
    PickJob,
    PickPupil,
    Still,
)
from kiosk.core.model import Level
from tests.core.story import GROUP, TEACHER, TECHNICIAN
from tests.people.walking import Walking
from tests.people.workshop import ADULTS, CHANGED, PUPILS, REFS, SAID

OFFICE_ACTS = (
    *("out_why belt", "return", "own_use_end", "resume", "name_deputy a1", "set_datum spell 0"),
    *("checked belt_sound wrong 0", "checked belt_sound right 0", "tighten every_hole"),
    *("longer_by 10", "quiet 15", "quiet_end", "hours_wrong", "level_beside 8b p14"),
    *("authorise a3 7", "down 0 30 2"),
)
"""Acts of the menu and the corner, with what they are about."""


class People(Walking):
    """Also what belongs together: an adult who comes, a lesson, a turn, in any order."""

    @initialize(is_open=st.sampled_from((True, True, False)))
    def the_day_begins(self, is_open: bool) -> None:
        if is_open:
            self.somebody_opens_a_lesson(TEACHER.ref, "hook_bar")

    @rule(ref=st.sampled_from(REFS), again=st.booleans())
    def a_pin_is_replaced_or_revoked_while_it_is_checked(self, ref: str, again: bool) -> None:
        self.give(LeavePage())
        self.give(AskAdult("menu"))
        self.types_a_pin(ref, right=True, stay=False)
        if again and self.kiosk.adults.find(ref):
            self.issue(ref, next(a.role for a in ADULTS if a.ref == ref), 3)
        else:
            self.a_command_revokes(ref)
        if self.kiosk.adults.trying:
            self.the_worker_answers()

    @rule(ref=st.sampled_from(REFS))
    def a_signed_in_adult_is_revoked(self, ref: str) -> None:
        self.an_adult_comes(ref, "menu")
        self.a_command_revokes(ref)

    @rule(ref=st.sampled_from(REFS), times=st.integers(2, 5), restart=st.booleans())
    def somebody_guesses(self, ref: str, times: int, restart: bool) -> None:
        for _ in range(times):
            self.give(AskAdult("menu"))
            self.types_a_pin(ref, right=False, stay=False)
            if self.kiosk.adults.trying:
                self.the_worker_answers()
            if restart:
                self.the_kiosk_restarts("cut", 0)
                self.give(Still())

    @rule(ref=st.sampled_from(REFS), purpose=st.sampled_from(("menu", "ok", "step", "confirm")))
    def an_adult_comes(self, ref: str, purpose: str) -> None:
        """Name and right PIN, for whatever it is."""
        self.give(AskAdult(purpose))
        self.types_a_pin(ref, right=True, stay=False)
        if self.kiosk.adults.trying:
            self.the_worker_answers()

    @rule(ref=st.sampled_from(REFS), known=st.booleans())
    def an_adult_comes_by_badge(self, ref: str, known: bool) -> None:
        """Nothing else lies on the desk; whoever has no badge takes the teacher's."""
        self.give(LeavePage())
        owner = ref if ref in self.secrets.badges else TEACHER.ref
        self.holds_a_badge_to_the_reader(owner, known)
        if self.kiosk.adults.trying:
            self.the_worker_answers()

    @rule(ref=st.sampled_from(REFS), job=st.sampled_from(("hook_bar", "pen_block", "plate")))
    def somebody_opens_a_lesson(self, ref: str, job: str) -> None:
        self.an_adult_comes(ref, "menu")
        for touch in (Act("open"), Act("pre_use_right"), Choose("group", GROUP.id)):
            self.give(touch)
        for touch in (Choose("jobs", job), Act("jobs_done"), Choose("length", "60")):
            self.give(touch)

    @rule(number=st.sampled_from([p.number for p in PUPILS]))
    def a_pupil_begins(self, number: int) -> None:
        self.give(LeavePage())
        self.give(PickPupil(number))
        jobs = [t for t in self.shown() if isinstance(t, PickJob)]
        if jobs and self.kiosk.session is None:
            self.give(jobs[number % len(jobs)])

    @rule(
        ref=st.sampled_from(REFS),
        badge=st.booleans(),
        number=st.sampled_from([p.number for p in PUPILS]),
    )
    def a_turn_goes_to_the_drill(self, ref: str, badge: bool, number: int) -> None:
        """As far as the check, and an adult comes with a PIN or a badge."""
        if self.kiosk.session is None:
            self.somebody_opens_a_lesson(TEACHER.ref, "hook_bar")
            self.a_pupil_begins(number)
        for _ in range(40):
            session = self.kiosk.session
            if session is None or session.is_waiting_for_adult or session.is_drilling:
                break
            self.goes_on_with_the_turn()
            self.an_adult_comes(ref, "step")
        if badge:
            self.holds_a_badge_to_the_reader(ref, known=True)
            if self.kiosk.adults.trying:
                self.the_worker_answers()
        else:
            self.an_adult_comes(ref, "ok")

    @rule(
        number=st.sampled_from([p.number for p in PUPILS]),
        answers=st.lists(st.booleans(), max_size=4),
        whole=st.booleans(),
    )
    def a_pupil_answers(self, number: int, answers: list[bool], whole: bool) -> None:
        """Some questions right, some wrong, perhaps not to the end."""
        self.give(LeavePage())
        self.give(OpenPage("questions", str(number)))
        for right in (*answers, *[True] * 12 * whole):
            self.give(Choose("answer", "right" if right else "wrong_1"))
            self.give(Choose("go_on", ""))

    @rule(
        ref=st.sampled_from(REFS),
        acts=st.lists(st.sampled_from(OFFICE_ACTS), min_size=1, max_size=5),
    )
    def somebody_is_at_the_desk(self, ref: str, acts: list[str]) -> None:
        """What a menu or the corner offers, whoever it is."""
        self.an_adult_comes(ref, "menu")
        for act in acts:
            what, _, about = act.partition(" ")
            self.give(Act(what, about))

    @rule(ref=st.sampled_from(REFS), number=st.sampled_from([p.number for p in PUPILS]))
    def a_piece_is_piloted_elsewhere(self, ref: str, number: int) -> None:
        """An adult has seen the pilot, and the pupil goes on with its hole."""
        self.somebody_opens_a_lesson(ref, "plate")
        self.an_adult_comes(ref, "menu")
        self.give(Act("pilots_seen", f"plate 1 {number}"))
        self.give(LeavePage())
        self.give(PickPupil(number))
        self.give(PickJob("plate", 1))

    @rule(
        ref=st.sampled_from(REFS),
        pupil=st.sampled_from([p.ref for p in PUPILS]),
        level=st.sampled_from([level.word for level in Level]),
    )
    def somebody_grants_a_level(self, ref: str, pupil: str, level: str) -> None:
        self.an_adult_comes(ref, "menu")
        self.give(Act("level", f"{GROUP.id} {pupil} plain {level} hole"))


@pytest.mark.people
def test_no_order_of_touches_pins_and_restarts_gets_past_what_was_allowed(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    SAID.clear()
    CHANGED.clear()
    People.TestCase.settings = settings(
        max_examples=600 if full else 110,
        stateful_step_count=120 if full else 50,
        deadline=None,
        report_multiple_bugs=False,
        derandomize=not full,
        suppress_health_check=list(HealthCheck),
    )
    People.TestCase().runTest()

    told = ", ".join(f"{name} {count}" for name, count in SAID.most_common(5))
    changes = f"{sum(CHANGED.values())} changed what somebody may do, {len(CHANGED)} kinds"
    sum_up(f"people: {sum(SAID.values())} events ({told}); {changes}, each with who")
    for kind in ("BadgePassed", "CodeTried", "DrillingShown", "LevelGranted", "QuestionsAnswered"):
        assert SAID[kind], f"the walk never came to {kind}"
    assert len(CHANGED) >= (25 if full else 15), CHANGED


@pytest.mark.people
@pytest.mark.parametrize("orders", [40])
def test_wrong_pins_in_any_order_never_keep_a_spare_code_out(orders: int, full: bool) -> None:
    """Every adult's PIN is driven into its longest wait; a spare code of each still gets in."""
    for turn in range(orders * (5 if full else 1)):
        walk = People()
        names = [TEACHER.ref, TECHNICIAN.ref]
        walk.give(AskAdult("menu"))
        for step in range(2 * (turn % 12 + 3)):
            ref = names[(step * (turn + 1)) % 2]
            if walk.kiosk.desk.page != "names":
                walk.give(AskAdult("menu"))
            walk.types_a_pin(ref, right=False, stay=False)
            if walk.kiosk.adults.trying:
                walk.the_worker_answers()
            walk.now = replace(walk.now, us=walk.now.us + 31_000_000 * (turn % 3))
        ref = names[turn % 2]
        walk.give(AskAdult("menu"))
        walk.give(PickAdult(ref))
        walk.types_a_spare_code(ref, right=True)
        walk.the_worker_answers()
        assert walk.kiosk.desk.signed == ref
