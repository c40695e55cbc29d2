"""No kind of event is forgotten by the report."""

from __future__ import annotations

from kiosk.core.events import RECORDED_KINDS, kind_of
from kiosk.core.report import levels, machine, others, turns

UNREAD = {
    "adult_authorised": "whom it is for would be one adult",
    "badge_tried": "how it ended is counted",
    "beside_set": "a pupil's own affair",
    "bits_counted": "only stands for lines that are gone",
    "code_tried": "how it ended is counted",
    "download_asked": "how it ended is counted",
    "job_hole_added": "the job is counted",
    "kiosk_stopped": "the start after it says how the stop was",
    "own_use_ended": "its start is counted",
    "package_accepted": "how it ended is counted",
    "package_asked": "how it ended is counted",
    "pin_tried": "how it ended is counted",
    "restart_asked": "the start after it is counted",
    "secret_asked": "what was issued is counted",
    "sheet_asked": "only read on the screen",
    "silence_ended": "its beginning is counted",
}
"""Kinds of event that no table counts, each with why."""


def test_every_kind_of_event_is_counted_or_it_is_said_why_not() -> None:
    """A new kind is in neither, so that this fails until somebody has thought of it."""
    counted = {kind_of(k) for part in (levels, machine, others, turns) for k in part.KINDS}

    assert counted.isdisjoint(UNREAD)
    assert counted | set(UNREAD) == set(RECORDED_KINDS)
