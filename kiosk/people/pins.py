"""Six-digit PINs: issued at random, kept as a hash, checked at the same cost right or wrong.

`hash_pin` and `pin_is_right` take some tens of milliseconds and 19 MiB by design, so the
runtime calls them in its worker thread.
"""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Callable
from itertools import pairwise

from argon2 import PasswordHasher, extract_parameters
from argon2.exceptions import Argon2Error, InvalidHashError

DIGITS = 6

# OWASP Password Storage Cheat Sheet, Argon2id: 19 MiB of memory, 2 passes, 1 lane.
_HASHER = PasswordHasher(time_cost=2, memory_cost=19456, parallelism=1, hash_len=32, salt_len=16)

# The hash of thirty-two random bytes that nobody kept: what is checked for an adult who has
# none. It has the same cost as a real one and no PIN is right for it.
NOBODYS = (
    "$argon2id$v=19$m=19456,t=2,p=1$ql0BVtR2uJxPHooCvCx5FQ$"
    "Bfngmv+G8idOY0CXrpVBWo+lTOIx4EbG7Qwhu9X2+xc"
)

# Values people choose most, from memory of published lists; runs, repeats and years are
# refused by rule and so are not repeated here.
COMMON = frozenset(
    """
    112233 123321 789456 159753 147258 258369 147852 159357 100200 102030 696969 420420
    123654 456123 321654 332211 445566 778899 998877 665544 147896 741852 963852 852456
    456789 369258 112358 314159 271828 141421 808080 007007 110110 911911 520520 134679
    """.split()
)


def is_pin(text: str) -> bool:
    """Whether the text is six digits, nothing else."""
    return len(text) == DIGITS and text.isascii() and text.isdigit()


def is_common(pin: str) -> bool:
    """Whether a PIN is one that people guess first: common, a run, a repeat or a year.

    NIST SP 800-63B asks for a list of values that may not be used; which ones is common
    practice.
    """
    return pin in COMMON or _is_run(pin) or _is_repeat(pin) or _has_year(pin)


def _is_run(pin: str) -> bool:
    """123456, 987654, 135790: every digit the same step, up to 2, from the one before."""
    steps = {(int(b) - int(a)) % 10 for a, b in pairwise(pin)}
    return len(steps) == 1 and steps <= {1, 2, 8, 9}


def _is_repeat(pin: str) -> bool:
    """777777, 121212, 123123, or only two different digits."""
    return len(set(pin)) <= 2 or pin[:3] == pin[3:]


def _has_year(pin: str) -> bool:
    """A year from 1900 to 2099 at either end, as in a birthday."""
    return pin[:2] in ("19", "20") or pin[2:4] in ("19", "20")


def issue_pin(below: Callable[[int], int] = secrets.randbelow) -> str:
    """A new random PIN that is not a common one.

    `below(n)` gives a number from 0 up to but not including n; the system's secret source
    unless handed in.
    """
    while True:
        pin = f"{below(10**DIGITS):0{DIGITS}d}"
        if not is_common(pin):
            return pin


def hash_pin(pin: str, pepper: bytes) -> str:
    """The argon2id hash of a PIN, to be kept. Raises ValueError if it is not six digits.

    The pepper keys an HMAC of the PIN first, so that the record alone does not give PINs
    away: a million of them are soon tried, whatever the hash.
    """
    if not is_pin(pin):
        raise ValueError(f"a PIN is {DIGITS} digits")
    return _HASHER.hash(_peppered(pin, pepper))


def pin_is_right(kept: str | None, pin: str, pepper: bytes) -> bool:
    """Whether the PIN is the one whose hash was kept; None or an empty hash is nobody's.

    One hash is worked out whatever is handed in, so the time tells nobody whether the adult,
    the PIN or the pepper was wrong.
    """
    try:
        return _HASHER.verify(hash_to_check(kept), _peppered(pin, pepper))
    except (Argon2Error, InvalidHashError):
        return False


def hash_to_check(kept: str | None) -> str:
    """The kept hash, or nobody's if there is none or it can't be read."""
    if not kept:
        return NOBODYS
    try:
        extract_parameters(kept)
    except InvalidHashError:
        return NOBODYS
    return kept


def _peppered(pin: str, pepper: bytes) -> bytes:
    return hmac.digest(pepper, pin.encode(), "sha256")
