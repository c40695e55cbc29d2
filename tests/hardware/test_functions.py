"""Units that show their inputs as coils or as bits of registers, and ports with parity."""

from __future__ import annotations

import os
import termios
from dataclasses import replace

import pytest
from pymodbus.client import ModbusSerialClient
from pymodbus.framer import FramerType

from hardware import modbus
from hardware.port import open_port
from hardware.simulator import SimulatedDrill, SimulatedUnit
from kiosk.core.model import ContactPair, Reading, Wiring
from tests.hardware.following import MODBUS, Following
from tests.hardware.other_end import PymodbusUnit

LEVELS = {0: True, 1: False, 2: True, 9: True, 16: True, 17: False, 31: True}


@pytest.fixture
def client():
    with SimulatedUnit(lambda: LEVELS, inputs=32, functions=(1, 2, 3)) as unit:
        made = ModbusSerialClient(
            unit.port, framer=FramerType.RTU, baudrate=115200, timeout=1, retries=0
        )
        assert made.connect()
        yield made
        made.close()


def test_a_pymodbus_client_reads_the_unit_s_coils(client):
    answer = client.read_coils(0, count=20, device_id=1)

    assert answer.bits[:20] == [LEVELS.get(n, False) for n in range(20)]


def test_a_pymodbus_client_reads_the_unit_s_registers(client):
    answer = client.read_holding_registers(0, count=2, device_id=1)

    # contacts 0, 2 and 9 in the first register, 16 and 31 in the second, the lowest bit first
    assert answer.registers == [0b0000_0010_0000_0101, 0b1000_0000_0000_0001]


def test_a_pymodbus_client_is_refused_a_register_too_many(client):
    answer = client.read_holding_registers(1, count=2, device_id=1)

    assert answer.exception_code == 2


@pytest.mark.parametrize("function", [modbus.COILS, modbus.INPUTS, modbus.REGISTERS])
def test_an_isolator_is_followed_whichever_function_the_unit_has(function):
    drill = SimulatedDrill()
    with (
        SimulatedUnit(drill.levels, functions=(function,)) as unit,
        Following(replace(MODBUS, function=function), unit.port) as follow,
    ):
        follow.until_told(Reading.OFF)
        drill.turn_isolator(True)
        follow.until_told(Reading.ON)


def test_a_unit_without_the_function_refuses():
    with (
        SimulatedUnit(SimulatedDrill().levels) as unit,
        Following(replace(MODBUS, function=modbus.COILS), unit.port) as follow,
    ):
        told = follow.until_told(Reading.UNKNOWN)

    assert told.why == "refused"


def test_registers_of_a_pymodbus_server_are_read_as_contacts():
    wiring = Wiring("modbus", inputs=(("isolator", ContactPair(16, 18)),), function=3)

    with (
        PymodbusUnit(dict, registers=(0, 0b001, 0)) as unit,
        Following(wiring, unit.port) as follow,
    ):
        told = follow.until_told(Reading.ON)

    assert told.why == "settled"


@pytest.mark.parametrize(("parity", "set"), [("none", "N"), ("even", "E"), ("odd", "O")])
def test_the_port_has_the_parity_of_the_machine_file(parity, set):
    port = open_port("loop://", parity=parity)

    assert port._line.parity == set  # a pseudo-terminal keeps no parity that could be asked for
    port.close()


def test_the_reader_opens_the_port_with_the_machine_s_parity():
    with (
        SimulatedUnit(SimulatedDrill().levels) as unit,
        Following(replace(MODBUS, parity="odd"), unit.port) as follow,
    ):
        follow.until_sample()
        looking = os.open(unit.port, os.O_RDWR | os.O_NOCTTY)
        control = termios.tcgetattr(looking)[2]
        os.close(looking)

    assert control & termios.PARODD
