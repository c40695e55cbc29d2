"""Whether a school's materials, bits, machines and checks keep within what is shipped.

Each row of a table is a key, the question whether the new value is looser than the shipped one,
and why that matters. A key in no table and not free must stay as it is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields
from typing import Any, TypeAlias

from kiosk.content.forms import (
    BandForm,
    BitForm,
    ChecksForm,
    MachineForm,
    MaterialForm,
    TimesForm,
)
from kiosk.content.library import Filed
from kiosk.core.model import Level
from kiosk.core.problems import Place, Problem

Looser: TypeAlias = Callable[[Any, Any], bool]
Row: TypeAlias = tuple[str, str, Looser, str]  # key, how the limit is said, looser, reason
Problems: TypeAlias = Iterator[Problem]

OFTEN = ("set-up", "session", "hole")
USUAL_TIMES = TimesForm()


def _more(before: Any, after: Any) -> bool:
    return bool(after > before)


def _less(before: Any, after: Any) -> bool:
    return bool(after < before)


def _turned_off(before: bool, after: bool) -> bool:
    return before and not after


def _further_apart(before: Any, after: Any) -> bool:
    return bool(before.mm > 0 and (after.mm <= 0 or after > before))


def _added(before: Any, after: Any) -> bool:
    return bool(set(after) - set(before))


def _without(kept: str) -> Looser:
    return lambda before, after: before == kept and after != kept


def _other(before: Any, after: Any) -> bool:
    return bool(before != after)


def _thicker(before: Any, after: Any) -> bool:
    return before is not None and (after is None or after > before)


MATERIAL: tuple[Row, ...] = (
    ("family", "", _other, "steps for clearing up go by it; add a material of your own"),
    ("swarf", "", _other, "steps go by it; add a material of your own"),
    ("dust", "", _turned_off, "wood dust harms lungs and nose"),
    ("brittle", "", _turned_off, "holes near an edge crack brittle sheet"),
    ("marking", "", _without("centre punch"), "a bit without a dent wanders and breaks"),
    ("fluid", "", _without("cutting fluid"), "a bit that runs dry burns and breaks"),
    ("lift_every", "at most", _further_apart, "swarf packs in a deep hole and the bit breaks"),
    ("feed_share", "at most", _more, "a bit that is pressed too hard grabs and breaks"),
)
BIT: tuple[Row, ...] = (
    ("smallest", "at least", _less, "this kind of bit is not made for it"),
    ("largest", "at most", _more, "this kind of bit is not made for it"),
    ("top_speed", "at most", _more, "a bit that runs too fast burns, grabs or breaks"),
    ("floor_speed", "at least", _less, "a bit that runs too slowly grabs"),
    ("families", "no more than", _added, "this kind of bit grabs in other materials"),
    ("adult_beside", "", _turned_off, "how often an adult looks goes by level and bit"),
    ("through_only", "", _turned_off, "this kind of bit leaves no floor"),
    ("thickest", "at most", _thicker, "this kind of bit is not made for thicker work"),
    ("cuts", "", _other, "forces go by it; add a bit of your own"),
    ("chisel_edge", "", _turned_off, "pilot holes go by it"),
)
SIZES: tuple[Row, ...] = (
    ("over", "at most", _more, "a thick bit grabs harder than a pupil can hold"),
    ("sheet_under", "at least", _less, "thin sheet grabs and lifts as the bit breaks through"),
    ("work_under", "at least", _less, "small work brings hands close to the bit"),
)
TIMES: tuple[Row, ...] = (
    ("debounce", "at least", _less, "a contact that bounces would be believed"),
    ("samples", "at least", _less, "a contact that bounces would be believed"),
    ("gap", "at most", _more, "time without samples is not stability"),
    ("discrepancy", "at most", _more, "two contacts that disagree say nothing"),
    ("stale", "at most", _more, "an old reading must not stand for what is so now"),
)


def looser_material(
    id: str, before: MaterialForm, filed: Filed[MaterialForm], shipped_bits: set[str]
) -> Problems:
    """Where a school's entry for a shipped material asks for less care."""
    yield from _rows(MATERIAL, id, before, filed.form, Place(filed.file, filed.form.line))
    bands = {str(band.bit): band for band in before.bands}
    for band in filed.form.bands:
        place = Place(filed.file, band.line)
        if band.bit in bands:
            yield from _band(id, bands[str(band.bit)], band, place)
        elif band.bit in shipped_bits:
            found = f"{id}: a band for {band.bit!s}, which is not for this material"
            yield Problem(place, found, ", ".join(bands), "a bit that does not suit grabs")


