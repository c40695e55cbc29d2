"""The simulated drill's electrics, on a clock set by hand."""

from __future__ import annotations

import pytest

from hardware.simulator import SimulatedDrill, Wires


class Clock:
    """Seconds, moved by hand."""

    def __init__(self) -> None:
        self.s = 100.0

    def __call__(self) -> float:
        return self.s


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def drill(clock):
    return SimulatedDrill(now=clock, run_down=3.0)


@pytest.fixture
def running(drill):
    drill.turn_isolator(True)
    drill.press_start()
    assert drill.state.turning
    return drill


def test_a_new_drill_is_off_and_still(drill):
    assert drill.levels() == {0: False, 1: True, 2: False, 3: False, 4: True, 5: False}
    assert drill.state.knob == "off"


def test_nothing_starts_while_the_isolator_is_off(drill):
    drill.press_start()

    assert not drill.state.starter_in


def test_the_start_button_starts_and_the_starter_contact_closes(running):
    assert [running.levels()[number] for number in range(4)] == [True, False, True, True]


def test_the_spindle_runs_down_after_the_stop(running, clock):
    running.press_stop()
    coasting = running.state
    clock.s += 2.9
    late = running.state
    clock.s += 0.2

    assert (coasting.starter_in, coasting.turning, late.turning) == (False, True, True)
    assert not running.state.turning


@pytest.mark.parametrize(
    ("lose", "restore"),
    [
        (lambda d: d.turn_isolator(False), lambda d: d.turn_isolator(True)),
        (lambda d: d.press_room_stop(), lambda d: d.reset_room_stop()),
        (lambda d: d.cut_mains(), lambda d: d.restore_mains()),
    ],
)
def test_after_the_supply_was_lost_nothing_starts_by_itself(running, lose, restore):
    lose(running)
    dropped = running.state.starter_in
    restore(running)

    assert (dropped, running.state.starter_in) == (False, False)
    running.press_start()
    assert running.state.starter_in


@pytest.mark.parametrize("lose", [SimulatedDrill.press_room_stop, SimulatedDrill.cut_mains])
def test_without_a_supply_the_start_button_does_nothing(drill, lose):
    drill.turn_isolator(True)
    lose(drill)

    drill.press_start()

    assert not drill.state.starter_in


def test_the_room_stop_does_not_move_the_isolator(running):
    running.press_room_stop()

    assert running.state.knob == "on"
    assert running.levels()[0]


def test_a_slow_hand_closes_neither_contact_on_its_way(drill, clock):
    drill.slow_hand(0.7)

    drill.turn_isolator(True)
    under_way, knob = drill.levels(), drill.state.knob
    clock.s += 0.7

    assert (under_way[0], under_way[1], knob) == (False, False, "travelling")
    assert (drill.levels()[0], drill.levels()[1]) == (True, False)


def test_a_slow_hand_stops_the_drill_as_it_leaves_on(running):
    running.slow_hand(0.7)

    running.turn_isolator(False)

    assert not running.state.starter_in


@pytest.fixture
def wired():
    levels = {0: False, 1: True, 2: False}
    return levels, Wires(lambda: levels)


def test_sound_wires_carry_the_levels(wired):
    levels, wires = wired

    assert wires.look() == levels


def test_wires_off_read_open_and_shorted_ones_closed_until_put_back(wired):
    levels, wires = wired

    wires.take_off(1)
    wires.short(2)
    wrong = wires.look()
    wires.put_back(1, 2)

    assert wrong == {0: False, 1: False, 2: True}
    assert wires.look() == levels


def test_swapped_wires_read_as_the_opposite_state_until_swapped_again(wired):
    levels, wires = wired

    wires.swap()
    wrong = wires.look()
    wires.swap()

    assert wrong == {0: True, 1: False, 2: False}
    assert wires.look() == levels


def test_a_stuck_contact_stays_as_it_was(wired):
    levels, wires = wired

    wires.stick(1)
    levels.update({0: True, 1: False})

    assert wires.look() == {0: True, 1: True, 2: False}


def test_a_bounce_opens_and_closes_in_turn_and_ends(wired):
    levels, wires = wired

    wires.bounce(5)
    seen = [wires.look()[1] for _ in range(7)]

    assert seen == [False, True, False, True, False, True, True]
    assert wires.look() == levels


def test_guard_and_extraction_have_contacts_of_their_own(drill):
    drill.swing_guard(False)
    drill.switch_extraction(True)

    assert (drill.levels()[4], drill.levels()[5]) == (False, True)
    assert (drill.state.guard_down, drill.state.extraction) == (False, True)
