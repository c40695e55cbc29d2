"""Deep holes: how much speed and feed come down as the hole gets deeper than it is wide."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.machining.bounds import over_nought
from kiosk.core.model import Material
from kiosk.core.units import Length

DEEP_SOURCE = "Metal Drilling Reference Guide, deep holes from 3 diameters"

# From this many diameters on: the share of the speed and of the feed that is left. The guide
# gives 35 to 40 % less speed at 6 diameters; the slower is taken.
DEEP_SHARES = ((3, 0.9, 0.9), (4, 0.8, 0.9), (5, 0.7, 0.8), (6, 0.6, 0.8))


@dataclass(frozen=True)
class DeepShares:
    """What is left of speed and feed in a hole so many diameters deep."""

    diameters: float
    speed: float
    feed: float


WHOLE = DeepShares(0.0, 1.0, 1.0)


def deep_shares(depth: Length, diameter: Length) -> DeepShares:
    """The shares of speed and feed for a hole of that depth at full diameter, in mm.

    Source: Metal Drilling Reference Guide, 3 to 6 diameters; over 6 the last row stands.
    """
    ratio = max(0.0, depth.mm) / over_nought("diameter", diameter)
    rows = [row for row in DEEP_SHARES if ratio >= row[0] - 1e-9]
    return DeepShares(ratio, rows[-1][1], rows[-1][2]) if rows else DeepShares(ratio, 1.0, 1.0)


def shares_in(material: Material, depth: Length | None, diameter: Length) -> DeepShares:
    """The same for one material: the guide is for metal, so wood and plastic keep the whole.

    In those the lifts do what the lower speed does in metal.
    """
    if depth is None or material.family != "metal":
        return WHOLE
    return deep_shares(depth, diameter)
