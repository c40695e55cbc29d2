"""How sums write their numbers: one decimal mark, units on every number, no trailing zeros."""

from __future__ import annotations

from collections.abc import Iterable

from kiosk.core.units import Quantity
from kiosk.core.words import Words

_WORDS = Words("en", {})


def written(quantity: Quantity) -> str:
    """A quantity with its unit, as it stands in a working: `14.5 mm`, `800 rpm`."""
    return _WORDS.number(quantity).replace("\u00a0°", "°").replace("\u00a0", " ")


def listed(quantities: Iterable[Quantity]) -> str:
    """Quantities of one kind in a row, the unit once at the end: `480, 800, 1400 rpm`."""
    parts = [written(quantity) for quantity in quantities]
    bare = [part.rsplit(" ", 1)[0] for part in parts[:-1]]
    return ", ".join(bare + parts[-1:])
