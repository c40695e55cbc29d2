"""Report values to files: the download, its workbook, table and page, and proving one.

The same stick brings a package in: `bring` copies it and checks it whole.
"""

from __future__ import annotations

from kiosk.export.bringing import Brought, PackageFault, amiss, bring, clear_copies
from kiosk.export.download import make_download
from kiosk.export.faults import DownloadFault
from kiosk.export.manifest import About
from kiosk.export.package import Package, write_package
from kiosk.export.sticks import Stick, find_stick
from kiosk.export.verifying import Verdict, verify

__all__ = [
    "About",
    "Brought",
    "DownloadFault",
    "Package",
    "PackageFault",
    "Stick",
    "Verdict",
    "amiss",
    "bring",
    "clear_copies",
    "find_stick",
    "make_download",
    "verify",
    "write_package",
]
