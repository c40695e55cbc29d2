"""Modbus RTU as a contact unit needs it: one question, one answer, matched exactly.

Frames after the *Modbus Application Protocol Specification V1.1b3* (6.1 to 6.3) and *Modbus over
Serial Line V1.02* (2.5.1 and its CRC appendix). Pure but for `poll`. Silence between characters
is not used to find frames: behind a USB adapter nobody can time it.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Protocol

from hardware.lost import Lost

COILS, INPUTS, REGISTERS = 1, 2, 3
PER_REGISTER = 16
REFUSAL = 0x80
MOST_BYTES = 512  # two of the longest frames there are; more than that is babble


class Line(Protocol):
    """What `poll` asks of a port."""

    def write(self, data: bytes) -> None: ...
    def read(self, count: int) -> bytes: ...
    def discard(self) -> None: ...


def crc(data: bytes) -> int:
    """CRC-16 of `data`: start FFFF, polynomial A001 reflected (V1.02, CRC appendix)."""
    value = 0xFFFF
    for byte in data:
        value ^= byte
        for _ in range(8):
            value = (value >> 1) ^ 0xA001 if value & 1 else value >> 1
    return value


def frame(body: bytes) -> bytes:
    """`body` with its CRC, low byte first."""
    return body + crc(body).to_bytes(2, "little")


def is_whole(data: bytes) -> bool:
    """Whether the last two bytes are the CRC of those before."""
    return len(data) >= 4 and crc(data[:-2]) == int.from_bytes(data[-2:], "little")


def request(unit: int, function: int, first: int, count: int) -> bytes:
    """The 8 bytes that ask `unit` for `count` coils, inputs or registers from `first` (0 first)."""
    return frame(bytes((unit, function)) + first.to_bytes(2, "big") + count.to_bytes(2, "big"))


def payload_length(function: int, count: int) -> int:
    """How many bytes of data the answer to a question has."""
    return 2 * count if function == REGISTERS else (count + 7) // 8


def find_answer(heard: bytes, unit: int, function: int, count: int) -> bytes | None:
    """The data of the one frame in `heard` that answers the question, wherever it begins.

    Unit, function, length and CRC must all match. Raises `Lost("refused")` where the unit
    answered that it won't.
    """
    size = payload_length(function, count)
    for start in range(len(heard) - 4):
        refusal = heard[start : start + 5]
        if refusal[:2] == bytes((unit, function | REFUSAL)) and is_whole(refusal):
            raise Lost("refused")
        answer = heard[start : start + 5 + size]
        if len(answer) < 5 + size:
            continue
        if answer[:3] == bytes((unit, function, size)) and is_whole(answer):
            return answer[3:-2]
    return None


def bits_of(data: bytes, count: int) -> tuple[bool, ...]:
    """The first `count` levels: the lowest bit of the first byte is the first input."""
    return tuple(bool(data[i // 8] >> (i % 8) & 1) for i in range(count))


def levels_of(data: bytes, function: int, count: int) -> tuple[bool, ...]:
    """The levels in an answer about `count` coils, inputs or registers.

    A register is taken as 16 levels, its lowest bit first.
    """
    if function != REGISTERS:
        return bits_of(data, count)
    bits = range(PER_REGISTER)
    return tuple(bool(word >> bit & 1) for word in registers_of(data) for bit in bits)


def registers_of(data: bytes) -> tuple[int, ...]:
    """The registers of an answer, each two bytes, high byte first."""
    return tuple(int.from_bytes(data[i : i + 2], "big") for i in range(0, len(data), 2))


def poll(
    line: Line,
    unit: int,
    first: int,
    count: int,
    function: int = INPUTS,
    timeout_s: float = 0.3,
    clock: Callable[[], float] = time.monotonic,
) -> bytes:
    """Ask once and give the answer's data.

    Raises `Lost`: `silent` (nothing came), `bad_answer` (something else came), `refused`, or what
    the port says. What was waiting from before is thrown away first: an answer carries no number,
    so a late one could pass for the next. `clock` must never be stepped.
    """
    line.discard()
    line.write(request(unit, function, first, count))
    until, heard, whole = clock() + timeout_s, b"", 5 + payload_length(function, count)
    while clock() < until and len(heard) < MOST_BYTES:
        heard += line.read(max(1, whole - len(heard)))
        data = find_answer(heard, unit, function, count)
        if data is not None:
            return data
    raise Lost("bad_answer" if heard else "silent")
