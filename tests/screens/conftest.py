"""One window for all tests; a panel in it with a clock that is moved by hand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

import pytest

from kiosk.core.view import View
from tests.core.exploring import State, begun, explored
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


@pytest.fixture(scope="session")
def places() -> tuple[State, ...]:
    """Every place in a lesson at the first drill whose screen differs from the others'."""
    return explored(begun("drill-1"))


@pytest.fixture(scope="session")
def states(full: bool, places: tuple[State, ...]) -> tuple[State, ...]:
    """Places to look at: all of them on all drills, or of screens built alike the fullest one."""
    if not full:
        return _fullest(places)
    others = [state for drill in ("drill-2", "drill-3") for state in explored(begun(drill))]
    return (*places, *others)


def _fullest(states: Iterable[State]) -> tuple[State, ...]:
    """Of the screens that are built alike, the one with most to say."""
    best: dict[object, tuple[int, State]] = {}
    for state in states:
        view = state.view()
        words, build = _words(view), _build(view)
        if build not in best or words > best[build][0]:
            best[build] = (words, state)
    return tuple(state for _, state in best.values())


def _build(view: View) -> object:
    counts = (min(len(view.lines), 3), len(view.choices) > 3, len(view.buttons))
    return (view.screen, view.band and view.band.look, bool(view.note), bool(view.answer), counts)


def _words(view: View) -> int:
    texts = (view.title, *view.lines, view.note, *(b.label for b in view.buttons))
    return sum(len(text) for text in texts)
