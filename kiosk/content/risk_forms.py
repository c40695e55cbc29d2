"""The forms of `assessment.yaml` and `checks.yaml`: the risks, and how often an adult looks."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.content.values import CarriedOutBy, Day, Every, Interval, Risk
from kiosk.core.model import Level
from kiosk.core.units import Length

Texts = tuple[str, ...]


@dataclass(frozen=True)
class ControlForm:
    """One control measure; its id is the key it stands under."""

    text: str
    by: CarriedOutBy
    at: Texts = ()
    levels: tuple[Level, ...] = ()
    when: dict[str, Texts] | None = None
    unless: dict[str, Texts] | None = None
    line: int = 0


@dataclass(frozen=True)
class HazardForm:
    """One hazard; its id is the key it stands under."""

    name: str
    harm: str
    who: Texts
    by_year: str
    by_need: str
    residual: Risk
    controls: dict[str, ControlForm]
    also: Texts = ()
    line: int = 0


@dataclass(frozen=True)
class InstallationForm:
    """One thing looked at when the drill is put in, and again after so long."""

    look: str
    every: Interval
    out_of_use: bool = True
    line: int = 0


@dataclass(frozen=True)
class AssessmentForm:
    """The file `assessment.yaml`."""

    owner: str
    review: Day
    eye_protection: str
    signed: Day | None = None
    hazards: dict[str, HazardForm] | None = None
    installation: dict[str, InstallationForm] | None = None
    invented: bool = False
    line: int = 0


@dataclass(frozen=True)
class ChecksForm:
    """The file `checks.yaml`: how often an adult looks, by level and by what is drilled."""

    adult_beside: Every | None = None
    shown: Every | None = None
    supervised: Every | None = None
    signed_off: Every | None = None
    over: Length | None = None
    sheet_under: Length | None = None
    work_under: Length | None = None
    where: tuple[dict[str, Texts], ...] | None = None
    line: int = 0
