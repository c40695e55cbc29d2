"""All content together, found by id."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.model.checks import Checks
from kiosk.core.model.hazards import Assessment
from kiosk.core.model.machines import Machine
from kiosk.core.model.people import Policy
from kiosk.core.model.quiet import QuietSpan
from kiosk.core.model.steps import Sequence
from kiosk.core.model.work import BitKind, Job, Material


@dataclass(frozen=True)
class Content:
    """All that was read from the sequences folder, checked."""

    machines: tuple[Machine, ...]
    materials: tuple[Material, ...]
    bits: tuple[BitKind, ...]
    jobs: tuple[Job, ...]
    drilling: Sequence
    recoveries: tuple[Sequence, ...]
    assessment: Assessment
    checks: Checks = Checks()
    people: Policy = Policy()
    quiet: tuple[QuietSpan, ...] = ()  # the earliest first

    def machine(self, id: str) -> Machine | None:
        """The machine called `id`."""
        return next((m for m in self.machines if m.id == id), None)

    def material(self, id: str) -> Material | None:
        """The material called `id`."""
        return next((m for m in self.materials if m.id == id), None)

    def bit(self, id: str) -> BitKind | None:
        """The kind of bit called `id`."""
        return next((b for b in self.bits if b.id == id), None)

    def job(self, id: str) -> Job | None:
        """The job called `id`."""
        return next((j for j in self.jobs if j.id == id), None)

    def recovery(self, trouble: str) -> Sequence | None:
        """The recovery sequence for a trouble."""
        return next((s for s in self.recoveries if s.id == trouble), None)
