"""Silent hours by the school's timetable: stretches of time in which nobody begins."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class QuietSpan:
    """One stretch, in seconds of UTC since 1970: from `start_s` up to but not with `end_s`.

    `offset_s` is what the school's own clocks are ahead of UTC in it.
    """

    start_s: int
    end_s: int
    offset_s: int
