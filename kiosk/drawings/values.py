"""What a picture was given, asked for by name, with a sensible value where it was not given."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.machining.worked import Value
from kiosk.core.units import Angle, Length

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
    def fill(self) -> str:
        """The colour of the work, by its material family."""
        return FILLS.get(self.word("material_family", "metal"), "steel")
