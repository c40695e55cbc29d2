"""The watchdog's beats come from the screen's loop, four times as often as asked for."""

from __future__ import annotations

import pytest

from kiosk.runtime.watchdog import Watchdog


@pytest.mark.parametrize(
    ("asked", "told"),
    [({"WATCHDOG_USEC": "20000000"}, 4), ({"WATCHDOG_USEC": "2000000"}, 40), ({}, 0)],
)
def test_in_twenty_seconds_it_is_told_as_often_as_was_asked(
    asked: dict[str, str], told: int
) -> None:
    said: list[str] = []
    clock = [0.0]
    watchdog = Watchdog(said.append, lambda: clock[0], asked)

    watchdog.ready()
    for beat in range(1, 41):
        clock[0] = beat / 2
        watchdog.beat()

    assert said[0] == "READY=1"
    assert said[1:] == ["WATCHDOG=1"] * told


def test_a_loop_that_stands_still_tells_nothing_and_neither_does_one_not_yet_ready() -> None:
    said: list[str] = []
    clock = [0.0]
    watchdog = Watchdog(said.append, lambda: clock[0], {"WATCHDOG_USEC": "20000000"})

    clock[0] = 30.0
    watchdog.beat()
    watchdog.ready()
    clock[0] = 60.0

    assert said == ["READY=1"]
    watchdog.beat()
    assert said == ["READY=1", "WATCHDOG=1"]
