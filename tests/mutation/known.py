"""What is known of the guards: where one is missed, and which are not missed yet.

A new guard is in none of these lists, so that a test fails until it was tried.
"""

from __future__ import annotations

SHOWN_AT: dict[str, str] = {
    "asks.is_known_off: all((r is Reading.OFF for r in said))": "drilling",
    "asks.may_drill: lesson_runs(shop, kiosk, now)": "kept",
    "asks.may_drill: not kiosk.machine.own_use": "desk",
    "asks.may_drill: pre_use_holds(kiosk, now)": "kept",
    "asks.spells_allowed: shop.machine.spell_allowed": "check",
    "asks.lesson_runs: not lesson.confirmed": "cut",
    "asks.lesson_runs: lesson.stopped": "cut",
    "asks.lesson_runs: lesson.is_over(now)": "cut",
    "asks.lesson_runs: machine.out_of_use": "desk",
    "asks.lesson_runs: machine.halt": "cut",
    "asks.kept_fits: kept.spec != plan.set_up": "kept",
    "asks.kept_fits: gap.s <= KEPT_FOR_S": "kept",
    "asks.hands_off: is_running(shop, kiosk)": "hands",
    "everyone.everyone_acts: not isinstance(touch, StopEveryone)": "stopped",
    "everyone.is_at_work: session is not None and session.is_drilling": "drilling",
    "everyone.is_stopped: bool(kiosk.lesson.stopped)": "drilling",
    "everyone.can_resume: is_stopped(kiosk)": "drilling",
    "everyone.can_resume: alone": "stopped",
    "pupil_acts._in_session: session.is_drilling": "check",
    "pupil_acts._in_session: session.still_asked": "drilling",
    "pupil_acts._in_session: session.is_waiting_for_adult": "check",
    "pupil_acts._in_session: step in session.plan.look_for": "check",
    "pupil_acts._leave: session.halt and (not session.halt.is_unnamed or session.ru": "wrong",
    "pupil_acts._pick_job: not may_drill(shop, kiosk, now)": "kept",
    "adult_acts.is_wanted: is_free(kiosk)": "hands",
    "adult_acts.is_wanted: session.is_waiting_for_adult": "hands",
    "adult_acts.is_wanted: is_adults_step(session.step)": "hands",
    "adult_acts.is_wanted: not session.allowed": "check",
    "adult_acts.is_wanted: is_ready_to_clear(shop, kiosk)": "cut",
    "adult_acts.is_ready_to_clear: is_adults_turn(shop, halt)": "cut",
    "adult_acts.is_adults_step: step.who == 'adult'": "check",
    "adult_acts.is_adults_step: step.part != 'check'": "check",
    "adult_acts.is_free: not busy": "check",
    "adult_acts._pick: kiosk.desk.page not in ('names', 'pin')": "check",
    "adult_acts._try_pin: kiosk.adults.wait_left(adult, now).s > 0": "check",
    "adult_acts.consequences: not wanted": "check",
    "adult_acts._ok: stay and spells_allowed(shop, kiosk) and kiosk.lesson": "check",
    "adult_acts._adult_step: hands_off(shop, kiosk, session, session.step)": "check",
    "badge_acts._badge: not purpose": "check",
    "badge_acts.badge_checked: trying.way != 'badge'": "check",
    "trouble_acts.is_naming: halt.why == 'wrong'": "drilling",
    "trouble_acts.is_naming: not halt.trouble": "wrong",
    "trouble_acts._name_trouble: not is_naming(kiosk)": "drilling",
    "trouble_acts._by_mistake: not is_naming(kiosk)": "wrong",
    "trouble_acts._by_mistake: session.run_seen": "drilling",
    "trouble_acts._recovery_step: why": "wrong",
    "trouble_acts._stays_on: due.who == 'adult'": "wrong",
    "trouble_acts.recovery_waits: is_running(shop, kiosk)": "wrong",
    "office_acts._cleared: is_off_awaited(shop, kiosk)": "wrong",
    "office_acts._return_to_use: not may_return(shop, kiosk, adult, now)": "desk",
    "readings.reading_is: given.input in RUN_INPUTS and given.reading is Reading.ON": "hands",
    "readings.is_halted: not session.halt.is_unnamed": "hands",
    "readings._in_session: is_lost(given.reading)": "hands",
    "readings._in_session: given.input == 'isolator' and given.reading is Reading.O": "hands",
    "deadlines.deadline_passed: not any((d.kind == kind and d.us <= now.us for d in": "check",
}
"""Guards by the place in a lesson from which the walk soon comes to what they hold back."""

