"""The workshop with what the record has in place of its files: data that a technician set, jobs
that teachers made."""

from __future__ import annotations

from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import Machine
from kiosk.core.units import Duration, Length
from kiosk.core.values import replace

DATA = ("run_down", "spell", "widest")

NO_LIMIT_UM = 1_000_000


def fitted(shop: Shop, kiosk: Kiosk) -> Shop:
    """The shop as it stands once what was set at the screen counts."""
    if kiosk.made.jobs:
        jobs = (*shop.content.jobs, *(made.job for made in kiosk.made.jobs))
        shop = replace(shop, content=replace(shop.content, jobs=jobs))
    if not kiosk.care.data:
        return shop
    return replace(shop, machine=_machine(shop.machine, kiosk.care.data))


def _machine(machine: Machine, data: tuple[tuple[str, int], ...]) -> Machine:
    """The file may be tighter than what was set; then the file stands."""
    said = dict(data)
    run_down = Duration(max(machine.run_down.s, said.get("run_down", 0) / 1000))
    spell = machine.spell_allowed and bool(said.get("spell", 1))
    chuck = Length.from_um(min(machine.chuck_capacity.um, said.get("widest", NO_LIMIT_UM)))
    return replace(machine, run_down=run_down, spell_allowed=spell, chuck_capacity=chuck)
