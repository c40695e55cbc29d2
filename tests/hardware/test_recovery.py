"""Readers whose port comes and goes, and units that answer wrongly."""

from __future__ import annotations

import os
import termios
import threading
from dataclasses import replace

import pytest

from hardware.port import open_port
from hardware.reader import FAST_S, SLOW_S, NoReader, Pace, reader_for
from hardware.simulator import SimulatedDrill, SimulatedUnit
from kiosk.core.model import ContactTimes, Reading, Wiring
from kiosk.core.units import Duration
from tests.hardware.following import LINES, MODBUS, Following, now_us
from tests.hardware.protocol_contacts import joints

JUNK = (b"", b"\x01\x02\x01", b"\x55" * 40, b"\x01\x02\x01\x01\x60\x48", bytes(range(60)))


@pytest.fixture
def unit():
    with SimulatedUnit(SimulatedDrill().levels) as plugged:
        yield plugged


def threads_named(name: str) -> list[threading.Thread]:
    return [t for t in threading.enumerate() if t.name == name]


def descriptors() -> int:
    return len(os.listdir("/proc/self/fd"))


def test_twenty_times_unplugged_with_junk_and_plugged_in_again(unit):
    often = replace(MODBUS, times=ContactTimes(chatter_per_min=1000))
    with Following(often, unit.port) as follow:
        follow.until_told(Reading.OFF)
        before = descriptors()

        for turn in range(20):
            unit.unplug(JUNK[turn % len(JUNK)])
            follow.until_told(Reading.UNKNOWN)
            unit.plug()
            follow.until_told(Reading.OFF)

        assert follow.reader.is_alive
        assert descriptors() == before
    lost = [c for c in follow.changes if c.reading is Reading.UNKNOWN]
    assert [(c.why, c.at_start) for c in lost] == [("unplugged", False)] * 20
    assert [s.lost for s in follow.samples if s.lost] == ["unplugged"] * 20


def test_a_port_that_comes_back_as_another_terminal_is_read_again(unit):
    with Following(MODBUS, unit.port) as follow:
        follow.until_told(Reading.OFF)
        first = os.readlink(unit.port)
        held = os.openpty()  # takes the old number, or the next one

        unit.unplug()
        taken = os.openpty()
        unit.plug()
        follow.until_told(Reading.UNKNOWN)
        follow.until_told(Reading.OFF)

    assert os.readlink(unit.port) != first
    for end in (*held, *taken):
        os.close(end)


def test_a_port_that_is_not_there_yet_is_found_when_it_comes(unit):
    unit.unplug()

    with Following(MODBUS, unit.port) as follow:
        follow.until_told(Reading.UNKNOWN)
        unit.plug()
        follow.until_told(Reading.OFF)

    assert [(c.reading, c.why, c.at_start) for c in follow.changes] == [
        (Reading.UNKNOWN, "no_port", True),
        (Reading.OFF, "settled", False),
    ]


def test_started_and_stopped_a_hundred_times_leaves_no_thread_and_no_descriptor(unit):
    reader = reader_for(MODBUS, unit.port, lambda sample: None, now_us)
    before = descriptors()

    for _ in range(100):
        reader.start()
        reader.stop()

    assert threads_named("contacts") == []
    assert descriptors() == before


def test_stopping_while_the_unit_is_silent_leaves_no_thread(unit):
    unit.order("silent")

    with Following(MODBUS, unit.port) as follow:
        follow.until(lambda: unit.questions)

    assert threads_named("contacts") == []


def test_nothing_is_posted_after_the_stop(unit):
    with Following(MODBUS, unit.port) as follow:
        follow.until_sample()
        follow.reader.stop()
        while not follow.came.empty():
            follow.came.get()
        unit.unplug()

        assert follow.came.empty()


