"""The timetable of silent hours at the running loop: the screen changes by itself."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.model import QuietSpan
from tests.core.story import lesson_open
from tests.runtime.driven import Driven


def test_the_loop_shows_silence_as_it_begins_and_the_numbers_as_it_ends() -> None:
    driven = Driven(lesson_open())
    start = driven.clock.moment.wall_us // 1_000_000 + 60
    quiet = (QuietSpan(start, start + 600, 0),)
    content = replace(driven.loop.shop.content, quiet=quiet)
    driven.loop.shop = replace(driven.loop.shop, content=content)
    driven.clock.moment = replace(driven.clock.moment, quality=2)

    seen = []
    for seconds in (1, 61, 539, 61):
        driven.clock.pass_us(seconds * 1_000_000)
        driven.turn()
        seen.append(driven.loop.latest().title)

    assert seen[1] == seen[2] == "Silent hours"
    assert seen[0] == seen[3] == "Year 8 blue: touch your number"
