"""An order that nobody can foresee and that is the same each time it is asked for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

T = TypeVar("T")

# Knuth's MMIX generator (The Art of Computer Programming, volume 2, 3.3.4).
_TIMES, _PLUS, _SIZE = 6364136223846793005, 1442695040888963407, 2**64


def mixed(items: Iterable[T], seed: int) -> tuple[T, ...]:
    """The items in an order that the seed decides (Fisher and Yates); every order can come."""
    left, found, state = list(items), [], seed % _SIZE
    while left:
        state = (state * _TIMES + _PLUS) % _SIZE
        found.append(left.pop((state >> 33) % len(left)))
    return tuple(found)
