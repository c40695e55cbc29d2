"""Tapping and clearance sizes of metric screws, and how near the school's set comes to them."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import listed, written
from kiosk.core.model import BitKind
from kiosk.core.units import Length

TAPPING_SOURCE = "ISO 2306 tapping sizes for coarse threads"
CLEARANCE_SOURCE = "ISO 273 clearance holes, medium"
FINE_SOURCE = "ISO 273 clearance holes, fine"


@dataclass(frozen=True)
class Screw:
    """One coarse metric thread: outside and pitch, the tapping drill, the clearance holes."""

    name: str
    outside: Length
    pitch: Length
    tapping: Length
    fine: Length
    medium: Length
    coarse: Length


def _screw(name: str, *mm: float) -> Screw:
    return Screw(name, *(Length(each) for each in mm))


# Pitch and tapping size: ISO 2306 (from memory; a web chart and a maker's table read). Where
# American charts give M12 10.3 mm, the gentler 10.2 of ISO stands: the thread is the fuller.
# Clearance fine, medium, coarse: ISO 273.
SCREWS = (
    _screw("M2", 2, 0.4, 1.6, 2.2, 2.4, 2.6),
    _screw("M2.5", 2.5, 0.45, 2.05, 2.7, 2.9, 3.1),
    _screw("M3", 3, 0.5, 2.5, 3.2, 3.4, 3.6),
    _screw("M4", 4, 0.7, 3.3, 4.3, 4.5, 4.8),
    _screw("M5", 5, 0.8, 4.2, 5.3, 5.5, 5.8),
    _screw("M6", 6, 1.0, 5.0, 6.4, 6.6, 7.0),
    _screw("M8", 8, 1.25, 6.8, 8.4, 9.0, 10.0),
    _screw("M10", 10, 1.5, 8.5, 10.5, 11.0, 12.0),
    _screw("M12", 12, 1.75, 10.2, 13.0, 13.5, 14.5),
)


def screw_of(name: str) -> Screw | Refused:
    """The screw called `name`, such as M6."""
    found = next((screw for screw in SCREWS if screw.name == name.upper()), None)
    if found is None:
        return Refused(f"no screw {name!r} is known", ", ".join(screw.name for screw in SCREWS))
    return found


def tapping_figure(screw: Screw) -> Figure:
    """The drill for a thread to be cut, checked in the working against outside less pitch."""
    working = (
        f"{screw.name}: {written(screw.outside)} - {written(screw.pitch)} pitch is about"
        f" {written(Length(screw.outside.mm - screw.pitch.mm))}, tabled {written(screw.tapping)}"
    )
    return Figure("tapping size", screw.tapping, working, TAPPING_SOURCE)


def clearance_figure(screw: Screw) -> Figure:
    """The hole a screw goes through freely: medium, with fine and coarse in the working."""
    three = listed((screw.fine, screw.medium, screw.coarse))
    working = f"{screw.name}: fine, medium, coarse {three}"
    return Figure("clearance size", screw.medium, working, CLEARANCE_SOURCE)


def made_for(diameter: Length) -> tuple[Figure, ...]:
    """The screws that a hole of this diameter is a tapping or clearance hole for."""
    found: list[Figure] = []
    for screw in SCREWS:
        if _same(screw.tapping, diameter):
            found.append(tapping_figure(screw))
        if _same(screw.fine, diameter) or _same(screw.medium, diameter):
            found.append(clearance_figure(screw))
    return tuple(found)


def nearest_sizes(bit: BitKind, diameter: Length) -> tuple[Length, ...]:
    """The sizes of the set just under and just over a diameter, the nearer one first."""
    under = max((size for size in bit.sizes if size <= diameter), default=None)
    over = min((size for size in bit.sizes if size > diameter), default=None)
    both = [size for size in (under, over) if size is not None]
    return tuple(sorted(both, key=lambda size: abs(size.mm - diameter.mm)))


def size_error(size: Length, wanted: Length) -> str:
    """How far a size is from the one wanted: `0.2 mm under`."""
    word = "over" if size > wanted else "under"
    return f"{written(Length(abs(size.mm - wanted.mm)))} {word}"


def size_figure(bit: BitKind, diameter: Length) -> Figure | Refused:
    """The nearest bit in the set to a diameter, and its error."""
    near = nearest_sizes(bit, diameter)
    if not near:
        return Refused(f"no sizes of {bit.name} are listed for this school")
    exact = _same(near[0], diameter)
    working = "in the set" if exact else f"nearest in the set, {size_error(near[0], diameter)}"
    return Figure("bit", near[0], working, f"the school's set of {bit.name}s")


def _same(one: Length, other: Length) -> bool:
    return abs(one.mm - other.mm) < 1e-6