def _band(id: str, before: BandForm, after: BandForm, place: Place) -> Problems:
    was = f"{before.low.m_per_min:g} to {before.high.m_per_min:g} m/min"
    now = f"{after.low.m_per_min:g} to {after.high.m_per_min:g} m/min"
    found, fast = f"{id}: band of {before.bit!s} {now}", "a bit that runs too fast burns or grabs"
    if after.low < before.low or after.high > before.high:
        yield Problem(place, found, f"within {was}", fast)
    elif _third(after) > _third(before) + 1e-9:
        allowed = f"pupils' limit at most {_third(before):.1f} m/min, the lower third of {was}"
        yield Problem(place, found, allowed, fast)


def _third(band: BandForm) -> float:
    """The fastest that pupils go: a third of the way up the band, in m/min."""
    return band.low.m_per_min + (band.high.m_per_min - band.low.m_per_min) / 3


def looser_bit(id: str, before: BitForm, filed: Filed[BitForm]) -> Problems:
    """Where a school's entry for a shipped kind of bit allows more."""
    place = Place(filed.file, filed.form.line)
    yield from _rows(BIT, id, before, filed.form, place)
    for row in filed.form.feed:
        limits = [old.feed for old in before.feed if row.up_to <= old.up_to]
        if limits and row.feed > limits[0]:
            found = f"{id}: feed {_said(row.feed)} up to {_said(row.up_to)}"
            allowed = f"at most {_said(limits[0])}"
            yield Problem(
                Place(filed.file, row.line), found, allowed, "pressed too hard, it breaks"
            )


def looser_machine(id: str, filed: Filed[MachineForm]) -> Problems:
    """Where a school's drill would judge its contacts more loosely than is usual."""
    contacts = filed.form.contacts
    if contacts:
        place = Place(filed.file, contacts.times.line or contacts.line)
        yield from _rows(TIMES, id, USUAL_TIMES, contacts.times, place)


def looser_checks(before: ChecksForm, filed: Filed[ChecksForm]) -> Problems:
    """Where a school would have an adult look more seldom."""
    form, place = filed.form, Place(filed.file, filed.form.line)
    for level in Level:
        old, new = getattr(before, level.word), getattr(form, level.word)
        if old and new and OFTEN.index(new) < OFTEN.index(old):
            at = Place(filed.file, getattr(new, "line", place.line))
            why = "how often an adult looks goes by level and bit"
            yield Problem(at, f"{level.word}: {new!s}", _as_often(old), why)
    given = [row for row in SIZES if getattr(form, row[0]) and getattr(before, row[0])]
    yield from _rows(tuple(given), "checks", before, form, place)


def _as_often(old: str) -> str:
    return ", ".join(OFTEN[OFTEN.index(old) :])


def _rows(rows: tuple[Row, ...], id: str, before: Any, after: Any, place: Place) -> Problems:
    for key, said, looser, why in rows:
        old, new = getattr(before, key), getattr(after, key)
        if looser(old, new):
            line = getattr(new, "line", 0) or place.line
            allowed = f"{said} {_said(old)}".strip()
            yield Problem(Place(place.file, line), f"{id}: {key} {_said(new)}", allowed, why)


def _said(value: Any) -> str:
    """A value as a technician would write it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join(_said(each) for each in value)
    unit = _UNITS.get(type(value).__name__)
    if unit is None:
        return f"{value:g}" if isinstance(value, float) else str(value)
    return f"{getattr(value, fields(value)[0].name):g} {unit}"


_UNITS = {
    "Length": "mm",
    "SpindleSpeed": "rpm",
    "Feed": "mm/rev",
    "Duration": "s",
}
