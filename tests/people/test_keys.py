"""Badges and spare codes: found by one hash, whoever they belong to."""

from __future__ import annotations

import pytest

from kiosk.people import hash_badge, hash_code, hash_pin, is_badge, issue_codes, keys, pin_is_right
from kiosk.people import pins as pins_room

PEPPER, OTHER = b"p" * 32, b"q" * 32


def test_a_badge_hashes_alike_each_time_and_otherwise_with_another_pepper() -> None:
    assert hash_badge("0012345678", PEPPER) == hash_badge("0012345678", PEPPER)
    assert hash_badge("0012345678", PEPPER) != hash_badge("0012345679", PEPPER)
    assert hash_badge("0012345678", PEPPER) != hash_badge("0012345678", OTHER)


def test_a_badge_is_no_spare_code_of_the_same_digits() -> None:
    assert hash_badge("0123456789", PEPPER) != hash_code("0123456789", PEPPER)


def test_a_badges_hash_costs_what_a_pins_does() -> None:
    badge, pin = hash_badge("0012345678", PEPPER), hash_pin("482915", PEPPER)

    assert badge.split("$")[1:4] == pin.split("$")[1:4] == ["argon2id", "v=19", "m=19456,t=2,p=1"]


@pytest.mark.parametrize("read", ["", "123", "x" * 33, "12 34", "٣٣٣٣٣", "1234\n"])
def test_what_no_reader_types_is_no_badge(read: str) -> None:
    assert not is_badge(read)


def test_spare_codes_are_five_unlike_and_as_the_source_gives_them() -> None:
    numbers = iter([7, 7, 1, 2, 3, 4])

    codes = issue_codes(lambda below: next(numbers))

    assert codes == ("0000000007", "0000000001", "0000000002", "0000000003", "0000000004")


def test_right_wrong_and_unknown_cost_the_same_number_of_hashes(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    kept = hash_pin("482915", PEPPER)
    counted: list[str] = []
    real_verify, real_hash = type(pins_room._HASHER).verify, keys.hash_secret
    monkeypatch.setattr(
        type(pins_room._HASHER),
        "verify",
        lambda self, *given: counted.append("verify") or real_verify(self, *given),
    )
    monkeypatch.setattr(
        keys, "hash_secret", lambda *given: counted.append("hash") or real_hash(*given)
    )

    for hashed, pin in ((kept, "482915"), (kept, "000000"), (None, "482915"), ("", "1")):
        pin_is_right(hashed, pin, PEPPER)
    for read in ("0012345678", "x", ""):
        hash_badge(read, PEPPER)
        hash_code(read, PEPPER)

    assert counted == ["verify"] * 4 + ["hash"] * 6