_TOLD: dict[str, dict[str, tuple[str, ...]]] = {
    "test_adult_goes_on.py": {
        "test_at_the_first_step_name_and_pin_are_asked_for": ("adult_acts._spell_ok: not adult",),
    },
    "test_care.py": {
        "test_a_check_that_fails_leaves_the_reason_that_stands": (
            "office_acts._return_to_use: is_check_owed(shop, kiosk)",
        ),
    },
    "test_found_by_the_walk.py": {
        "test_a_bit_that_is_not_straight_at_the_next_hole_asks_for_the_isolator_first": (
            "asks.check_is_due: every == 'hole'",
            "asks.run_down_left: session.off_since",
        ),
    },
    "test_guards.py": {
        "test_a_badge_is_read_for_what_the_page_asks": (
            "badge_acts.badge_purpose: desk.page in ('names', 'pin', 'code')",
        ),
        "test_a_pupil_goes_back_only_where_hands_and_adults_allow_it": (
            "session.step_back: session.at == 0",
            "session.step_back: before.who == 'adult' or hands_in",
        ),
        "test_a_session_takes_only_what_is_about_it": (
            "session.advance_session: isinstance(entry.event, SessionEnded)",
            "session._advance_drilling: name in RUN_INPUTS",
            "session._advance_drilling: session.is_drilling",
            "session._saw_run: reading == 'off'",
            "session._advance_halt: session.halt",
        ),
        "test_after_a_change_an_adult_looks_whatever_was_looked_at_before": (
            "asks.check_is_due: session.changed",
        ),
        "test_an_adult_is_wanted_only_for_what_is_due": (
            "adult_acts.is_wanted: is_running(shop, kiosk) and purpose not in ('menu', 'con",
            "adult_acts.is_wanted: purpose == 'menu'",
            "adult_acts.is_wanted: not session.halt",
            "adult_acts.is_wanted: not kiosk.lesson.confirmed",
        ),
        "test_everyone_is_stopped_only_where_a_lesson_works_and_once": (
            "everyone.is_at_work: lesson.confirmed",
            "everyone.is_at_work: not nobody",
            "everyone.can_stop: is_at_work(kiosk)",
            "everyone.can_stop: not is_stopped(kiosk)",
        ),
        "test_it_runs_down_while_the_spindle_turns_and_the_starter_is_off": (
            "asks.is_running_down: turning",
            "asks.is_running_down: kiosk.machine.reading('starter') is Reading.OFF",
        ),
        "test_nobody_begins_before_the_drill_was_seen_still": (
            "asks.lesson_runs: machine.ask_still",
        ),
        "test_the_check_of_the_day_holds_for_fourteen_hours": (
            "asks.pre_use_holds: passed.s <= PRE_USE_FOR_S",
        ),
        "test_time_leads_to_nothing_where_it_should_not": (
            "deadlines._after: moment",
            "deadlines._session_deadlines: session.halt",
            "deadlines._session_deadlines: session.step.who == 'adult'",
            "deadlines._session_deadlines: not is_known_off(shop, kiosk)",
            "deadlines._desk_deadlines: desk.page in _STAYING and (not (desk.page == 'wrong",
            "deadlines._lesson_deadlines: quiet",
            "deadlines._lesson_deadlines: lesson.spell",
            "deadlines._looks: adult",
        ),
        "test_where_no_contact_tells_nobody_knows_that_it_is_off": (
            "asks.is_known_off: bool(said)",
        ),
        "test_work_goes_on_only_once_the_drill_was_seen_still": (
            "everyone.can_resume: not kiosk.machine.ask_still",
            "everyone.stopped_again: is_stopped(kiosk)",
        ),
    },
    "test_not_right.py": {
        "test_there_is_no_way_back_past_what_is_put_right": ("session.step_back: session.mending",),
    },
    "test_recovery_off.py": {
        "test_a_turn_that_goes_by_looking_does_so_in_a_trouble_too": (
            "asks.is_off_awaited: session is not None and session.way == 'said'",
        ),
        "test_that_it_cannot_be_turned_off_is_said_only_where_it_should_be_off_and_reads_on": (
            "asks.is_off_awaited: kiosk.machine.reading('isolator') is not Reading.ON",
            "trouble_acts._stays_on: due.id != step",
            "trouble_acts._stays_on: not is_off_awaited(shop, kiosk)",
        ),
    },
    "test_too_soon.py": {
        "test_just_before_a_hole_can_be_done_it_asks_and_just_after_it_does_not": (
            "asks.is_too_soon: passed.s < least",
        ),
    },
    "test_refusals.py": {
        "test_a_hole_without_a_plan_begins_no_session": (
            "pupil_acts._start: not isinstance(plan, Plan)",
        ),
        "test_a_record_of_newer_kinds_opens_no_lesson": (
            "office_acts._act_on_lesson: shop.reads_all",
        ),
        "test_how_long_it_ran_down_is_not_told_across_a_restart": ("readings._run_down: passed",),
        "test_it_is_refused": (
            "pupil_acts._pick_pupil: not may_drill(shop, kiosk, now)",
            "pupil_acts._pick_pupil: waits_before(kiosk, pupil.ref)",
            "pupil_acts._pick_job: kiosk.desk.page != 'job'",
            "pupil_acts._pick_job: not found",
            "pupil_acts._pick_job: waits_before(kiosk, pupil.ref)",
            "pupil_acts._start: is_running(shop, kiosk)",
            "pupil_acts._seen_right: here.who == 'adult'",
            "pupil_acts._seen_right: why",
            "pupil_acts._go_back: before",
            "pupil_acts._still: is_running(shop, kiosk)",
            "pupil_acts._still: run_down_left(shop, session, now).s > 0",
            "adult_acts._ask: kiosk.session and kiosk.session.is_drilling",
            "adult_acts.not_tried: not may(shop, kiosk, adult, desk.purpose, now)",
            "adult_acts.not_tried: kiosk.adults.trying",
            "adult_acts._spell_ok: not may(shop, kiosk, adult, 'ok', now)",
            "adult_acts._spell_ok: events",
            "badge_acts._badge: kiosk.adults.trying",
            "badge_acts._badge: kiosk.adults.is_paused(now)",
            "badge_acts._code: kiosk.adults.is_paused(now)",
            "trouble_acts._recovery_step: due.who == 'adult'",
            "office_acts._clear: is_running(shop, kiosk)",
            "office_acts._cleared: what == 'again' and unread",
            "office_acts._open: kiosk.machine.out_of_use",
        ),
        "test_it_leads_to_nothing": (
            "everyone.everyone_acts: not can_stop(kiosk)",
            "pupil_acts._seen_right: step != here.id",
            "pupil_acts._seen_right: here.part in ('check', 'drill')",
            "pupil_acts._seen_right: not session.allowed",
            "pupil_acts._still: not session.is_drilling",
            "adult_acts.adult_acts: kiosk.lesson.spell",
            "adult_acts._ask: not is_wanted(shop, kiosk, purpose)",
            "adult_acts.not_tried: desk.page != page",
            "adult_acts.not_tried: desk.adult != adult",
            "adult_acts.pin_checked: trying.way != 'pin'",
            "adult_acts.pin_checked: trying.adult != given.adult",
            "badge_acts.badge_acts: kiosk.desk.page == 'pin'",
            "badge_acts.code_checked: trying.way != 'code'",
            "badge_acts.code_checked: trying.adult != given.adult",
            "trouble_acts._something_wrong: session.trouble",
            "trouble_acts.is_naming: not kiosk.desk.page",
            "trouble_acts._recovery_step: due.id != step",
            "office_acts.office_acts: kiosk.desk.page == 'language'",
            "office_acts.office_acts: kiosk.session.is_waiting_for_adult",
            "office_acts.office_acts: kiosk.machine.own_use",
            "office_acts.office_acts: kiosk.desk.signed",
            "office_acts._clear: about in KINDS",
            "office_acts._act_on_lesson: kiosk.desk.picked('jobs')",
            "office_acts._act_on_lesson: lesson",
            "office_acts._act_on_lesson: can_resume(kiosk)",
            "office_acts._choose: kiosk.desk.page != what",
            "office_acts._choose: shop.roster.group(value)",
            "office_acts._choose: shop.content.job(value)",
            "office_acts._choose: value.isdigit()",
            "office_acts._choose: int(value) in LENGTHS_MIN",
            "office_acts._choose: value in NOTE_KINDS",
            "office_acts._opened: not jobs",
            "office_acts._act_on_machine: kiosk.desk.page == 'pre_use'",
            "office_acts._act_on_machine: about in [i.id for i in shop.machine.pre_use]",
            "office_acts._act_on_machine: about in KINDS",
            "office_acts._act_on_machine: is_silent(shop, kiosk, now)",
            "office_acts._act_on_machine: kiosk.lesson is None or not kiosk.machine.out_of_",
            "office_acts._return_to_use: not kiosk.machine.out_of_use",
        ),
        "test_it_leads_to_this_and_no_more": (
            "pupil_acts._chosen: len(found) == 1",
            "adult_acts.consequences: not may(shop, kiosk, trying.adult, trying.purpose, no",
            "badge_acts._names: wanted",
            "readings.reading_is: given.input not in FOLLOWED",
            "readings.reading_is: kiosk.session.way != 'sensed'",
            "readings._running: is_halted(session)",
        ),
        "test_without_an_isolator_contact_a_session_goes_by_what_is_said": (
            "pupil_acts._way: not shop.reads_isolator",
        ),
    },
    "test_hours.py": {
        "test_the_screen_says_from_when_to_when_by_the_schools_own_clock": (
            "asks.is_tightened: what in kiosk.lesson.tighter",
            "asks.lesson_runs: is_silent(shop, kiosk, now)",
        ),
    },
    "test_lesson_changed.py": {
        "test_an_adult_who_asks_for_it_looks_at_every_hole_of_a_signed_off_pupil": (
            "asks.asks_check: is_tightened(kiosk, 'every_hole')",
        ),
        "test_nobody_begins_once_the_adult_lets_nobody_begin_any_more": (
            "asks.lesson_runs: 'no_more' in lesson.tighter",
        ),
        "test_without_spells_a_pin_that_asks_for_one_gives_the_ok_alone": (
            "asks.spells_allowed: not is_tightened(kiosk, 'no_spell')",
        ),
    },
    "test_pilots.py": {
        "test_a_second_piece_wants_a_second_pilot": ("pupil_acts._start: not count",),
    },
}
TOLD_BY: dict[str, str] = {
    id: f"{file}::{name}"
    for file, tests in _TOLD.items()
    for name, ids in tests.items()
    for id in ids
}
"""Other guards by the test under `tests/core/` that fails without them. The walk does not come to
them: they are about what it leaves out (adults' roles, spare codes, the line, tighter lessons), or
in every lesson that can be another guard holds as well."""

NOT_MISSED: tuple[str, ...] = ()
"""Guards that nothing misses, each with its reason in a comment."""
