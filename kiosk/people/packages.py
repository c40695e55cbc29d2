"""A package taken in: what its lists of people lead to, all together or not at all.

The same for the running kiosk and for a closed record.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Protocol

from kiosk.core.inputs import PackageIn
from kiosk.core.kiosk import Kiosk
from kiosk.core.model import Adult
from kiosk.core.problems import Place, Problem
from kiosk.people.issuing import LONGEST_NAME, named
from kiosk.people.taking_in import Lists, group_from_plain, take_in

Answer = tuple[PackageIn, dict[str, Any]]
LAST_TECHNICIAN = "it would revoke the only technician; issue another one first"


class Keeping(Lists, Protocol):
    """What is asked of the record."""

    def adults(self) -> tuple[Adult, ...]: ...


def package_in(record: Keeping, kiosk: Kiosk, request: Mapping[str, Any], by: str) -> Answer:
    """What the record's log is to be told of a package, and the answer to whoever asked.

    `request` has its `package`, `made_us`, `parts`, `groups`, `names` and `revoked`, as
    `pillarside take-in` sends it.
    """
    package, made_us = str(request["package"]), int(request["made_us"])
    refs = tuple(a.ref for a in known_of(record.adults(), request["revoked"]))
    if kiosk.adults.technicians and not set(kiosk.adults.technicians) - set(refs):
        refused = PackageIn(by, package, made_us, why="last_technician")
        return refused, {"ok": False, "why": LAST_TECHNICIAN}
    parts = tuple(map(str, request["parts"]))
    roster = None
    if "roster" in parts:
        groups = [group_from_plain(plain) for plain in request["groups"]]
        roster = take_in(record, groups, bool(request["names"]), by)
    return PackageIn(by, package, made_us, parts, roster, refs), {"ok": True}


def known_of(adults: Iterable[Adult], names: Iterable[str]) -> tuple[Adult, ...]:
    """The adults of these names who are kept here; a stick goes round many drills."""
    known = tuple(adults)
    found = (named(known, name) for name in names)
    return tuple(adult for adult in found if adult is not None)


def revoked_of(file: str, raw: bytes) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """The names of adults who are to be let in no more, one a line; # begins a remark."""
    try:
        lines = raw.decode("utf-8-sig").splitlines()
    except UnicodeError:
        return (), (Problem(Place(file), "letters that can't be read", "text in UTF-8"),)
    names = [(n, " ".join(line.partition("#")[0].split())) for n, line in enumerate(lines, 1)]
    wrong = [n for n, name in names if len(name) > LONGEST_NAME or not name.isprintable()]
    allowed = f"one name a line, at most {LONGEST_NAME} letters"
    problems = tuple(Problem(Place(file, n), "no name", allowed) for n in wrong)
    found = tuple(name for _, name in names if name)
    if not found:
        problems = (Problem(Place(file), "no names in it", allowed),)
    return found, problems
