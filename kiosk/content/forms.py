"""The forms of the YAML files: which keys each may have, and what they mean.

Every class here is a mapping as a technician writes it; `sequences/README.md` explains each
key. `made` turns them into the values of `core.model`.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.content.values import (
    Baud,
    CarriedOutBy,
    Day,
    Depth,
    Extraction,
    Family,
    Fluid,
    Id,
    Marking,
    Measured,
    ModbusFunction,
    Parity,
    Path,
    Reader,
    Risk,
    StepPart,
    Swarf,
    Way,
    Who,
    Whole,
)
from kiosk.core.model import Fact, Habit, Level, Needs, Part, Work
from kiosk.core.units import Angle, CuttingSpeed, Duration, Feed, Length, Power, SpindleSpeed

Texts = tuple[str, ...]


@dataclass(frozen=True)
class BandForm:
    """One published band of cutting speed, in `materials.yaml`."""

    bit: str
    low: CuttingSpeed
    high: CuttingSpeed
    source: str
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
    line: int = 0


@dataclass(frozen=True)
class FeedForm:
    """One row of a bit's feed table: up to this diameter, this feed."""

    up_to: Length
    feed: Feed
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
    shank: Length | None = None
    adult_beside: bool = False
    line: int = 0


@dataclass(frozen=True)
class HoleForm:
    """Holes of one kind in a job."""

    id: Id
    bit: str
    diameter: Length
    depth: Depth
    count: Whole = Whole(1)
    line: int = 0


@dataclass(frozen=True)
class JobForm:
    """A file in `jobs/`; the job's id is the file's name."""

    name: str
    material: str
    work: Work
    holes: tuple[HoleForm, ...]
    invented: bool = False
    line: int = 0


@dataclass(frozen=True)
class PulleysForm:
    """The belt drive of a machine, grooves from the top down."""

    motor_speed: SpindleSpeed
    motor: tuple[Length, ...]
    spindle: tuple[Length, ...]
    measured: Measured = Measured("effective")
    correction: Length = Length(0.0)
    line: int = 0


@dataclass(frozen=True)
class ContactForm:
    """The contacts of one input: numbers of discrete inputs, the first is 0."""

    make: Whole | None = None
    on_break: Whole | None = None
    line: int = 0


@dataclass(frozen=True)
class TimesForm:
    """The times by which contacts are judged."""

    debounce: Duration = Duration(0.050)
    samples: Whole = Whole(3)
    gap: Duration = Duration(0.5)
    discrepancy: Duration = Duration(1.0)
    stale: Duration = Duration(2.0)
    chatter_per_min: Whole = Whole(20)
    line: int = 0


@dataclass(frozen=True)
class ContactsForm:
    """How the machine's status contacts reach the kiosk."""

    reader: Reader
    unit: Whole = Whole(1)
    baud: Baud = Baud("9600")
    parity: Parity = Parity("none")
    function: ModbusFunction = ModbusFunction("2")
    inputs: dict[str, ContactForm] | None = None
    times: TimesForm = TimesForm()
    line: int = 0


@dataclass(frozen=True)
class MachineForm:
    """A file in `machines/`; the machine's id is the file's name."""

    name: str
    chuck: Length
    keyed: bool
    stroke: Length
    throat: Length
    motor: Power
    depth_stop: bool
    extraction: Extraction
    isolator: Habit
    run_down: Duration
    holding: tuple[Way, ...]
    pre_use: dict[str, str]
    speeds: tuple[SpindleSpeed, ...] | None = None
    pulleys: PulleysForm | None = None
    contacts: ContactsForm | None = None
    spell: bool = True
    invented: bool = False
    line: int = 0


@dataclass(frozen=True)
class StepForm:
    """One step of a sequence."""

    id: Id
    part: StepPart
    title: str
    say: Texts
    see: str
    picture: str
    at: tuple[Path, ...] = ()
    note: str | None = None
    why: str | None = None
    check: str | None = None
    who: Who = Who("pupil")
    needs: Needs = Needs.NOTHING
    touches: tuple[Part, ...] = ()
    makes: tuple[Fact, ...] = ()
    controls: Texts = ()
    levels: tuple[Level, ...] = ()
    when: dict[str, Texts] | None = None
    unless: dict[str, Texts] | None = None
    line: int = 0


@dataclass(frozen=True)
class DrillingForm:
    """The file `drilling.yaml`."""

    steps: tuple[StepForm, ...]
    line: int = 0


@dataclass(frozen=True)
class RecoveryForm:
    """A file in `recovery/`; its name is the trouble's."""

    title: str
    now: Texts
    steps: tuple[StepForm, ...]
    line: int = 0


@dataclass(frozen=True)
class ControlForm:
    """One control measure; its id is the key it stands under."""

    text: str
    by: CarriedOutBy
    line: int = 0


@dataclass(frozen=True)
class HazardForm:
    """One hazard; its id is the key it stands under."""

    name: str
    harm: str
    who: Texts
    controls: dict[str, ControlForm]
    residual: Risk
    line: int = 0


@dataclass(frozen=True)
class AssessmentForm:
    """The file `assessment.yaml`."""

    owner: str
    review: Day
    eye_protection: str
    hazards: dict[str, HazardForm]
    invented: bool = False
    line: int = 0


FORMS: tuple[type, ...] = (
    MachineForm,
    PulleysForm,
    ContactsForm,
    ContactForm,
    TimesForm,
    MaterialForm,
    BandForm,
    BitForm,
    FeedForm,
    JobForm,
    HoleForm,
    DrillingForm,
    StepForm,
    RecoveryForm,
    AssessmentForm,
    HazardForm,
    ControlForm,
)
