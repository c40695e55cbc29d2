"""Whether right and wrong PINs, badges and codes take the same time, beside one bare argon2id.

The kiosk's own functions with its own measure, in turns and mixed, so that a busy computer is as
busy for each. Exit code 1 if the middle times of any two differ by more than a tenth, or any is
over twice the bare hash of the same measure.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from statistics import median
from time import perf_counter

from argon2.low_level import Type, hash_secret

from kiosk.people import hash_badge, hash_code, hash_pin, pin_is_right

ROUNDS, APART, OVER_BARE = 60, 0.10, 2.0
MEMORY_KIB, PASSES, LANES, LENGTH = 19_456, 2, 1, 32  # OWASP's measure for argon2id
PEPPER = bytes(32)
PIN, CODE, BADGE = "482915", "0348700565", "0012345678"


def bare() -> None:
    """One argon2id of the stated measure."""
    hash_secret(b"482915", bytes(16), PASSES, MEMORY_KIB, LANES, LENGTH, Type.ID)


def ways() -> dict[str, Callable[[], object]]:
    """Each way of being let in or not, by name."""
    kept = hash_pin(PIN, PEPPER)
    return {
        "a bare hash": bare,
        "the right PIN": lambda: pin_is_right(kept, PIN, PEPPER),
        "a wrong PIN": lambda: pin_is_right(kept, "000000", PEPPER),
        "no such adult": lambda: pin_is_right(None, PIN, PEPPER),
        "no PIN typed": lambda: pin_is_right(kept, "", PEPPER),
        "a badge": lambda: hash_badge(BADGE, PEPPER),
        "a spare code": lambda: hash_code(CODE, PEPPER),
    }


def measured() -> dict[str, float]:
    """The middle time of each, in milliseconds."""
    asked, taken, chance = ways(), dict[str, list[float]](), random.Random(1)
    for _ in range(ROUNDS):
        for name in chance.sample(list(asked), len(asked)):
            began = perf_counter()
            asked[name]()
            taken.setdefault(name, []).append((perf_counter() - began) * 1000)
    return {name: median(taken[name]) for name in asked}


def main() -> int:
    """Print each beside the bare hash; 0 only if they can't be told apart."""
    found = measured()
    floor = found.pop("a bare hash")
    slowest, quickest = max(found.values()), min(found.values())
    for name, ms in found.items():
        print(f"{name:<15} {ms:6.1f} ms   {ms / floor:4.2f} of a bare hash ({floor:.1f} ms)")
    apart = slowest / quickest - 1
    print(f"apart {apart:.1%} at most; allowed {APART:.0%}, and {OVER_BARE:g} bare hashes")
    return 0 if apart <= APART and slowest <= OVER_BARE * floor else 1
