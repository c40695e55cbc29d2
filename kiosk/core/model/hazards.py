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


@dataclass(frozen=True)
class Hazard:
    """A hazard with who may be harmed, its control measures and the residual risk."""

    id: str
    name: str
    harm: str
    who: tuple[str, ...]
    controls: tuple[Control, ...]
    residual: str  # `low`, `medium`, `high`
    line: int = 0


@dataclass(frozen=True)
class Assessment:
    """The school's risk assessment for the drill: it owns it and signs it."""

    hazards: tuple[Hazard, ...]
    owner: str
    review: str  # date as YYYY-MM-DD
    eye_protection: str  # the marking the school requires
    invented: bool = True
    file: str = ""
