"""Who a PIN is issued to, and who can be revoked."""

from __future__ import annotations

import pytest

from kiosk.core.kiosk.adults import Adults, AdultState
from kiosk.core.model import Adult
from kiosk.people import NotPossible, adult_to_issue, adult_to_revoke

ASH = Adult("a1", "Ms Ash", "technician")
ELM = Adult("a2", "Mr Elm", "teacher")
KNOWN = (ASH, ELM)
STATE = Adults((AdultState("a1", "technician"), AdultState("a2", "teacher")))


def test_a_new_name_gets_a_new_reference() -> None:
    first = adult_to_issue(KNOWN, STATE, "Mx Oak", "teacher")
    second = adult_to_issue(KNOWN, STATE, "Mx Oak", "teacher")

    assert isinstance(first, Adult) and isinstance(second, Adult)
    assert (first.name, first.role) == ("Mx Oak", "teacher")
    assert first.ref != second.ref


@pytest.mark.parametrize("name", ["Mr Elm", " mr  ELM "])
def test_a_known_name_keeps_its_reference_however_it_is_typed(name: str) -> None:
    assert adult_to_issue(KNOWN, STATE, name, "teacher") == ELM


def test_an_adult_in_use_does_not_change_role_unasked() -> None:
    answer = adult_to_issue(KNOWN, STATE, "Mr Elm", "technician")

    assert answer == NotPossible("Mr Elm is a teacher; revoke first to change the role")


def test_a_revoked_adult_may_come_back_in_another_role() -> None:
    state = Adults((STATE.known[0], AdultState("a2", "teacher", revoked=True)))

    answer = adult_to_issue(KNOWN, state, "Mr Elm", "technician")

    assert answer == Adult("a2", "Mr Elm", "technician")


@pytest.mark.parametrize("name", ["", "   ", "x" * 41, "two\x00parts"])
def test_a_name_that_would_not_fit_the_screen_is_refused(name: str) -> None:
    answer = adult_to_issue(KNOWN, STATE, name, "teacher")

    assert isinstance(answer, NotPossible)
    assert "allowed: 1 to 40 letters" in answer.why


def test_a_misspelt_role_is_answered_with_the_nearest() -> None:
    answer = adult_to_issue(KNOWN, STATE, "Mx Oak", "techer")

    assert isinstance(answer, NotPossible)
    assert answer.why.endswith("cover, assistant, trainee; did you mean 'teacher'?")


def test_revoking_finds_the_adult_by_name() -> None:
    assert adult_to_revoke(KNOWN, STATE, "mr elm") == ELM


def test_the_only_technician_can_not_be_revoked() -> None:
    answer = adult_to_revoke(KNOWN, STATE, "Ms Ash")

    assert answer == NotPossible("Ms Ash is the only technician; issue another one first")


def test_one_of_two_technicians_can_be_revoked() -> None:
    oak = Adult("a3", "Mx Oak", "technician")
    state = Adults((*STATE.known, AdultState("a3", "technician")))

    assert adult_to_revoke((*KNOWN, oak), state, "Ms Ash") == ASH


def test_an_unknown_name_is_answered_with_the_nearest() -> None:
    answer = adult_to_revoke(KNOWN, STATE, "Mr Helm")

    assert isinstance(answer, NotPossible)
    assert "known: Ms Ash, Mr Elm" in answer.why
    assert "did you mean 'Mr Elm'?" in answer.why


def test_a_revoked_adult_is_not_known_any_more() -> None:
    state = Adults((STATE.known[0], AdultState("a2", "teacher", revoked=True)))

    assert isinstance(adult_to_revoke(KNOWN, state, "Mr Elm"), NotPossible)
