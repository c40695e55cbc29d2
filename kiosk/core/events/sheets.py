"""A printed sheet asked for at the screen: to be read there, and to be taken away."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class SheetAsked(Event):
    """An adult asked to read a sheet: a word of `SHEETS`, or `card` and a job."""

    adult: str
    sheet: str


@dataclass(frozen=True)
class SheetAccepted(Event):
    """An adult wants the sheet that stands on the screen on the stick."""

    adult: str
    sheet: str
