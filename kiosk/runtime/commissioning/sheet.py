"""The values of the commissioning sheet: what was seen, at which port, and with what."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from pathlib import Path

from kiosk.core.model import Wiring
from kiosk.core.units import Moment


@dataclass(frozen=True)
class Seen:
    """One contact set seen in one state: its levels by number, true for closed."""

    input: str
    state: str  # `off` or `on`
    levels: tuple[tuple[int, bool], ...]


@dataclass(frozen=True)
class Commissioned:
    """What the sheet says. `run_down_ms` is None where no spindle contact measured it.

    `wall_us` is the wall clock in microseconds of UTC, worth what `clock` says: 0 never set, 1
    runs on from before, 2 synchronised. Who did the work is written by hand.
    """

    machine: str
    port: str
    warnings: tuple[str, ...]
    wiring: Wiring
    seen: tuple[Seen, ...]
    left_out: tuple[str, ...]
    run_down_ms: int | None
    wall_us: int
    clock: int


def sheet_of(
    machine: str,
    port: str,
    warnings: tuple[str, ...],
    wiring: Wiring,
    seen: tuple[Seen, ...],
    left_out: tuple[str, ...],
    run_down_ms: int | None,
    now: Moment,
) -> Commissioned:
    """The sheet's values as of now."""
    return Commissioned(
        machine, port, warnings, wiring, seen, left_out, run_down_ms, now.wall_us, now.quality
    )


def to_json(sheet: Commissioned) -> str:
    """The values as JSON with a line end, times in seconds as in the machine file."""
    return json.dumps(asdict(sheet), indent=2, ensure_ascii=False) + "\n"


def sheet_path(school: Path, machine: str) -> Path:
    """Where the values lie in the school's folder."""
    return school / "commissioning" / f"{machine}.json"
