"""Whether a machine's contacts can be read as they are written, and judged by their times."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from kiosk.content.forms import ContactsForm, TimesForm
from kiosk.core.problems import Place, Problem

UNITS = range(1, 248)  # Modbus over Serial Line V1.02, 2.2: 0 is everybody, 248 on is kept back
MOST_LINES = 2


def wired(file: str, form: ContactsForm) -> Iterator[Problem]:
    """Every problem of one machine's contacts among themselves."""
    if form.unit not in UNITS:
        yield Problem(Place(file, form.line), f"unit {form.unit}", "1 to 247")
    for name, contact in (form.inputs or {}).items():
        if contact.make is None and contact.on_break is None:
            found = f"input {str(name)!r} has no contact"
            yield Problem(Place(file, contact.line), found, "make, on_break or both")
    yield from _numbers(file, form)
    yield from _times(file, form.times)


def _numbers(file: str, form: ContactsForm) -> Iterator[Problem]:
    contacts = (form.inputs or {}).values()
    used = Counter(n for c in contacts for n in (c.make, c.on_break) if n is not None)
    for number, times in sorted(used.items()):
        if times > 1:
            found = f"contact {number} is used {times} times"
            yield Problem(Place(file, form.line), found, "each number once")
        if form.reader == "lines" and number >= MOST_LINES:
            yield Problem(Place(file, form.line), f"contact {number} with reader lines", "0, 1")


def _times(file: str, times: TimesForm) -> Iterator[Problem]:
    place = Place(file, times.line or 0)
    if not times.debounce.s < times.discrepancy.s < times.stale.s:
        said = f"{times.debounce.s:g} s, {times.discrepancy.s:g} s, {times.stale.s:g} s"
        allowed = "each longer than the one before"
        yield Problem(place, f"debounce, discrepancy, stale: {said}", allowed)
    if not times.samples or not times.chatter_per_min or times.gap.s <= 0.2:
        allowed = (
            "samples and chatter_per_min 1 or more, gap over 0.2 s, the time between two looks"
        )
        yield Problem(place, "times that no reader can meet", allowed)
