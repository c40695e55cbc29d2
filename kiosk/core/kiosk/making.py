"""The sums propose: which holes a piece of work can have here, with which bit, and what first."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import Event, JobHoleAdded, JobMade
from kiosk.core.kiosk.made import HOLE_NAME, PILOT_NAME, PREFIX, hole_of, job_of
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.machining.fitting import fits
from kiosk.core.machining.pilots import pilot_plan
from kiosk.core.model import BitKind, Hole, Job, Level, Material, Work
from kiosk.core.plan.compiling import compile_plan
from kiosk.core.plan.shape import Plan
from kiosk.core.problems import Problem
from kiosk.core.units import Length

SHAPES = ("bar", "sheet", "block", "round_bar", "small_part")
THICK_UM = tuple(
    round(mm * 1000)
    for mm in (1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 20, 25, 30, 35, 40, 45, 50)
)
WIDE_UM = tuple(mm * 1000 for mm in (10, 15, 20, 25, 30, 40, 45, 50, 60, 75, 90, 120))
LONG_UM = tuple(mm * 1000 for mm in (40, 50, 60, 75, 100, 120, 150, 200, 250, 300))
DEEP_UM = tuple(mm * 1000 for mm in (3, 5, 8, 10, 12, 15, 20, 25, 30, 40))
COUNTS = (1, 2, 3, 4, 5, 6, 8, 10, 12)
PIECE = 6  # answers about group, material, shape, thickness, width, length
HOLE = 3  # answers about one kind of hole: bit and size, depth, how many
MOST_HOLES = 4


@dataclass(frozen=True)
class Making:
    """What has been answered so far, word by word, as the desk's page has it."""

    said: tuple[str, ...]

    @classmethod
    def of(cls, about: str) -> Making:
        """The answers behind a page's `about`; a round bar is as wide as it is thick."""
        said = tuple(about.split())
        round_bar = len(said) == 4 and said[2] == "round_bar"
        return cls((*said, said[3]) if round_bar else said)

    @property
    def about(self) -> str:
        """The answers as a page's `about`."""
        return " ".join(self.said)

    @property
    def work(self) -> Work:
        """The piece of work, once it is known."""
        shape = self.said[2].replace("_", " ")
        thick, wide, long = (Length.from_um(int(um)) for um in self.said[3:PIECE])
        return Work(shape, wide, thick, long)

    @property
    def holes(self) -> tuple[tuple[str, ...], ...]:
        """The answers about each kind of hole; the last one may still be short of some."""
        rest = self.said[PIECE:]
        return tuple(rest[at : at + HOLE] for at in range(0, len(rest), HOLE))

    @property
    def is_whole(self) -> bool:
        """Whether nothing is left half-answered, and there is a hole."""
        return len(self.said) > PIECE and (len(self.said) - PIECE) % HOLE == 0


def answers(shop: Shop, making: Making) -> tuple[str, ...]:
    """What may be answered next."""
    said = making.said
    if len(said) < PIECE:
        groups = tuple(g.id for g in shop.roster.groups)
        materials = tuple(m.id for m in shop.content.materials)
        sizes = (tuple(map(str, um)) for um in (THICK_UM, WIDE_UM, LONG_UM))
        return (groups, materials, SHAPES, *sizes)[len(said)]
    at = (len(said) - PIECE) % HOLE
    if at == 0:
        return tuple(f"{bit}:{um}" for bit, um in sizes_for(shop, making))
    return depths_for(shop, making) if at == 1 else tuple(map(str, COUNTS))


def _material(shop: Shop, making: Making) -> Material | None:
    return shop.content.material(making.said[1])


def sizes_for(shop: Shop, making: Making) -> tuple[tuple[str, int], ...]:
    """Every size that fits this work on this drill, smallest first, with the bit for it.

    Of several kinds of bit the plainest is proposed; no countersinks and no steps.
    """
    material, found = _material(shop, making), dict[int, BitKind]()
    if material is None:
        return ()
    plainest = sorted(shop.content.bits, key=_plainness)
    for bit in (b for b in plainest if b.cuts != "cone"):
        for size in bit.sizes:
            if _fits(shop, making, material, bit, size, None) or _part_way(
                shop, making, material, bit, size
            ):
                found.setdefault(size.um, bit)
    return tuple((bit.id, um) for um, bit in sorted(found.items()))


