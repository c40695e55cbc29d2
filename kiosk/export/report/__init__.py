"""A report as people read it: remarks, tables and charts, on a page and in a workbook."""

from __future__ import annotations

from kiosk.export.report.names import Told, told_by
from kiosk.export.report.page import Made, report_page
from kiosk.export.report.remarks import amiss
from kiosk.export.report.story import Story, story
from kiosk.export.report.workbook import add_report, write_report

__all__ = [
    "Made",
    "Story",
    "Told",
    "add_report",
    "amiss",
    "report_page",
    "story",
    "told_by",
    "write_report",
]
