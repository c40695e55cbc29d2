"""Our frames against pymodbus, which shares no code with ours, over pseudo-terminals."""

from __future__ import annotations

import pytest
from pymodbus.client import ModbusSerialClient
from pymodbus.framer import FramerType

from hardware import modbus
from hardware.lost import Lost
from hardware.port import open_port
from hardware.simulator import SimulatedUnit
from tests.hardware.other_end import PymodbusUnit

LEVELS = {0: True, 1: False, 2: True, 7: True, 9: True}


@pytest.fixture
def port_to_pymodbus():
    with PymodbusUnit(lambda: LEVELS, registers=(0x0203, 0xFF00)) as unit:
        port = open_port(unit.port, 115200)
        yield port
        port.close()


@pytest.mark.parametrize("function", [modbus.INPUTS, modbus.COILS])
@pytest.mark.parametrize(("first", "count"), [(0, 2), (0, 3), (1, 7), (0, 8), (0, 10), (2, 8)])
def test_our_reader_reads_what_a_pymodbus_server_holds(port_to_pymodbus, function, first, count):
    data = modbus.poll(port_to_pymodbus, 1, first, count, function)

    expected = tuple(LEVELS.get(n, False) for n in range(first, first + count))
    assert modbus.bits_of(data, count) == expected


def test_our_reader_reads_registers_of_a_pymodbus_server(port_to_pymodbus):
    data = modbus.poll(port_to_pymodbus, 1, 0, 2, modbus.REGISTERS)

    assert modbus.registers_of(data) == (0x0203, 0xFF00)


def test_a_pymodbus_server_that_has_no_such_input_is_a_refusal(port_to_pymodbus):
    with pytest.raises(Lost) as lost:
        modbus.poll(port_to_pymodbus, 1, 100, 2)

    assert lost.value.word == "refused"


@pytest.fixture
def pymodbus_to_unit():
    with SimulatedUnit(lambda: LEVELS, number=17) as unit:
        client = ModbusSerialClient(
            unit.port, framer=FramerType.RTU, baudrate=115200, timeout=1, retries=0
        )
        assert client.connect()
        yield client
        client.close()


@pytest.mark.parametrize(("first", "count"), [(0, 1), (0, 2), (0, 8), (2, 6)])
def test_a_pymodbus_client_reads_what_our_unit_is_wired_to(pymodbus_to_unit, first, count):
    answer = pymodbus_to_unit.read_discrete_inputs(first, count=count, device_id=17)

    assert not answer.isError()
    assert answer.bits[:count] == [LEVELS.get(n, False) for n in range(first, first + count)]


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda c: c.read_discrete_inputs(7, count=2, device_id=17), 2),
        (lambda c: c.read_coils(0, count=2, device_id=17), 1),
        (lambda c: c.read_holding_registers(0, count=1, device_id=17), 1),
    ],
)
def test_our_unit_refuses_with_the_codes_of_the_specification(pymodbus_to_unit, ask, code):
    answer = ask(pymodbus_to_unit)

    assert (answer.isError(), answer.exception_code) == (True, code)
