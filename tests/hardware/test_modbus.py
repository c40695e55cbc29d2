"""Frames of Modbus RTU against the published specifications, and against noise."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardware import modbus
from hardware.lost import Lost
from hardware.simulator.answers import answer


def hexed(text: str) -> bytes:
    return bytes.fromhex(text)


def test_the_crc_of_the_serial_line_specification():
    # Modbus over Serial Line V1.02, CRC appendix: 02 07 gives 1241h, sent as 41 12
    assert modbus.frame(hexed("02 07")) == hexed("02 07 41 12")


def test_the_check_value_of_this_crc():
    # the check value of CRC-16/MODBUS in catalogues of CRC parameters (from memory)
    assert modbus.crc(b"123456789") == 0x4B37


def test_the_question_and_answer_of_the_specification():
    # Modbus Application Protocol V1.1b3, 6.2: inputs 197 to 218; CRCs for unit 11h computed
    # with two independent programs
    question = modbus.request(0x11, modbus.INPUTS, 0x00C4, 22)
    heard = hexed("11 02 03 AC DB 35 20 18")

    data = modbus.find_answer(heard, 0x11, modbus.INPUTS, 22)

    assert question == hexed("11 02 00 C4 00 16 BA A9")
    assert data == hexed("AC DB 35")
    # as the specification spells it out: 204-197 are AC = 1010 1100, input 197 the lowest bit
    assert modbus.bits_of(data, 22)[:8] == (False, False, True, True, False, True, False, True)


@pytest.mark.parametrize(
    ("heard", "levels"),
    [
        ("01 02 01 01 60 48", (True, False)),
        ("01 02 01 02 20 49", (False, True)),
    ],
)
def test_two_inputs_of_unit_one(heard, levels):
    # layout after V1.1b3, 6.2; CRCs computed with two independent programs
    assert modbus.request(1, modbus.INPUTS, 0, 2) == hexed("01 02 00 00 00 02 F9 CB")
    data = modbus.find_answer(hexed(heard), 1, modbus.INPUTS, 2)
    assert modbus.bits_of(data, 2) == levels


def test_an_exception_is_a_refusal():
    # V1.1b3, 7: function with its top bit set, code 02 illegal data address
    with pytest.raises(Lost) as lost:
        modbus.find_answer(hexed("01 82 02 C1 61"), 1, modbus.INPUTS, 2)

    assert lost.value.word == "refused"


RIGHT = hexed("01 02 01 01 60 48")


@pytest.mark.parametrize(
    "heard",
    [
        modbus.frame(hexed("02 02 01 01")),  # another unit
        modbus.frame(hexed("01 01 01 01")),  # another function
        modbus.frame(hexed("01 02 00")),  # no data
        modbus.frame(hexed("01 02 02 01 00")),  # more data than was asked for
        hexed("01 02 01 01 60 49"),  # a wrong CRC
        RIGHT[:-1],  # not whole yet
        modbus.request(1, modbus.INPUTS, 0, 2),  # the question's own echo
        b"",
    ],
)
def test_what_does_not_match_exactly_is_no_answer(heard):
    assert modbus.find_answer(heard, 1, modbus.INPUTS, 2) is None


@pytest.mark.parametrize("before", ["00 FF 13", "01 02 00 00 00 02 F9 CB", "01", "01 02 01"])
def test_a_right_answer_is_found_behind_noise_and_echo(before):
    heard = hexed(before) + RIGHT

    assert modbus.find_answer(heard, 1, modbus.INPUTS, 2) == b"\x01"


@given(st.binary(max_size=300), st.integers(0, 247), st.integers(1, 64))
def test_noise_is_never_an_error(heard, unit, count):
    # an answer in it needs unit, function, length and CRC: about 1 in 2**40 for each byte
    assert modbus.find_answer(heard, unit, modbus.INPUTS, count) is None


@given(st.lists(st.booleans(), min_size=1, max_size=64), st.integers(0, 100), st.integers(1, 247))
def test_what_a_unit_answers_is_what_is_read(levels, first, unit):
    wired = dict(enumerate(levels, start=first))
    question = modbus.request(unit, modbus.INPUTS, first, len(levels))

    data = modbus.find_answer(answer(question, wired, 200), unit, modbus.INPUTS, len(levels))

    assert modbus.bits_of(data, len(levels)) == tuple(levels)


@given(st.integers(0, 47))
def test_one_wrong_bit_is_noticed(bit):
    heard = bytearray(RIGHT)
    heard[bit // 8] ^= 1 << (bit % 8)

    assert modbus.find_answer(bytes(heard), 1, modbus.INPUTS, 2) is None


class Dribble:
    """A line on which `chunks` come one a read; each read takes `step` seconds on its clock."""

    def __init__(self, *chunks: bytes, step: float = 0.1) -> None:
        self.chunks, self.step, self.time, self.sent = list(chunks), step, 0.0, b""

    def write(self, data: bytes) -> None:
        self.sent += data

    def discard(self) -> None:
        self.sent += b"<"

    def read(self, count: int) -> bytes:
        self.time += self.step
        return self.chunks.pop(0) if self.chunks else b""

    def clock(self) -> float:
        return self.time


def test_an_answer_in_pieces_is_put_together():
    line = Dribble(*[RIGHT[i : i + 1] for i in range(6)], step=0.01)

    data = modbus.poll(line, 1, 0, 2, clock=line.clock)

    assert data == b"\x01"
    assert line.sent == b"<" + hexed("01 02 00 00 00 02 F9 CB")


@pytest.mark.parametrize(
    ("chunks", "word"),
    [((), "silent"), ((RIGHT[:-1],), "bad_answer"), ((hexed("01 82 02 C1 61"),), "refused")],
)
def test_a_poll_that_fails_says_how(chunks, word):
    line = Dribble(*chunks)

    with pytest.raises(Lost) as lost:
        modbus.poll(line, 1, 0, 2, clock=line.clock)

    assert lost.value.word == word


def test_a_poll_ends_by_its_deadline_however_long_the_babble():
    line = Dribble(*[b"\x55"] * 10_000, step=0.01)

    with pytest.raises(Lost):
        modbus.poll(line, 1, 0, 2, timeout_s=0.3, clock=line.clock)

    assert line.time <= 0.32


def test_fast_babble_is_not_kept_for_ever():
    line = Dribble(*[b"\x55" * 200] * 10_000, step=0.0)

    with pytest.raises(Lost):
        modbus.poll(line, 1, 0, 2, clock=line.clock)

    assert len(line.chunks) > 9_990
