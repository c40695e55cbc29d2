"""From the record back to the risk assessment: what one or more logs add up to.

`report` goes through each log once, in little memory, and gives a `Report`: plain counts that
`export` puts into tables, charts and remarks. Nothing in it singles out one pupil or one adult,
and no adult's time is measured.
"""

from __future__ import annotations

from kiosk.core.report.clock import ClockRemark, DayOf, Offsets, corrected
from kiosk.core.report.folding import Known, Log, report
from kiosk.core.report.small import LEAST, UseRow
from kiosk.core.report.tally import Counts, Ranks
from kiosk.core.report.values import ChainFault, Drill, NoteRow, Report, StepRow, Times

__all__ = [
    "LEAST",
    "ChainFault",
    "ClockRemark",
    "Counts",
    "DayOf",
    "Drill",
    "Known",
    "Log",
    "NoteRow",
    "Offsets",
    "Ranks",
    "Report",
    "StepRow",
    "Times",
    "UseRow",
    "corrected",
    "report",
]
