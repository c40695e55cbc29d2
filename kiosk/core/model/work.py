"""Materials, bits, the piece of work and the job."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.units import Angle, Feed, Length, Pressure, SpindleSpeed


@dataclass(frozen=True)
class SpeedBand:
    """A published band of cutting speed in metres a minute for one kind of bit."""

    bit: str
    low: float
    high: float
    source: str


@dataclass(frozen=True)
class Cutting:
    """What a material asks of the drill: its cutting pressure and how it grips the vice.

    `pressure` is for a chip 1 mm thick and rises with `exponent` as the chip gets thinner.
    `thrust` is the drill constant of the thrust formula, None where none is published.
    """

    pressure: Pressure
    exponent: float
    friction: float
    source: str
    thrust: float | None = None


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
    feed_share: float = 1.0  # of the bit's feed; under 1 in harder or weaker material
    cutting: Cutting | None = None
    fluid_kind: str = ""  # which fluid, or why none
    heat: str = ""  # a caution about heat
    dust_class: str = ""  # what the dust is and its limit


@dataclass(frozen=True)
class Reach:
    """How long bits up to a diameter are, and how much of that is flute."""

    up_to: Length
    length: Length
    flute: Length


@dataclass(frozen=True)
class BitKind:
    """A kind of bit: its point, its range, its own top speed and how pupils may use it.

    `lead` is how far the point or pilot stands below the full width, where the angle does not
    give it (flat bits, hole saws). `thickest` is the thickest work it is for.
    """

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
    lead: Length | None = None
    through_only: bool = False
    chisel_edge: bool = False  # two lips that meet in a blunt edge, as a twist bit has
    cuts: str = "whole hole"  # or `ring`, `cone`
    thickest: Length | None = None
    reach: tuple[Reach, ...] = ()  # smallest diameter first


@dataclass(frozen=True)
class Work:
    """The piece: its shape and size. A bar lies on its broad side; `thickness` is up and down.

    A round bar and a tube are as wide as they are thick; `wall` is a tube's.
    """

    shape: str  # `bar`, `sheet`, `block`, `round bar`, `tube`, `small part`
    width: Length
    thickness: Length
    length: Length
    wall: Length | None = None


@dataclass(frozen=True)
class Hole:
    """Holes of one kind in a job. `depth` None means through.

    `after` names the kind of hole of the same job that is drilled first: its pilot.
    """

    id: str
    bit: str
    diameter: Length
    depth: Length | None
    count: int
    after: str = ""

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

    def piloted_by(self, hole: int) -> tuple[int, ...]:
        """The holes, by number from 0, that hole number `hole` is the pilot of."""
        return tuple(n for n, h in enumerate(self.holes) if h.after == self.holes[hole].id)
