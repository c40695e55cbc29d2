"""What one set of contact levels says, before any settling."""

from __future__ import annotations

import pytest

from kiosk.core.contacts import says
from kiosk.core.model import ContactPair, Reading

OFF, ON, UNKNOWN, FAULT = Reading.OFF, Reading.ON, Reading.UNKNOWN, Reading.FAULT


@pytest.mark.parametrize(
    ("name", "pair", "levels", "reading"),
    [
        ("isolator", ContactPair(0, 1), {0: True, 1: False}, ON),
        ("isolator", ContactPair(0, 1), {0: False, 1: True}, OFF),
        ("isolator", ContactPair(0, 1), {0: False, 1: False}, FAULT),
        ("isolator", ContactPair(0, 1), {0: True, 1: True}, FAULT),
        ("isolator", ContactPair(0, 1), {0: True}, None),
        ("isolator", ContactPair(make=0), {0: True}, ON),
        ("isolator", ContactPair(make=0), {0: False}, UNKNOWN),
        ("isolator", ContactPair(on_break=1), {1: True}, OFF),
        ("isolator", ContactPair(on_break=1), {1: False}, UNKNOWN),
        ("isolator", ContactPair(), {}, UNKNOWN),
        ("starter", ContactPair(make=2), {2: True}, ON),
        ("starter", ContactPair(make=2), {2: False}, OFF),
        ("spindle", ContactPair(make=2), {2: False}, OFF),
        ("guard", ContactPair(make=2), {2: False}, OFF),
        ("extraction", ContactPair(make=2), {2: False}, OFF),
        ("starter", ContactPair(on_break=2), {2: False}, UNKNOWN),
        ("something else", ContactPair(make=2), {2: False}, UNKNOWN),
    ],
)
def test_what_levels_say_before_any_settling(name, pair, levels, reading):
    assert says(name, pair, levels) is reading
