"""One window for all tests; a panel in it with a clock that is moved by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from tests.screens import window as display


@pytest.fixture(scope="session")
def window() -> Any:
    reason = display.why_no_window()
    if reason:
        pytest.skip(reason)
    return display.open_window()


@pytest.fixture
def hand(window: Any) -> Iterator[Callable[..., Any]]:
    """Makes panels with a hand at them; they leave the window when the test ends."""
    from tests.screens.hand import Hand

    made: list[Hand] = []

    def make(**wishes: Any) -> Hand:
        made.append(Hand(window, **wishes))
        return made[-1]

    yield make
    for one in made:
        one.leave()
