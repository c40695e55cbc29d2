"""The forms of `materials.yaml` and `bits.yaml`: what is cut, and what cuts it."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.content.values import Cuts, Family, Fluid, Marking, Number, Swarf
from kiosk.core.units import Angle, CuttingSpeed, Feed, Length, Pressure, SpindleSpeed


@dataclass(frozen=True)
class BandForm:
    """One published band of cutting speed, in `materials.yaml`."""

    bit: str
    low: CuttingSpeed
    high: CuttingSpeed
    source: str
    line: int = 0


@dataclass(frozen=True)
class CuttingForm:
    """What a material asks of the drill, in `materials.yaml`."""

    pressure: Pressure
    friction: Number
    source: str
    exponent: Number = Number(0.0)
    thrust: Number | None = None
    line: int = 0


@dataclass(frozen=True)
class MaterialForm:
    """One material in `materials.yaml`; its id is the key it stands under."""

    name: str
    family: Family
    bands: tuple[BandForm, ...]
    marking: Marking
    swarf: Swarf
    dust: bool
    fluid: Fluid
    brittle: bool = False
    lift_every: Length = Length(0.0)
    feed_share: Number = Number(1.0)
    cutting: CuttingForm | None = None
    fluid_kind: str = ""
    heat: str = ""
    dust_class: str = ""
    line: int = 0


@dataclass(frozen=True)
class FeedForm:
    """One row of a bit's feed table: up to this diameter, this feed."""

    up_to: Length
    feed: Feed
    line: int = 0


@dataclass(frozen=True)
class ReachForm:
    """One row of a bit's lengths: up to this diameter, whole length and flute."""

    up_to: Length
    length: Length
    flute: Length
    line: int = 0


@dataclass(frozen=True)
class BitForm:
    """One kind of bit in `bits.yaml`; its id is the key it stands under."""

    name: str
    smallest: Length
    largest: Length
    point: Angle
    top_speed: SpindleSpeed
    floor_speed: SpindleSpeed
    sizes: tuple[Length, ...]
    families: tuple[Family, ...]
    source: str
    feed: tuple[FeedForm, ...] = ()
    reach: tuple[ReachForm, ...] = ()
    shank: Length | None = None
    lead: Length | None = None
    thickest: Length | None = None
    cuts: Cuts = Cuts("whole hole")
    chisel_edge: bool = False
    through_only: bool = False
    adult_beside: bool = False
    line: int = 0
