"""One drill's data: speeds, chuck, stroke, contacts and pre-use check."""

from __future__ import annotations

from dataclasses import dataclass, field

from kiosk.core.model.words import Habit
from kiosk.core.units import Duration, Force, Length, Power, SpindleSpeed


@dataclass(frozen=True)
class Pulley:
    """One stepped pulley: its groove diameters from the top groove down."""

    grooves: tuple[Length, ...]


@dataclass(frozen=True)
class Pulleys:
    """The belt drive: motor and spindle pulley, their diameters `outside` or `effective`.

    `correction` is what an outside diameter exceeds the effective one by. With `idler`, a stepped
    pulley on a third shaft, one belt runs from the motor to it and a second on to the spindle.
    """

    motor_speed: SpindleSpeed
    motor: Pulley
    spindle: Pulley
    measured: str = "effective"
    correction: Length = Length(0.0)
    idler: Pulley | None = None


@dataclass(frozen=True)
class ContactPair:
    """One input's contacts: discrete-input numbers of the make and the break contact.

    One of the two may be missing: then the other state can only be *unknown*.
    """

    make: int | None = None
    on_break: int | None = None


@dataclass(frozen=True)
class ContactTimes:
    """The times of contact evaluation, all in the machine file (defaults: design of contacts)."""

    debounce: Duration = Duration(0.050)
    samples: int = 3
    gap: Duration = Duration(0.5)
    discrepancy: Duration = Duration(1.0)
    stale: Duration = Duration(2.0)
    chatter_per_min: int = 20


@dataclass(frozen=True)
class Wiring:
    """How the contacts reach the kiosk: `modbus`, `lines` or `none`, and each input's contacts.

    `function` is the Modbus function asked: 1 coils, 2 discrete inputs, 3 holding registers, whose
    bits are counted on: bit 0 of register 1 is contact 16. `parity` is `none`, `even` or `odd`.
    """

    reader: str = "none"
    unit: int = 1
    baud: int = 9600
    inputs: tuple[tuple[str, ContactPair], ...] = ()
    times: ContactTimes = field(default_factory=ContactTimes)
    function: int = 2
    parity: str = "none"

    def has(self, name: str) -> bool:
        """Whether the input called `name` is wired."""
        return any(n == name for n, _ in self.inputs)


@dataclass(frozen=True)
class CheckItem:
    """One item of the pre-use check: a short id and the line an adult reads."""

    id: str
    line: str


@dataclass(frozen=True)
class Machine:
    """One drill's data, as its plate and its school say."""

    id: str
    name: str
    invented: bool
    speeds: tuple[SpindleSpeed, ...]  # groove 1 (top) first; the plate's order; the dial's marks
    pulleys: Pulleys | None
    chuck_capacity: Length
    keyed_chuck: bool
    stroke: Length
    throat: Length
    motor: Power
    depth_stop: bool
    extraction: str  # `fixed extraction`, `vacuum` or `none`
    habit: Habit
    run_down: Duration
    wiring: Wiring
    pre_use: tuple[CheckItem, ...]
    holding: tuple[str, ...]  # `vice`, `clamps`
    spell_allowed: bool = True
    file: str = ""
    drive: str = "one belt"  # `one belt`, `two belts`, `dial`
    positions: tuple[tuple[int, int], ...] = ()  # two belts: the grooves of each speed
    motor_speed: SpindleSpeed | None = None  # rated, from the motor's plate
    table_nearest: Length | None = None  # from the chuck's nose to the table, raised
    table_furthest: Length | None = None  # the same, lowered
    vice_bed: Length | None = None  # from the table up to the bed that work in its vice lies on
    belt_slip: Force | None = None  # the pull at which the belt slips, where it was measured
    alike: str = ""  # one word for all drills that are alike: they share training levels

    @property
    def family(self) -> str:
        """The word under which training levels on this machine count."""
        return self.alike or self.id
