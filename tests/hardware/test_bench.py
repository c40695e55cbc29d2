"""The bench's acts by hand, followed through real frames to the readings."""

from __future__ import annotations

import os
import threading

import pytest

from demo.bench import Bench
from hardware.simulator.answers import ANSWER_FAULTS
from kiosk.core.model import Reading
from tests.hardware.following import DRILL, Following

OFF, ON, UNKNOWN, FAULT = Reading.OFF, Reading.ON, Reading.UNKNOWN, Reading.FAULT


@pytest.fixture
def bench():
    with Bench(run_down=0.2) as made:
        yield made


@pytest.fixture
def follow(bench):
    with Following(DRILL, bench.port) as following:
        following.until_told(OFF)
        following.until_told(OFF, "starter")
        yield following


def test_isolator_start_and_stop_are_followed(bench, follow):
    bench.isolator_on()
    follow.until_told(ON)
    bench.press_start()
    follow.until_told(ON, "starter")
    bench.press_stop()
    follow.until_told(OFF, "starter")
    bench.isolator_off()
    follow.until_told(OFF)

    told = [(c.input, c.reading) for c in follow.changes if not c.at_start]
    assert told == [("isolator", ON), ("starter", ON), ("starter", OFF), ("isolator", OFF)]


def test_a_slow_hand_is_no_fault(bench, follow):
    bench.slow_hand()

    bench.isolator_on()
    under_way = bench.state
    follow.until_told(ON)

    assert (under_way.slow, under_way.drill.knob) == (True, "travelling")
    assert FAULT not in [c.reading for c in follow.changes]


def test_a_bounce_changes_no_reading(bench, follow):
    bench.bounce()

    follow.until_sample(12)

    assert [c for c in follow.changes if not c.at_start] == []


def test_a_wire_off_is_a_fault_until_it_is_back(bench, follow):
    bench.wire_off()
    follow.until_told(FAULT)
    broken = bench.state
    bench.wire_back()
    follow.until_told(OFF)

    assert (broken.wire_off, bench.state.wire_off) == (True, False)
    assert follow.contacts.reading("starter") is OFF


def test_swapped_wires_read_as_the_opposite_which_only_commissioning_can_find(bench, follow):
    bench.swap()
    told = follow.until_told(ON)
    bench.swap()
    follow.until_told(OFF)

    assert told.why == "settled"


def test_unplugged_is_unknown_for_every_input_until_plugged_in(bench, follow):
    bench.unplug()
    follow.until_told(UNKNOWN)
    follow.until_told(UNKNOWN, "starter")
    pulled = bench.state
    bench.plug()
    follow.until_told(OFF)
    follow.until_told(OFF, "starter")

    assert (pulled.plugged, bench.state.plugged) == (False, True)


def test_the_room_stop_stops_the_drill_and_its_reset_starts_nothing(bench, follow):
    bench.isolator_on()
    bench.press_start()
    follow.until_told(ON, "starter")

    bench.room_stop()
    follow.until_told(OFF, "starter")
    bench.room_stop_reset()
    bench.press_start()
    follow.until_told(ON, "starter")

    assert follow.contacts.reading("isolator") is ON


def test_the_levels_shown_are_the_levels_read_and_looking_does_not_disturb_a_bounce(bench):
    bench.bounce()

    shown = {bench.state.levels for _ in range(10)}

    assert len(shown) == 1


def test_a_closed_bench_leaves_no_thread_and_no_file():
    bench = Bench()
    port = bench.port

    bench.close()

    assert not os.path.lexists(os.path.dirname(port))
    assert "contact unit" not in [thread.name for thread in threading.enumerate()]


def test_a_short_is_a_fault_until_it_is_gone(bench, follow):
    bench.short()
    follow.until_told(FAULT)
    shorted = bench.state
    bench.short(False)
    follow.until_told(OFF)

    assert (shorted.shorted, bench.state.shorted) == (True, False)


def test_a_stuck_contact_is_a_fault_once_the_knob_is_turned(bench, follow):
    bench.stick()
    bench.isolator_on()
    follow.until_told(FAULT)
    bench.stick(False)
    follow.until_told(ON)


def test_the_answers_go_wrong_one_way_after_another_and_then_right_again(bench):
    ways = []
    for _ in range(20):
        bench.next_answer()
        ways.append(bench.state.answer)

    assert set(ways) == {"", *ANSWER_FAULTS}
    assert ways.index("") == len(ANSWER_FAULTS)


def test_another_socket_is_found_under_the_same_path(bench, follow):
    bench.move()

    follow.until_told(UNKNOWN)
    follow.until_told(OFF)


def test_the_guard_swings_up_and_down(bench):
    bench.guard(down=False)
    up = bench.state.drill.guard_down
    bench.guard(down=True)

    assert (up, bench.state.drill.guard_down) == (False, True)