def _plainness(bit: BitKind) -> tuple[bool, int, float, str]:
    """Pupils' own bits first, then those made for one family of material, then short points."""
    lead = bit.lead.mm if bit.lead else 0.0
    return bit.adult_beside, len(bit.families), lead, bit.id


def _fits(
    shop: Shop, making: Making, material: Material, bit: BitKind, size: Length, deep: Length | None
) -> bool:
    return fits(shop.machine, material, bit, size, making.work, deep) is None


def _part_way(shop: Shop, making: Making, material: Material, bit: BitKind, size: Length) -> bool:
    deep = Length.from_um(DEEP_UM[0])
    thick = making.work.thickness > deep
    return thick and _fits(shop, making, material, bit, size, deep)


def depths_for(shop: Shop, making: Making) -> tuple[str, ...]:
    """Through, written 0, and every depth that leaves a floor, as far as they fit."""
    material, (name, um) = _material(shop, making), making.said[-1].split(":")
    bit = shop.content.bit(name)
    if material is None or bit is None:
        return ()
    size, thick = Length.from_um(int(um)), making.work.thickness.um
    through = ("0",) if _fits(shop, making, material, bit, size, None) else ()
    deep = (d for d in DEEP_UM if d < thick)
    return (
        *through,
        *(str(d) for d in deep if _fits(shop, making, material, bit, size, Length.from_um(d))),
    )


# --- the job as its events -----------------------------------------------------------------------


def is_known(shop: Shop, making: Making) -> bool:
    """Whether every answer so far is one of those that were offered."""
    return all(
        word in answers(shop, Making(making.said[:at])) for at, word in enumerate(making.said)
    )


def made_events(shop: Shop, kiosk: Kiosk, making: Making, by: str) -> tuple[Event, ...]:
    """The job and its holes, each pilot as a hole of its own before the hole it is for."""
    id = f"{PREFIX}{kiosk.made.count + 1}"
    group, material, _, thick, wide, long = making.said[:PIECE]
    shape = making.work.shape
    made = JobMade(id, group, material, shape, int(thick), int(wide), int(long), by)
    holes: list[Event] = []
    for at, (what, deep, count) in enumerate(making.holes, 1):
        bit, um = what.split(":")
        for pilot in pilots_for(shop, material, bit, int(um)):
            name = f"{PILOT_NAME}{at}"
            holes.append(JobHoleAdded(id, name, bit, pilot, int(deep), int(count), by))
        name = f"{HOLE_NAME}{at}"
        holes.append(JobHoleAdded(id, name, bit, int(um), int(deep), int(count), by))
    return (made, *holes)


def pilots_for(shop: Shop, material: str, bit: str, um: int) -> tuple[int, ...]:
    """The sizes to drill first, in micrometres."""
    kind, stuff = shop.content.bit(bit), shop.content.material(material)
    if kind is None or stuff is None:
        return ()
    return tuple(p.um for p in pilot_plan(stuff, kind, Length.from_um(um)))


def job_as_made(events: tuple[Event, ...]) -> Job:
    """The job that the events will lead to."""
    holes: tuple[Hole, ...] = ()
    for event in events:
        holes += (hole_of(event, holes),) if isinstance(event, JobHoleAdded) else ()
    made = next(e for e in events if isinstance(e, JobMade))
    return job_of(made, holes)


def problems_of(shop: Shop, job: Job) -> tuple[Problem, ...]:
    """Why the job can't be made here, by any level; nothing if every plan compiles."""
    plans = (
        compile_plan(shop.content, shop.machine, job, hole, level)
        for hole in range(len(job.holes))
        for level in Level
    )
    return next((plan for plan in plans if not isinstance(plan, Plan)), ())
