"""The risk assessment: hazards, who may be harmed, control measures."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Control:
    """A control measure and what carries it out: steps, a house rule or an installation check."""

    id: str
    text: str
    by: str  # `step`, `house rule`, `installation check`
    line: int = 0
    file: str = ""  # empty: the assessment's own


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
    """What is looked at when the drill is put in, and again after `every`."""

    id: str
    look: str
    every: str  # such as `14 months`
    line: int = 0
    file: str = ""


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
