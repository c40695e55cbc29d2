"""What a Modbus RTU unit answers, rightly or with a fault that was ordered.

Exception codes after the *Modbus Application Protocol Specification V1.1b3*, section 7.
"""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

from hardware import modbus

NO_SUCH_FUNCTION, NO_SUCH_ADDRESS, BAD_VALUE = 1, 2, 3

ANSWER_FAULTS = (
    "silent",
    "crc_error",
    "wrong_unit",
    "wrong_function",
    "wrong_length",
    "echo",
    "late",
    "babble",
    "refused",
)


MOST = {modbus.COILS: 2000, modbus.INPUTS: 2000, modbus.REGISTERS: 125}
"""How many one question may ask for, by function (V1.1b3, 6.1 to 6.3)."""


def answer(
    question: bytes,
    levels: Mapping[int, bool],
    inputs: int,
    functions: tuple[int, ...] = (modbus.INPUTS,),
) -> bytes:
    """The right answer to one whole question of 8 bytes, for a unit with `inputs` inputs.

    The unit shows its inputs by each of `functions` and refuses every other one.
    """
    unit, function = question[0], question[1]
    first, count = (int.from_bytes(question[i : i + 2], "big") for i in (2, 4))
    if function not in functions:
        return refusal(unit, function, NO_SUCH_FUNCTION)
    if not 1 <= count <= MOST[function]:
        return refusal(unit, function, BAD_VALUE)
    size = modbus.PER_REGISTER if function == modbus.REGISTERS else 1
    if (first + count) * size > -(-inputs // size) * size:
        return refusal(unit, function, NO_SUCH_ADDRESS)
    data = _data(levels, first * size, count * size, size)
    return modbus.frame(bytes((unit, function, len(data))) + data)


def _data(levels: Mapping[int, bool], first: int, count: int, size: int) -> bytes:
    """Levels as bits, the lowest first; registers travel high byte first."""
    bits = sum(levels.get(first + i, False) << i for i in range(count))
    data = bits.to_bytes((count + 7) // 8, "little")
    if size == 1:
        return data
    return b"".join(data[i : i + 2][::-1] for i in range(0, len(data), 2))


def refusal(unit: int, function: int, code: int) -> bytes:
    """The answer that says why not."""
    return modbus.frame(bytes((unit, function | modbus.REFUSAL, code)))


def spoil(question: bytes, right: bytes, fault: str, noise: Random) -> bytes:
    """What goes on the line instead of the `right` answer while `fault` is ordered."""
    body = right[:-2]
    match fault:
        case "silent":
            return b""
        case "crc_error":
            return body + bytes((right[-2] ^ 0xFF, right[-1]))
        case "wrong_unit":
            return modbus.frame(bytes((body[0] % 247 + 1,)) + body[1:])
        case "wrong_function":
            return modbus.frame(body[:1] + bytes((body[1] % 3 + 1,)) + body[2:])
        case "wrong_length":
            return modbus.frame(body[:2] + bytes((body[2] + 1,)) + body[3:] + b"\0")
        case "echo":
            return question + right
        case "babble":
            return noise.randbytes(200)
        case "refused":
            return refusal(question[0], question[1], 4)
    return right
