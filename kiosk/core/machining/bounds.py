"""Whether a number can be meant at all, before anything is worked out from it.

`fits` asks this first, so that nought, a slip of the keyboard or no number at all becomes one
clear refusal and never a number on a screen. The limits are what a pillar drill can meet at all;
what suits one machine is the business of `fitting`.
"""

from __future__ import annotations

from math import isfinite

from kiosk.core.machining.worked import Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import Work
from kiosk.core.units import Feed, Length, Quantity, SpindleSpeed

DIAMETERS = (Length(0.3), Length(100.0))
DEPTHS = (Length(0.1), Length(400.0))
THICKNESSES = (Length(0.2), Length(400.0))
ACROSS = (Length(1.0), Length(3000.0))  # width and length of the work
SPEEDS = (SpindleSpeed(20.0), SpindleSpeed(20_000.0))
FEEDS = (Feed(0.001), Feed(5.0))


def number_of(quantity: Quantity) -> float:
    """The plain number of a quantity, in its own unit."""
    number: float = next(iter(vars(quantity).values()))
    return number


def over_nought(what: str, quantity: Quantity) -> float:
    """The plain number if it is finite and over nought; ValueError says what is wrong."""
    number = number_of(quantity)
    if not isfinite(number):
        raise ValueError(f"the {what} is not a number")
    if number <= 0:
        raise ValueError(f"the {what} must be over 0, found {written(quantity)}")
    return number


def unfit(what: str, quantity: Quantity, limits: tuple[Quantity, Quantity]) -> Refused | None:
    """Why this quantity can't be meant, with the nearest that can, or None."""
    number = number_of(quantity)
    if number_of(limits[0]) <= number <= number_of(limits[1]):
        return None
    if not isfinite(number):
        span = f"{written(limits[0])} to {written(limits[1])}"
        return Refused(f"the {what} is not a number", span)
    if number <= 0:
        return Refused(f"the {what} must be over 0, found {written(quantity)}", written(limits[0]))
    is_under = number < number_of(limits[0])
    end, way = (limits[0], "under") if is_under else (limits[1], "over")
    excess = type(quantity)(abs(number - number_of(end)))
    wrong = f"a {what} of {written(quantity)} is {written(excess)} {way} what a drill can meet"
    return Refused(wrong, written(end))


def unfit_hole(diameter: Length, depth: Length | None) -> Refused | None:
    """Why a hole of this size can't be meant, or None; `depth` None goes right through."""
    wrong = unfit("diameter", diameter, DIAMETERS)
    return wrong or (None if depth is None else unfit("depth", depth, DEPTHS))


def unfit_work(work: Work) -> Refused | None:
    """Why work of this size can't be meant, or None."""
    return (
        unfit("thickness", work.thickness, THICKNESSES)
        or unfit("width", work.width, ACROSS)
        or unfit("length", work.length, ACROSS)
        or _unfit_wall(work)
    )


def _unfit_wall(work: Work) -> Refused | None:
    if work.wall is None:
        return None
    half = Length(work.thickness.mm / 2)
    if 0 < work.wall.mm < half.mm:
        return None
    wrong = f"a tube {written(work.thickness)} across has no wall of {written(work.wall)}"
    return Refused(wrong, f"under {written(half)}")
