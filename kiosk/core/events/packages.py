"""What a stick brings in: asked for, shown, accepted, taken in or refused."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class PackageAsked(Event):
    """A technician asked what the stick brings in."""

    adult: str


@dataclass(frozen=True)
class PackageAccepted(Event):
    """The technician has read what the package would change and wants it; its digest."""

    adult: str
    package: str


@dataclass(frozen=True)
class PackageTaken(Event):
    """All of a package was taken in, in the transaction of this event.

    `made_us` is when it was put together, by the clock of the machine that did. `parts` are
    those of `roster`, `revoked` and `school` that it had. `by` is an adult or `command`.
    """

    by: str
    package: str
    made_us: int
    parts: tuple[str, ...]


@dataclass(frozen=True)
class PackageRefused(Event):
    """Nothing was taken in; `why` is a short word."""

    by: str
    why: str
