"""Distinct types for what is measured, so that a length can't be passed as a speed.

Every type keeps its number under the name of its unit. They come from `content` or from
`machining` and go out through `view` and `report`, which say them in words.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TypeAlias

MM_PER_INCH = 25.4  # exact, ISO 1000 / international yard and pound agreement of 1959


@dataclass(frozen=True, order=True)
class Length:
    """A length in millimetres."""

    mm: float

    @property
    def um(self) -> int:
        """The length in whole micrometres, as stored in plans and events."""
        return round(self.mm * 1000)

    @classmethod
    def from_um(cls, um: int) -> Length:
        """The length of a stored number of micrometres."""
        return cls(um / 1000)

    @classmethod
    def from_inches(cls, inches: float) -> Length:
        """A length given in inches of 25.4 mm."""
        return cls(inches * MM_PER_INCH)


@dataclass(frozen=True, order=True)
class CuttingSpeed:
    """The speed of the bit's edge over the work, in metres a minute."""

    m_per_min: float


@dataclass(frozen=True, order=True)
class SpindleSpeed:
    """Turns a minute of the spindle."""

    rpm: float


@dataclass(frozen=True, order=True)
class Feed:
    """How far the bit goes in for each turn, in millimetres a turn."""

    mm_per_rev: float


@dataclass(frozen=True, order=True)
class Angle:
    """An angle in degrees."""

    degrees: float


@dataclass(frozen=True, order=True)
class Duration:
    """A stretch of time in seconds."""

    s: float

    @property
    def us(self) -> int:
        """The stretch in whole microseconds, as stored in events."""
        return round(self.s * 1_000_000)


@dataclass(frozen=True, order=True)
class Power:
    """Power in watts."""

    w: float


@dataclass(frozen=True, order=True)
class Torque:
    """A turning moment in newton metres."""

    nm: float


@dataclass(frozen=True, order=True)
class Force:
    """A force in newtons."""

    n: float


@dataclass(frozen=True, order=True)
class Pressure:
    """A force on an area, in newtons a square millimetre: what a material asks of the edge."""

    n_per_mm2: float


Quantity: TypeAlias = (
    Length
    | CuttingSpeed
    | SpindleSpeed
    | Feed
    | Angle
    | Duration
    | Power
    | Torque
    | Force
    | Pressure
)


def day_of(wall_us: int) -> int:
    """The day of a wall clock: whole days of UTC since 1 January 1970."""
    return wall_us // 86_400_000_000


def day_named(day: int) -> str:
    """A day as an ISO 8601 date; a day out of every calendar as the nearest one in it."""
    first = date(1970, 1, 1)
    return (first + timedelta(min(max(day, 0), (date.max - first).days))).isoformat()


@dataclass(frozen=True)
class Moment:
    """A point in time as the kiosk knows it.

    `us` counts microseconds since the boot named `boot` and never steps back: durations are
    differences of it within one boot. `wall_us` is the wall clock in microseconds of UTC and
    may be wrong; `quality` is 0 unset, 1 restored after a restart, 2 synchronised.
    """

    boot: str
    us: int
    wall_us: int
    quality: int = 0

    @property
    def day(self) -> int:
        """The day by the wall clock: whole days of UTC since 1 January 1970."""
        return day_of(self.wall_us)

    def since(self, earlier: Moment) -> Duration | None:
        """Time passed since `earlier`, or None across a restart, where nobody knows."""
        if self.boot != earlier.boot:
            return None
        return Duration((self.us - earlier.us) / 1_000_000)
