"""What a picture was given, asked for by name, with a sensible value where it was not given."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from kiosk.core.machining.worked import Value
from kiosk.core.units import Angle, Length

OVERRUN = 2.0  # how far the bit's full width goes past the underside, mm
FILLS = {"metal": "steel", "wood": "wood", "plastic": "plastic"}


@dataclass(frozen=True)
class Values:
    """A picture's values by name. Nothing asked of it ever fails."""

    pairs: tuple[tuple[str, Value], ...] = ()

    def get(self, name: str) -> Value | None:
        """The value called `name`, whatever it is."""
        return next((value for key, value in self.pairs if key == name), None)

    def length(self, name: str, otherwise: float) -> float:
        """A length over 0 in millimetres."""
        found = self.get(name)
        return found.mm if isinstance(found, Length) and found.mm > 0 else otherwise

    def maybe_length(self, name: str) -> float | None:
        """A length over 0 in millimetres, or None."""
        return self.length(name, 0.0) or None

    def count(self, name: str, otherwise: int) -> int:
        """A whole number from 1."""
        found = self.get(name)
        return found if isinstance(found, int) and found > 0 else otherwise

    def word(self, name: str, otherwise: str) -> str:
        """A word."""
        found = self.get(name)
        return found if isinstance(found, str) and found else otherwise

    def lengths(self, stem: str) -> tuple[float, ...]:
        """The lengths `stem_1`, `stem_2` and so on, as far as they go without a gap."""
        found: list[float] = []
        while (each := self.maybe_length(f"{stem}_{len(found) + 1}")) is not None:
            found.append(each)
        return tuple(found)

    @property
    def bit_diameter(self) -> float:
        """The bit's diameter in millimetres."""
        return self.length("bit_diameter", self.length("diameter", 8.0))

    @property
    def point_angle(self) -> float:
        """The angle of the bit's point in degrees."""
        found = self.get("point_angle")
        is_angle = isinstance(found, Angle) and 0 < found.degrees <= 180
        return found.degrees if is_angle and isinstance(found, Angle) else 118.0

    @property
    def kind(self) -> str:
        """The kind of bit."""
        return self.word("bit", "twist")

    @property
    def point(self) -> float:
        """How far the tip stands below the bit's full width, in millimetres."""
        found = self.get("point")
        if isinstance(found, Length) and found.mm >= 0:
            return found.mm
        flat = self.point_angle >= 180
        return 0.0 if flat else self.bit_diameter / 2 / tan(radians(self.point_angle / 2))

    @property
    def is_through(self) -> bool:
        """Whether the hole goes through: no depth is given."""
        return self.maybe_length("depth") is None

    @property
    def thickness(self) -> float:
        """How thick the work is, in millimetres."""
        return self.length("thickness", 6.0 if self.is_through else 18.0)

    @property
    def travel(self) -> float:
        """How far the tip goes below the top of the work. The stop, where one is set, decides."""
        found = self.maybe_length("depth")
        if found is None:
            return self.thickness + self.point + OVERRUN
        return self.length("stop", found + self.point)

    @property
    def scrap(self) -> float:
        """How thick the scrap wood under a through hole is drawn: thicker than it must be."""
        return max(self.length("scrap", self.point + OVERRUN) + 2.0, self.thickness * 0.3)

    @property
    def board(self) -> float:
        """The thickness of scrap wood that the table's height counts."""
        return self.length("scrap_most", self.length("scrap", self.point + OVERRUN))

    @property
    def fill(self) -> str:
        """The colour of the work, by its material family."""
        return FILLS.get(self.word("material_family", "metal"), "steel")
