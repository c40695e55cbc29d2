"""The risk assessment: hazards, who may be harmed, control measures."""

from __future__ import annotations

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta

from kiosk.core.model.steps import When
from kiosk.core.model.words import Level

EPOCH = date(1970, 1, 1)


@dataclass(frozen=True)
class Control:
    """A control measure and what carries it out: steps, a house rule or an installation check.

    `at` names the paths of a plan and the recoveries where one of their steps must carry it out,
    at these `levels` (empty: every one), `when` all of a condition holds and `unless` any does.
    """

    id: str
    text: str
    by: str  # `step`, `house rule`, `installation check`
    line: int = 0
    file: str = ""  # empty: the assessment's own
    at: tuple[str, ...] = ()
    levels: tuple[Level, ...] = ()
    when: When = When()
    unless: When = When()


@dataclass(frozen=True)
class Hazard:
    """A hazard with who may be harmed, its control measures and the residual risk.

    `by_year` and `by_need` say whom it harms more: by year, and by what one pupil needs. `also`
    names control measures of other hazards that work against this one as well.
    """

    id: str
    name: str
    harm: str
    who: tuple[str, ...]
    controls: tuple[Control, ...]
    residual: str  # `low`, `medium`, `high`
    line: int = 0
    by_year: str = ""
    by_need: str = ""
    also: tuple[str, ...] = ()
    file: str = ""  # empty: the assessment's own


@dataclass(frozen=True)
class InstallationCheck:
    """What is looked at when the drill is put in, and again after `every`.

    `out_of_use`: found not right, it takes the drill out of use.
    """

    id: str
    look: str
    every: str  # such as `14 months`
    line: int = 0
    file: str = ""
    out_of_use: bool = True

    def due(self, done: int) -> int:
        """The day on which it is due again after day `done` (days of UTC since 1970)."""
        count, unit = self.every.split()
        if unit.startswith(("day", "week")):
            return done + int(count) * (7 if unit.startswith("week") else 1)
        return months_after(done, int(count) * (12 if unit.startswith("year") else 1))


def months_after(day: int, months: int) -> int:
    """The same day of the month so many months later, or that month's last."""
    start = EPOCH + timedelta(days=day)
    years, month = divmod(start.month - 1 + months, 12)
    year = start.year + years
    last = monthrange(year, month + 1)[1]
    return (date(year, month + 1, min(start.day, last)) - EPOCH).days


@dataclass(frozen=True)
class Assessment:
    """The school's risk assessment for the drill: it owns it and signs it."""

    hazards: tuple[Hazard, ...]
    owner: str
    review: str  # date as YYYY-MM-DD
    eye_protection: str  # the marking the school requires
    invented: bool = True
    file: str = ""
    signed: str = ""  # date as YYYY-MM-DD, empty until the owner has signed it
    installation: tuple[InstallationCheck, ...] = ()
