"""What `pillarside install` changes on a computer, each change with its way back."""

from __future__ import annotations

from kiosk.installing.changes import Change, File, Folder, Masked, Mounted, Packages, Unit, User
from kiosk.installing.computer import CannotInstall, Computer
from kiosk.installing.fitting import unfit
from kiosk.installing.journal import Journal
from kiosk.installing.wanted import Wanted, all_changes, refusals

__all__ = [
    "CannotInstall",
    "Change",
    "Computer",
    "File",
    "Folder",
    "Journal",
    "Masked",
    "Mounted",
    "Packages",
    "Unit",
    "User",
    "Wanted",
    "all_changes",
    "refusals",
    "unfit",
]
