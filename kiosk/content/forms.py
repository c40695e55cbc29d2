"""The forms of the YAML files: which keys each may have, and what they mean.

Every class here is a mapping as a technician writes it; `sequences/README.md` explains each
key. `made` turns them into the values of `core.model`.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.content.risk_forms import (
    AssessmentForm,
    ChecksForm,
    ControlForm,
    HazardForm,
    InstallationForm,
)
from kiosk.content.stock_forms import (
    BandForm,
    BitForm,
    CuttingForm,
    FeedForm,
    MaterialForm,
    ReachForm,
)
from kiosk.content.values import (
    Baud,
    Depth,
    Extraction,
    Id,
    Measured,
    ModbusFunction,
    Parity,
    Path,
    Picture,
    Reader,
    StepPart,
    Way,
    Who,
    Whole,
)
from kiosk.core.model import Fact, Habit, Level, Needs, Part, Work
from kiosk.core.units import Duration, Force, Length, Power, SpindleSpeed

Texts = tuple[str, ...]


@dataclass(frozen=True)
class HoleForm:
    """Holes of one kind in a job."""

    id: Id
    bit: str
    diameter: Length
    depth: Depth
    count: Whole = Whole(1)
    after: Id | None = None
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
    idler: tuple[Length, ...] | None = None
    measured: Measured = Measured("effective")
    correction: Length = Length(0.0)
    line: int = 0


@dataclass(frozen=True)
class PlateForm:
    """One speed of a drill with two belts, and the groove that each lies in."""

    speed: SpindleSpeed
    motor_belt: Whole
    spindle_belt: Whole
    line: int = 0


@dataclass(frozen=True)
class DialForm:
    """A variable-speed drill's dial and the step between its marks."""

    slowest: SpindleSpeed
    fastest: SpindleSpeed
    step: SpindleSpeed
    line: int = 0


@dataclass(frozen=True)
class TableForm:
    """How near and how far the table goes from the chuck's nose."""

    nearest: Length
    furthest: Length
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
    plate: tuple[PlateForm, ...] | None = None
    dial: DialForm | None = None
    pulleys: PulleysForm | None = None
    motor_speed: SpindleSpeed | None = None
    table: TableForm | None = None
    vice_bed: Length | None = None
    belt_slip: Force | None = None
    contacts: ContactsForm | None = None
    spell: bool = True
    alike: Id | None = None
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
    picture: Picture
    at: tuple[Path, ...] = ()
    after: str | None = None
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
class WordForm:
    """One shop word in `languages/glossary.yaml`; its id is the key it stands under."""

    means: str
    forms: Texts
    line: int = 0


@dataclass(frozen=True)
class RecoveryForm:
    """A file in `recovery/`; its name is the trouble's."""

    title: str
    now: Texts
    steps: tuple[StepForm, ...]
    line: int = 0


FORMS: tuple[type, ...] = (
    MachineForm,
    PulleysForm,
    PlateForm,
    DialForm,
    TableForm,
    ContactsForm,
    ContactForm,
    TimesForm,
    MaterialForm,
    BandForm,
    CuttingForm,
    BitForm,
    FeedForm,
    ReachForm,
    JobForm,
    HoleForm,
    DrillingForm,
    StepForm,
    RecoveryForm,
    AssessmentForm,
    HazardForm,
    ControlForm,
    InstallationForm,
    ChecksForm,
    WordForm,
)
