"""What an event has done elsewhere, once it is on the card."""

from __future__ import annotations

from kiosk.core.events import (
    DownloadAsked,
    Event,
    PackageAccepted,
    PackageAsked,
    RestartAsked,
    SheetAccepted,
    SheetAsked,
)
from kiosk.runtime.partners import Errands
from kiosk.runtime.typed import Typed


def send(errands: Errands, typed: Typed, event: Event) -> None:
    """Have done what the event asks for, with the digits that were typed for it."""
    match event:
        case DownloadAsked(_, span):
            errands.download(span)
        case PackageAsked():
            errands.look_at_stick()
        case PackageAccepted(adult, package):
            errands.take_package(package, adult)
        case SheetAsked(_, sheet):
            errands.read_sheet(sheet)
        case SheetAccepted(_, sheet):
            errands.write_sheet(sheet)
        case RestartAsked():
            errands.restart()
        case _:
            typed.send(errands, event)
