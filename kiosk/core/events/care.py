"""What is done to keep the drill and its kiosk in order: checks, bits, data, a deputy."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class DeputyNamed(Event):
    """`adult` returns the drill to use for a technician, after small faults; empty: nobody."""

    adult: str
    by: str


@dataclass(frozen=True)
class CheckDone(Event):
    """An installation check was made on day `day` (UTC, since 1970) and `found` right or wrong.

    The adult says so; the record does not know who made it.
    """

    check: str
    found: str
    day: int
    adult: str


@dataclass(frozen=True)
class BitsChanged(Event):
    """The rack of one bit, `um` micrometres wide, by one: `new`, `blunt`, `sharpened`, `lost`."""

    bit: str
    um: int
    what: str
    adult: str


@dataclass(frozen=True)
class BitsCounted(Event):
    """The rack of one bit has `good` ones and `blunt` ones put aside."""

    bit: str
    um: int
    good: int
    blunt: int
    by: str


@dataclass(frozen=True)
class DatumSet(Event):
    """One datum of the machine, in place of its file's: `run_down` in ms, `spell` 0 or 1.

    `widest` is what the chuck may be given, in micrometres.
    """

    what: str
    value: int
    by: str


@dataclass(frozen=True)
class RestartAsked(Event):
    """A technician asked for the kiosk to start anew."""

    by: str


@dataclass(frozen=True)
class DownSaid(Event):
    """The kiosk was down on day `day` for `minutes`, and the wall sheet has `holes` holes.

    All of it is *said*: by the adult who entered it afterwards.
    """

    day: int
    minutes: int
    holes: int
    by: str
