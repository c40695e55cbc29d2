"""Badges and one-time spare codes: kept as hashes that are the same each time, so that one hash
finds whose they are, at the same cost whether they are anybody's or not.

A badge is what a reader types: its number never leaves this room. Spare codes are ten digits,
issued at random, since they are taken even while a PIN has to wait.
"""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Callable

from argon2.low_level import Type, hash_secret

CODE_DIGITS = 10
CODES = 5
LONGEST_BADGE, SHORTEST_BADGE = 32, 4


def is_badge(text: str) -> bool:
    """Whether a reader could have typed this: letters and digits, not longer than any badge."""
    right_length = SHORTEST_BADGE <= len(text) <= LONGEST_BADGE
    return right_length and text.isascii() and text.isalnum()


def is_code(text: str) -> bool:
    """Whether the text is ten digits, nothing else."""
    return len(text) == CODE_DIGITS and text.isascii() and text.isdigit()


def issue_codes(below: Callable[[int], int] = secrets.randbelow) -> tuple[str, ...]:
    """New spare codes, no two alike. `below(n)` gives a number from 0 up to but not including n."""
    found: dict[str, None] = {}
    while len(found) < CODES:
        found[f"{below(10**CODE_DIGITS):0{CODE_DIGITS}d}"] = None
    return tuple(found)


def hash_badge(digits: str, pepper: bytes) -> str:
    """The hash of a badge's number, of whatever was read: one argon2id, as dear as a PIN's."""
    return _hash("badge", digits, pepper)


def hash_code(digits: str, pepper: bytes) -> str:
    """The hash of a spare code: one argon2id, as dear as a PIN's."""
    return _hash("code", digits, pepper)


def _hash(what: str, text: str, pepper: bytes) -> str:
    """Keyed by the pepper, as a PIN's is; the salt comes from it too, so that equal is equal.

    Costs as in `pins`: OWASP Password Storage Cheat Sheet, Argon2id.
    """
    salt = hmac.digest(pepper, what.encode(), "sha256")[:16]
    keyed = hmac.digest(pepper, f"{what} {text}".encode(), "sha256")
    return hash_secret(keyed, salt, 2, 19456, 1, 32, Type.ID).decode()
