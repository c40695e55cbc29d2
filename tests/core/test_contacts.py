"""Contact evaluation, by example: times in milliseconds, samples written by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.contacts import (
    Change,
    Contacts,
    Sample,
    at_start,
    evaluate,
    next_deadline,
    passed,
)
from kiosk.core.model import ContactPair, ContactTimes, Reading, Wiring
from kiosk.core.units import Duration

OFF, ON, UNKNOWN, FAULT = Reading.OFF, Reading.ON, Reading.UNKNOWN, Reading.FAULT
PAIR = Wiring("modbus", inputs=(("isolator", ContactPair(0, 1)),))
SAYS_OFF, SAYS_ON, BOTH_OPEN, BOTH_CLOSED = "01", "10", "00", "11"


def sample(ms: int, levels: str) -> Sample:
    return Sample(ms * 1000, tuple((n, level == "1") for n, level in enumerate(levels)))


def lost(ms: int, word: str) -> Sample:
    return Sample(ms * 1000, lost=word)


def play(
    *samples: Sample, wiring: Wiring = PAIR, after: Contacts | None = None
) -> tuple[Contacts, list[Change]]:
    contacts, changes = after or at_start(wiring, 0), []
    for one in samples:
        contacts, new = evaluate(contacts, wiring, one)
        changes += new
    return contacts, changes


def steady(levels: str, first: int, last: int, every: int = 100) -> list[Sample]:
    return [sample(ms, levels) for ms in range(first, last + 1, every)]


def settled(levels: str, wiring: Wiring = PAIR) -> Contacts:
    return play(*steady(levels, 0, 300), wiring=wiring)[0]


def test_a_pair_that_says_off_settles_after_three_samples_and_is_told_as_found_at_start():
    _, changes = play(sample(0, SAYS_OFF), sample(100, SAYS_OFF), sample(200, SAYS_OFF))

    assert changes == [Change("isolator", OFF, "settled", at_start=True)]


def test_two_samples_settle_nothing():
    contacts, changes = play(sample(0, SAYS_OFF), sample(400, SAYS_OFF))

    assert changes == []
    assert contacts.reading("isolator") is UNKNOWN


def test_three_samples_within_the_debounce_time_settle_nothing_yet():
    early = [sample(0, SAYS_ON), sample(10, SAYS_ON), sample(49, SAYS_ON)]

    contacts, changes = play(*early)
    _, later = play(sample(50, SAYS_ON), after=contacts)

    assert changes == []
    assert later == [Change("isolator", ON, "settled", at_start=True)]


def test_a_change_after_the_start_is_no_state_found_at_start():
    _, changes = play(*steady(SAYS_ON, 400, 600), after=settled(SAYS_OFF))

    assert changes == [Change("isolator", ON, "settled")]


def test_a_gap_of_over_half_a_second_starts_the_count_again():
    gappy = [sample(0, SAYS_OFF), sample(100, SAYS_OFF), sample(601, SAYS_OFF)]

    contacts, changes = play(*gappy)
    _, later = play(sample(701, SAYS_OFF), sample(801, SAYS_OFF), after=contacts)

    assert changes == []
    assert [c.reading for c in later] == [OFF]


def test_a_lost_poll_starts_the_count_again_without_a_change():
    before = [sample(0, SAYS_OFF), sample(100, SAYS_OFF), lost(200, "bad_answer")]

    _, changes = play(*before, sample(300, SAYS_OFF), sample(400, SAYS_OFF))

    assert changes == []


def test_a_bounce_shorter_than_the_settling_changes_nothing():
    bounce = [sample(400 + 20 * i, (SAYS_ON, SAYS_OFF)[i % 2]) for i in range(8)]

    contacts, changes = play(*bounce, *steady(SAYS_OFF, 600, 900), after=settled(SAYS_OFF))

    assert changes == []
    assert contacts.reading("isolator") is OFF


def test_a_sample_that_is_not_newer_than_the_last_is_passed_over():
    contacts, _ = play(sample(1000, SAYS_OFF), sample(1100, SAYS_OFF))

    _, changes = play(*[sample(1100, SAYS_OFF)] * 3, *steady(SAYS_ON, 0, 500), after=contacts)

    assert changes == []


def test_a_slow_hand_keeps_the_last_reading_while_under_way_and_settles():
    turning = steady(BOTH_OPEN, 400, 1300) + steady(SAYS_ON, 1350, 1550)

    _, changes = play(*turning, after=settled(SAYS_OFF))

    assert changes == [Change("isolator", ON, "settled")]


@pytest.mark.parametrize("levels", [BOTH_OPEN, BOTH_CLOSED])
def test_contacts_that_disagree_for_the_discrepancy_time_are_a_fault(levels):
    contacts, early = play(*steady(levels, 400, 1300), after=settled(SAYS_OFF))
    _, changes = play(sample(1400, levels), after=contacts)

    assert early == []
    assert changes == [Change("isolator", FAULT, "discrepancy")]


def test_the_fault_comes_by_its_deadline_between_two_samples():
    contacts, _ = play(*steady(BOTH_OPEN, 400, 1300), after=settled(SAYS_OFF))

    due = next_deadline(contacts, PAIR)
    _, changes = passed(contacts, PAIR, due)

    assert due == 1_400_000
    assert changes == (Change("isolator", FAULT, "discrepancy"),)


def test_one_disagreeing_sample_and_then_silence_ends_as_unknown_not_as_off():
    contacts, _ = play(sample(400, BOTH_OPEN), after=settled(SAYS_OFF))

    _, changes = passed(contacts, PAIR, next_deadline(contacts, PAIR))

    assert changes == (Change("isolator", UNKNOWN, "stale"),)


def test_gaps_in_the_samples_do_not_keep_off_longer_while_the_contacts_disagree():
    contacts, changes = play(
        sample(400, BOTH_OPEN), sample(1000, BOTH_OPEN), sample(1600, BOTH_OPEN),
        after=settled(SAYS_OFF),
    )  # fmt: skip

    assert [c.reading for c in changes] == [UNKNOWN]
    assert contacts.reading("isolator") is UNKNOWN


def test_a_fault_stands_until_a_valid_state_has_settled():
    faulty, _ = play(*steady(BOTH_OPEN, 400, 1500), after=settled(SAYS_OFF))

    still, none = play(sample(1600, SAYS_OFF), sample(1700, SAYS_OFF), after=faulty)
    _, changes = play(sample(1800, SAYS_OFF), after=still)

    assert (none, still.reading("isolator")) == ([], FAULT)
    assert changes == [Change("isolator", OFF, "settled")]


def test_a_fault_found_at_start_is_told_as_found_at_start():
    _, changes = play(*steady(BOTH_CLOSED, 0, 1200))

    assert changes == [Change("isolator", FAULT, "discrepancy", at_start=True)]


def test_silence_is_unknown_after_the_stale_time_and_not_before():
    contacts = settled(SAYS_OFF)

    kept, none = passed(contacts, PAIR, 2_299_999)
    _, changes = passed(kept, PAIR, 2_300_000)

    assert none == ()
    assert changes == (Change("isolator", UNKNOWN, "stale"),)
    assert next_deadline(contacts, PAIR) == 2_300_000


@pytest.mark.parametrize("word", ["silent", "bad_answer", "refused"])
def test_lost_polls_are_borne_until_the_stale_time_and_then_named(word):
    losses = [lost(ms, word) for ms in range(500, 2300, 200)]

    contacts, none = play(*losses, after=settled(SAYS_OFF))
    _, changes = passed(contacts, PAIR, 2_300_000)

    assert none == []
    assert changes == (Change("isolator", UNKNOWN, word),)


@pytest.mark.parametrize("word", ["no_port", "no_permission", "in_use", "no_lines", "unplugged"])
def test_a_lost_port_is_unknown_at_once_and_told_once(word):
    _, changes = play(lost(400, word), lost(500, word), lost(9000, word), after=settled(SAYS_ON))

    assert changes == [Change("isolator", UNKNOWN, word)]


def test_a_port_missing_from_the_start_is_told_as_found_at_start():
    _, changes = play(lost(0, "no_port"), *steady(SAYS_OFF, 100, 300))

    assert changes == [
        Change("isolator", UNKNOWN, "no_port", at_start=True),
        Change("isolator", OFF, "settled"),
    ]


def test_no_sample_at_all_is_told_as_unknown_at_start():
    contacts = at_start(PAIR, 0)

    told, changes = passed(contacts, PAIR, next_deadline(contacts, PAIR))

    assert changes == (Change("isolator", UNKNOWN, "stale", at_start=True),)
    assert next_deadline(told, PAIR) is None


def test_contacts_that_never_settle_end_as_unknown():
    restless = [sample(400 + 100 * i, (SAYS_ON, SAYS_OFF)[i % 2]) for i in range(20)]

    contacts, changes = play(*restless, after=settled(SAYS_OFF))

    assert changes == [Change("isolator", UNKNOWN, "chatter")]
    assert contacts.reading("isolator") is UNKNOWN


def test_off_is_let_go_when_sparse_samples_keep_saying_on_without_settling():
    sparse = [sample(ms, SAYS_ON) for ms in (900, 1500, 2100)]

    contacts, none = play(*sparse, after=settled(SAYS_OFF))
    _, changes = passed(contacts, PAIR, next_deadline(contacts, PAIR))

    assert none == []
    assert next_deadline(contacts, PAIR) == 2_300_000
    assert changes == (Change("isolator", UNKNOWN, "chatter"),)


def test_readings_that_change_too_often_are_held_as_unknown_for_a_minute():
    wiring = replace(PAIR, times=ContactTimes(chatter_per_min=4))
    turns = [s for i in range(9) for s in steady("01" if i % 2 else "10", i * 300, i * 300 + 200)]

    contacts, changes = play(*turns, wiring=wiring)
    _, held = play(*steady(SAYS_OFF, 2700, 61100), wiring=wiring, after=contacts)
    _, after = play(*steady(SAYS_OFF, 2700, 61600), wiring=wiring, after=contacts)

    assert [c.why for c in changes] == ["settled"] * 4 + ["chatter"]
    assert changes[-1].reading is UNKNOWN
    assert held == []
    assert after == [Change("isolator", OFF, "settled")]


def test_the_machine_file_sets_the_times():
    slow = ContactTimes(debounce=Duration(1.0), samples=5, discrepancy=Duration(3.0))
    wiring = replace(PAIR, times=slow)

    contacts, none = play(*steady(SAYS_OFF, 0, 900), wiring=wiring)
    _, changes = play(sample(1000, SAYS_OFF), wiring=wiring, after=contacts)

    assert none == []
    assert [c.reading for c in changes] == [OFF]


def test_inputs_are_followed_apart():
    wiring = replace(PAIR, inputs=(*PAIR.inputs, ("starter", ContactPair(make=2))))

    contacts, changes = play(*steady("100", 0, 200), *steady("101", 300, 500), wiring=wiring)

    assert [(c.input, c.reading) for c in changes] == [
        ("isolator", ON), ("starter", OFF), ("starter", ON),
    ]  # fmt: skip
    assert contacts.reading("spindle") is UNKNOWN
