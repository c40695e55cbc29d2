"""A result with its working, and a refusal with the nearest that works."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from kiosk.core.units import Quantity

Value: TypeAlias = Quantity | int | str


@dataclass(frozen=True)
class Figure:
    """A number somebody sees: its name, value, how it was worked out in one line, and source."""

    name: str
    value: Value
    working: str
    source: str


@dataclass(frozen=True)
class Refused:
    """Why there is no number: what is wrong, by how much, and the nearest that works."""

    wrong: str
    nearest: str = ""

    def __str__(self) -> str:
        return f"{self.wrong}; nearest: {self.nearest}" if self.nearest else self.wrong
