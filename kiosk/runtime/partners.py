"""What the loop asks of others: of the record, and of those who run errands for it."""

from __future__ import annotations

from typing import Any, Protocol

from kiosk.core.events import Entry
from kiosk.core.inputs import Input
from kiosk.core.kiosk import Kiosk
from kiosk.core.plan.shape import Plan


class Keeper(Protocol):
    """What the loop asks of the record."""

    @property
    def head(self) -> tuple[int, str]: ...

    def append(
        self, entries: tuple[Entry, ...], kiosk: Kiosk, plan: Plan | None = None
    ) -> None: ...

    def keep_language(self, ref: str, language: str) -> None: ...

    def keep_habits(self, ref: str, habits: str) -> None: ...

    def keep_note(self, what: str, hazard: str, text: str) -> tuple[str, str]: ...


class Errands(Protocol):
    """Slow work done elsewhere; each answer comes back through the inbox."""

    def check_pin(self, adult: str, digits: str) -> None: ...

    def check_badge(self, digits: str) -> None: ...

    def check_code(self, adult: str, digits: str) -> None: ...

    def issue(self, adult: str, what: str, by: str, digits: str) -> None: ...

    def name_adult(self, name: str, role: str, kiosk: Kiosk) -> str: ...

    def download(self, span: str) -> None: ...

    def look_at_stick(self) -> None: ...

    def take_package(self, package: str, by: str) -> None: ...

    def read_sheet(self, sheet: str) -> None: ...

    def write_sheet(self, sheet: str) -> None: ...

    def restart(self) -> None: ...

    def carry_out(self, request: dict[str, Any], kiosk: Kiosk) -> tuple[Input | None, Any]: ...


class Fault(Exception):
    """The record can't be written; `why` is a short word. Raised by the keeper."""

    why = "failing"
