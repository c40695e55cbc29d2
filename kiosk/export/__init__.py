"""Report values to files: the download, its workbook, table and page, and proving one."""

from __future__ import annotations

from kiosk.export.download import make_download
from kiosk.export.faults import DownloadFault
from kiosk.export.manifest import About
from kiosk.export.sticks import Stick, find_stick
from kiosk.export.verifying import Verdict, verify

__all__ = [
    "About",
    "DownloadFault",
    "Stick",
    "Verdict",
    "find_stick",
    "make_download",
    "verify",
]
