"""Materials, bits, the piece of work and the job."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.units import Angle, Feed, Length, SpindleSpeed


@dataclass(frozen=True)
class SpeedBand:
    """A published band of cutting speed in metres a minute for one kind of bit."""

    bit: str
    low: float
    high: float
    source: str


@dataclass(frozen=True)
class Material:
    """A material, how fast it may be cut, how it is marked, and what it gives off."""

    id: str
    name: str
    family: str  # `metal`, `wood`, `plastic`
    bands: tuple[SpeedBand, ...]
    marking: str  # `centre punch`, `pencil`, `felt pen`
    swarf: str  # `curls`, `chips`, `dust`
    dust: bool
    fluid: str  # `cutting fluid`, `none`
    brittle: bool = False
    lift_every: Length = Length(0.0)  # 0: no lifting before the end


@dataclass(frozen=True)
class BitKind:
    """A kind of bit: its point, its range, its own top speed and how pupils may use it."""

    id: str
    name: str
    smallest: Length
    largest: Length
    point: Angle
    top_speed: SpindleSpeed
    floor_speed: SpindleSpeed
    sizes: tuple[Length, ...]
    families: tuple[str, ...]
    adult_beside: bool = False  # hole saw, flat, Forstner: an adult beside, whatever the level
    feed: tuple[tuple[Length, Feed], ...] = ()  # up to this diameter, this feed; smallest first
    source: str = ""
    shank: Length | None = None  # what the chuck grips; None: as thick as the bit


@dataclass(frozen=True)
class Work:
    """The piece: its shape and size. A bar lies on its broad side; `thickness` is up and down."""

    shape: str  # `bar`, `sheet`, `block`, `round bar`, `tube`, `small part`
    width: Length
    thickness: Length
    length: Length


@dataclass(frozen=True)
class Hole:
    """Holes of one kind in a job. `depth` None means through."""

    id: str
    bit: str
    diameter: Length
    depth: Length | None
    count: int

    @property
    def is_through(self) -> bool:
        """Whether the hole goes right through."""
        return self.depth is None


@dataclass(frozen=True)
class Job:
    """What a pupil makes: material, work and its holes."""

    id: str
    name: str
    material: str
    work: Work
    holes: tuple[Hole, ...]
    invented: bool = True
    file: str = ""
