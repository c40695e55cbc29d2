"""How long one hole takes, from the point touching to right through."""

from __future__ import annotations

from kiosk.core.machining.bounds import over_nought
from kiosk.core.machining.worked import Figure
from kiosk.core.machining.writing import written
from kiosk.core.units import Duration, Feed, Length, SpindleSpeed

LIFT_TIME = Duration(3.0)  # up, clear and down again; common practice


def cutting_time(travel: Length, feed: Feed, speed: SpindleSpeed) -> Duration:
    """The time in the cut, s: travel in mm over feed in mm a turn and turns a minute.

    Source: t = 60 L / (f n), Groover and others.
    """
    each = over_nought("feed", feed) * over_nought("speed", speed)
    return Duration(60 * over_nought("travel", travel) / each)


def time_figure(travel: Length, feed: Feed, speed: SpindleSpeed, lifts: int) -> Figure:
    """The time of a hole with its lifts, and its working."""
    cut = cutting_time(travel, feed, speed)
    whole = Duration(cut.s + lifts * LIFT_TIME.s)
    working = f"60 × {written(travel)} / ({written(feed)} × {written(speed)}) = {written(cut)}"
    if lifts:
        working += f", and {lifts} lifts of {written(LIFT_TIME)}"
    return Figure("time", whole, working, "t = L / (f n); 3 s a lift, common practice")
