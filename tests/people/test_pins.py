"""PINs: what is issued, how it is kept, and that nobody learns from a wrong one."""

from __future__ import annotations

import random

import pytest
from argon2 import extract_parameters
from argon2.low_level import Type
from hypothesis import given
from hypothesis import strategies as st

from kiosk.people import hash_pin, is_common, is_pin, issue_pin, pin_is_right
from kiosk.people.pins import COMMON, NOBODYS, hash_to_check

PEPPER = bytes(range(32))
KEPT = hash_pin("304871", PEPPER)


def test_an_issued_pin_is_six_digits_and_not_a_common_one() -> None:
    chance = random.Random(14)

    pins = [issue_pin(chance.randrange) for _ in range(500)]

    assert all(is_pin(pin) and not is_common(pin) for pin in pins)
    assert len(set(pins)) > 490


def test_issuing_passes_over_common_values_until_one_is_not() -> None:
    drawn = iter([123456, 0, 121212, 200109, 304871])

    pin = issue_pin(lambda below: next(drawn))

    assert pin == "304871"
    assert next(drawn, None) is None


def test_a_small_number_keeps_its_leading_noughts() -> None:
    pin = issue_pin(lambda below: 4871)

    assert pin == "004871"


@pytest.mark.parametrize(
    "pin",
    "123456 987654 890123 135791 777777 121212 447474 123123 111112 200912 121999 112233".split(),
)
def test_runs_repeats_years_and_well_known_values_are_common(pin: str) -> None:
    assert is_common(pin)


def test_nine_in_ten_values_may_be_issued() -> None:
    tried = range(7, 1_000_000, 97)

    free = [n for n in tried if not is_common(f"{n:06d}")]

    assert len(free) > 0.9 * len(tried)


def test_the_list_of_well_known_values_is_long_enough_and_says_nothing_twice() -> None:
    assert len(COMMON) >= 20
    assert all(is_pin(pin) for pin in COMMON)


def test_the_right_pin_is_right() -> None:
    assert pin_is_right(KEPT, "304871", PEPPER)


@pytest.mark.parametrize("typed", ["304872", "", "30487", "3048710", "304 71", "٣٠٤٨٧١"])
def test_any_other_text_is_wrong(typed: str) -> None:
    assert not pin_is_right(KEPT, typed, PEPPER)


def test_the_right_pin_with_another_pepper_is_wrong() -> None:
    assert not pin_is_right(KEPT, "304871", bytes(32))


@pytest.mark.parametrize(
    "kept",
    [None, "", "not a hash", "$argon2id$v=19$m=1$broken", KEPT[:-5]],
    ids=["none", "empty", "no hash", "broken", "cut"],
)
def test_no_hash_or_a_broken_one_is_wrong_and_no_error(kept: str | None) -> None:
    assert not pin_is_right(kept, "304871", PEPPER)


@pytest.mark.parametrize("kept", [None, "", "not a hash"])
def test_a_missing_adult_costs_one_hash_of_the_same_measure(kept: str | None) -> None:
    checked = hash_to_check(kept)

    assert checked == NOBODYS
    assert extract_parameters(checked) == extract_parameters(KEPT)


def test_the_hash_has_the_published_measure() -> None:
    """OWASP Password Storage Cheat Sheet: argon2id, 19 MiB, 2 passes, 1 lane."""
    measure = extract_parameters(KEPT)

    assert measure.type is Type.ID
    assert (measure.memory_cost, measure.time_cost, measure.parallelism) == (19456, 2, 1)


def test_two_hashes_of_one_pin_differ_and_neither_shows_it() -> None:
    again = hash_pin("304871", PEPPER)

    assert again != KEPT
    assert "304871" not in again


@given(st.text(max_size=8).filter(lambda text: not is_pin(text)))
def test_only_six_digits_are_ever_hashed(text: str) -> None:
    with pytest.raises(ValueError, match="6 digits"):
        hash_pin(text, PEPPER)
