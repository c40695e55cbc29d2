"""A roster taken in: whom it is about by reference, and what will change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any, Protocol

from kiosk.core.inputs import RosterRead
from kiosk.core.model import Group, Level, Pupil
from kiosk.people.roster import RosterGroup, RosterPupil, with_refs


class Refs(Protocol):
    """What is asked of the record for references."""

    def pupil_refs(self, group: str, numbers: Iterable[int]) -> dict[int, str]: ...


class Lists(Refs, Protocol):
    """What is asked of the record that keeps the roster."""

    def groups(self) -> tuple[Group, ...]: ...

    def prepare_groups(self, groups: Sequence[Group], names: bool, started: str) -> None: ...


def take_in(
    record: Lists, groups: Sequence[RosterGroup], names: bool, by: str, started: str = ""
) -> RosterRead:
    """What the record's log is to be told of a roster; told so, it stands for the one before."""
    before, after = record.groups(), resolved(record, groups)
    record.prepare_groups(after, names, started)
    return roster_read(before, after, by)


@dataclass(frozen=True)
class Changes:
    """One line for each pupil who comes, changes or leaves."""

    added: tuple[str, ...]
    changed: tuple[str, ...]
    left: tuple[str, ...]


def resolved(record: Refs, groups: Sequence[RosterGroup]) -> tuple[Group, ...]:
    """The groups with the record's lasting references; new numbers get one."""
    homes = {g.id: [p.number for p in g.pupils if p.same is None] for g in groups}
    refs = {id: record.pupil_refs(id, numbers) for id, numbers in homes.items()}
    elsewhere = {(id, n): ref for id, of in refs.items() for n, ref in of.items()}
    return tuple(with_refs(g, refs[g.id], elsewhere) for g in groups)


def without_names(groups: Sequence[RosterGroup]) -> tuple[RosterGroup, ...]:
    """The groups as a school has them that does not want names at the drill."""
    return tuple(replace(g, pupils=tuple(replace(p, name="") for p in g.pupils)) for g in groups)


def unresolved(groups: Sequence[RosterGroup]) -> tuple[Group, ...]:
    """The groups with a stand-in for each reference: for a preview that changes nothing."""
    return resolved(_NoRecord(), groups)


class _NoRecord:
    def pupil_refs(self, group: str, numbers: Iterable[int]) -> dict[int, str]:
        return {n: f"{group} {n}" for n in numbers}


def changes(before: Sequence[Group], after: Sequence[Group], names: bool) -> Changes:
    """What taking `after` in changes, by group and number. Names only where they are imported."""
    old, new = dict(_places(before)), dict(_places(after))
    added = [f"{place}: {_said(p, names)}" for place, p in new.items() if place not in old]
    left = [place for place in old if place not in new]
    both = [(place, old[place], p) for place, p in new.items() if place in old]
    changed = [f"{place}: {what}" for place, o, n in both if (what := _change(o, n, names))]
    return Changes(tuple(added), tuple(changed), tuple(left))


def is_same(before: Sequence[Group], after: Sequence[Group]) -> bool:
    """Whether both say the same, also of names and of who is in two groups; not in which order."""
    return _by_place(before) == _by_place(after)


def _by_place(groups: Sequence[Group]) -> dict[tuple[str, str, int], Pupil]:
    """Every place with its pupil, whose reference is where the same pupil is met first."""
    found = (((g.id, g.name, p.number), p) for g in groups for p in g.pupils)
    places = sorted(found, key=lambda one: one[0])
    first: dict[str, str] = {}
    for place, pupil in places:
        first.setdefault(pupil.ref, str(place))
    return {place: replace(pupil, ref=first[pupil.ref]) for place, pupil in places}


def _places(groups: Sequence[Group]) -> Iterator[tuple[str, Pupil]]:
    for group in groups:
        yield from ((f"{group.name} {p.number}", p) for p in group.pupils)


def _said(pupil: Pupil, names: bool) -> str:
    name = (pupil.name,) if names and pupil.name else ()
    return ", ".join((pupil.level.value, *_flags(pupil), *name))


def _flags(pupil: Pupil) -> tuple[str, ...]:
    told = ("adult always beside", pupil.beside), ("visitor", pupil.visitor)
    return tuple(word for word, stands in told if stands)


def _change(old: Pupil, new: Pupil, names: bool) -> str:
    told = []
    if old.level is not new.level:
        told.append(f"the file says {new.level.value}; what was granted at the drill stands")
    if _flags(old) != _flags(new):
        told.append(", ".join(_flags(new)) or "no longer flagged in the file")
    if names and old.name != new.name:
        told.append(f"name {new.name!r}")
    return "; ".join(told)


def roster_read(before: Sequence[Group], after: Sequence[Group], by: str) -> RosterRead:
    """What the record is told of a roster taken in: counts, and levels and flags by reference.

    No name and no list number is in it.
    """
    found = changes(before, after, names=False)
    pupils = {p.ref: p for g in after for p in g.pupils}
    levels = tuple((ref, p.level.word) for ref, p in pupils.items() if not p.visitor)
    return RosterRead(
        by,
        len(pupils),
        len(found.added),
        len(found.changed),
        len(found.left),
        levels,
        tuple(ref for ref, p in pupils.items() if p.beside),
    )


# --- over the local socket -----------------------------------------------------------------------


def group_as_plain(group: RosterGroup) -> dict[str, Any]:
    """A group as a line of JSON can hold it."""
    pupils = [asdict(p) | {"level": p.level.value} for p in group.pupils]
    return {"id": group.id, "name": group.name, "pupils": pupils}


def group_from_plain(plain: Mapping[str, Any]) -> RosterGroup:
    """The group that `group_as_plain` told."""
    pupils = (
        RosterPupil(**{**p, "level": Level(p["level"]), "same": _place(p["same"])})
        for p in plain["pupils"]
    )
    return RosterGroup(plain["id"], plain["name"], tuple(pupils))


def _place(same: Sequence[Any] | None) -> tuple[str, int] | None:
    return (str(same[0]), int(same[1])) if same else None
