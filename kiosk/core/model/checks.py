"""How often an adult looks at the machine before a start, by level and by what is drilled."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.model.steps import When
from kiosk.core.model.words import Level
from kiosk.core.units import Length


@dataclass(frozen=True)
class Checks:
    """Every `hole`, once a `session` or once a `set-up`, as the school has it.

    Whatever the level, an adult looks at every hole with a bit over `over`, in sheet under
    `sheet_under`, in work shorter than `work_under`, and where a condition of `where` holds.
    Defaults: the project's adult-check rule; the sizes are common practice in schools.
    """

    every: tuple[tuple[Level, str], ...] = (
        (Level.ADULT_BESIDE, "hole"),
        (Level.SHOWN, "hole"),
        (Level.SUPERVISED, "session"),
        (Level.SIGNED_OFF, "set-up"),
    )
    over: Length = Length(13.0)  # the usual chuck
    sheet_under: Length = Length(3.0)  # thinner sheet grabs and lifts as the bit breaks through
    work_under: Length = Length(75.0)  # shorter work brings hands close to the bit
    where: tuple[When, ...] = ()

    def at(self, level: Level) -> str:
        """How often an adult looks at this level; every hole for one that is not named."""
        return dict(self.every).get(level, "hole")
