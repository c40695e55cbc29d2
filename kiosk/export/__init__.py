"""Report values to files: the download, its workbook, table and page, and proving one."""

from __future__ import annotations

from kiosk.export.download import make_download
from kiosk.export.faults import DownloadFault
from kiosk.export.manifest import About
from kiosk.export.verifying import Verdict, verify

__all__ = ["About", "DownloadFault", "Verdict", "make_download", "verify"]
