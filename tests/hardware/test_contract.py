"""One contract over every contact reader: what it must do whatever the contacts hang on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from hardware.simulator import SimulatedDrill, SimulatedUnit
from kiosk.core.model import Reading, Wiring
from tests.hardware.following import LINES, MODBUS, Following
from tests.hardware.other_end import PymodbusUnit
from tests.hardware.protocol_contacts import joints

pytestmark = pytest.mark.contract


class Rig:
    """An isolator pair that hangs on some reader: `put` sets its two contacts."""

    wiring: Wiring
    port: str

    def put(self, make: bool, on_break: bool) -> None:
        raise NotImplementedError


class UnitRig(Rig):
    """The simulated unit, wired to contacts set by hand."""

    wiring = MODBUS

    def __init__(self, unit: SimulatedUnit, levels: dict[int, bool]) -> None:
        self.port, self.levels = unit.port, levels

    def put(self, make: bool, on_break: bool) -> None:
        self.levels.update({0: make, 1: on_break})


class LinesRig(Rig):
    """Contacts between the handshake lines of a loop-back port."""

    wiring, port = LINES, "contacts://contract"

    def __init__(self) -> None:
        self.joints = joints("contract")

    def put(self, make: bool, on_break: bool) -> None:
        self.joints.make, self.joints.on_break = make, on_break


@contextmanager
def simulated() -> Iterator[Rig]:
    levels = {0: False, 1: True}
    with SimulatedUnit(lambda: levels) as unit:
        yield UnitRig(unit, levels)


@contextmanager
def independent() -> Iterator[Rig]:
    levels = {0: False, 1: True}
    with PymodbusUnit(lambda: levels) as unit:
        yield UnitRig(unit, levels)


@contextmanager
def handshake() -> Iterator[Rig]:
    yield LinesRig()


@pytest.fixture(params=[simulated, independent, handshake], ids=lambda make: make.__name__)
def rig(request) -> Iterator[Rig]:
    with request.param() as made:
        yield made


def test_the_state_at_start_is_told_once_as_found(rig):
    with Following(rig.wiring, rig.port) as follow:
        told = follow.until_told(Reading.OFF)

    assert (told.at_start, told.why) == (True, "settled")
    assert len(follow.changes) == 1


def test_on_and_off_are_followed(rig):
    with Following(rig.wiring, rig.port) as follow:
        follow.until_told(Reading.OFF)

        for _ in range(2):
            rig.put(make=True, on_break=False)
            follow.until_told(Reading.ON)
            rig.put(make=False, on_break=True)
            follow.until_told(Reading.OFF)

    assert [c.reading for c in follow.changes] == [Reading.OFF, *[Reading.ON, Reading.OFF] * 2]


@pytest.mark.parametrize("level", [False, True], ids=["both open", "both closed"])
def test_contacts_that_disagree_become_a_fault_and_never_off(rig, level):
    rig.put(make=True, on_break=False)

    with Following(rig.wiring, rig.port) as follow:
        follow.until_told(Reading.ON)
        rig.put(make=level, on_break=level)
        told = follow.until_told(Reading.FAULT)

    assert told.why == "discrepancy"
    assert [c.reading for c in follow.changes] == [Reading.ON, Reading.FAULT]


def test_a_fault_is_over_when_the_contacts_agree_again(rig):
    rig.put(make=True, on_break=True)

    with Following(rig.wiring, rig.port) as follow:
        follow.until_told(Reading.FAULT)
        rig.put(make=False, on_break=True)
        told = follow.until_told(Reading.OFF)

    assert (told.why, told.at_start) == ("settled", False)


def test_samples_carry_times_that_grow_and_every_wired_level(rig):
    with Following(rig.wiring, rig.port) as follow:
        follow.until_sample(10)

    times = [sample.us for sample in follow.samples]
    assert times == sorted(set(times))
    assert all(dict(s.levels).keys() >= {0, 1} for s in follow.samples)


def test_starting_and_stopping_twice_is_the_same_as_once(rig):
    with Following(rig.wiring, rig.port) as follow:
        follow.reader.start()
        follow.until_sample()
        follow.reader.stop()
        follow.reader.stop()

    assert not follow.reader.is_alive


def test_a_stopped_reader_can_be_started_again(rig):
    with Following(rig.wiring, rig.port) as follow:
        follow.until_sample()
        follow.reader.stop()
        follow.reader.start()

        follow.until_sample(3)


def test_an_isolator_followed_through_a_drill_of_real_switches():
    drill = SimulatedDrill()

    with SimulatedUnit(drill.levels) as unit, Following(MODBUS, unit.port) as follow:
        follow.until_told(Reading.OFF)
        drill.turn_isolator(True)
        follow.until_told(Reading.ON)

    assert [c.reading for c in follow.changes] == [Reading.OFF, Reading.ON]