@pytest.mark.parametrize(
    ("fault", "why"),
    [
        ("silent", "silent"),
        ("late", "silent"),
        ("crc_error", "bad_answer"),
        ("wrong_unit", "bad_answer"),
        ("wrong_function", "bad_answer"),
        ("wrong_length", "bad_answer"),
        ("babble", "bad_answer"),
        ("refused", "refused"),
    ],
)
def test_wrong_answers_end_as_unknown_by_name_and_right_ones_put_it_right(unit, fault, why):
    hasty = replace(MODBUS, times=ContactTimes(stale=Duration(0.7)))
    with Following(hasty, unit.port) as follow:
        follow.until_told(Reading.OFF)
        unit.order(fault)
        lost = follow.until_told(Reading.UNKNOWN)
        unit.order()
        follow.until_told(Reading.OFF)

    assert lost.why == why
    assert len(follow.changes) == 3


def test_an_adapter_that_echoes_the_question_is_read_all_the_same(unit):
    unit.order("echo")

    with Following(MODBUS, unit.port) as follow:
        follow.until_told(Reading.OFF)
        follow.until_sample(5)

    assert not any(sample.lost for sample in follow.samples)


def test_a_unit_with_another_number_is_silent(unit):
    with Following(replace(MODBUS, unit=2), unit.port) as follow:
        told = follow.until_told(Reading.UNKNOWN)

    assert (told.why, told.at_start) == ("silent", True)


def test_the_port_runs_at_the_speed_of_the_machine_file(unit):
    with Following(replace(MODBUS, baud=19200), unit.port) as follow:
        follow.until_sample()
        looking = os.open(unit.port, os.O_RDWR | os.O_NOCTTY)
        speed = termios.tcgetattr(looking)[5]
        os.close(looking)

    assert speed == termios.B19200


def test_a_port_without_handshake_lines_says_so(unit):
    with Following(LINES, unit.port) as follow:
        told = follow.until_told(Reading.UNKNOWN)

    assert (told.reading, told.why) == (Reading.UNKNOWN, "no_lines")


def test_a_port_held_by_another_program_says_so_and_is_read_when_free(unit):
    other = open_port(unit.port)

    with Following(MODBUS, unit.port) as follow:
        told = follow.until_told(Reading.UNKNOWN)
        other.close()
        follow.until_told(Reading.OFF)

    assert (told.reading, told.why) == (Reading.UNKNOWN, "in_use")


def test_handshake_lines_are_found_again_after_a_loss():
    contacts = joints("recovery")

    with Following(LINES, "contacts://recovery") as follow:
        follow.until_told(Reading.OFF)
        contacts.plugged = False
        lost = follow.until_told(Reading.UNKNOWN)
        contacts.plugged = True
        follow.until_told(Reading.OFF)

    assert lost.why == "unplugged"


def test_a_loss_is_posted_once_and_not_once_a_try():
    contacts = joints("tries")

    with Following(LINES, "contacts://tries") as follow:
        follow.until_told(Reading.OFF)
        contacts.plugged, contacts.tries = False, 0
        follow.until(lambda: contacts.tries >= 3)

    assert [s.lost for s in follow.samples if s.lost] == ["unplugged"]


def test_a_missing_port_is_posted_once_and_not_once_a_try():
    contacts = joints("missing")
    contacts.plugged = False

    with Following(LINES, "contacts://missing") as follow:
        follow.until(lambda: contacts.tries >= 3)

    assert [s.lost for s in follow.samples] == ["no_port"]


def test_no_reader_posts_nothing_and_starts_no_thread():
    posted = []
    reader = reader_for(Wiring(), "", posted.append, now_us)

    reader.start()
    reader.stop()

    assert isinstance(reader, NoReader)
    assert (posted, threads_named("contacts")) == ([], [])


def test_a_reader_of_no_known_kind_is_refused_in_one_line():
    with pytest.raises(ValueError, match=r"reader 'modbsu' is not one of: modbus, lines, none"):
        reader_for(Wiring("modbsu"), "", lambda sample: None, now_us)


def test_the_pace_quickens_at_the_first_differing_sample_until_settled():
    pace, off, on = Pace(ContactTimes()), ((0, False),), ((0, True),)

    waits = [pace.after(levels) for levels in (off, off, off, off, on, on, on, on, None, None)]

    quick, slow = FAST_S, SLOW_S
    assert waits == [quick] * 3 + [slow] + [quick] * 3 + [slow] + [slow, slow]
