"""Which adult a PIN is issued to, or who is to be revoked: the same answer for the running
kiosk and for the command line.
"""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from kiosk.core.kiosk.adults import Adults
from kiosk.core.model import MAY, STANDING, Adult
from kiosk.core.problems import nearest

ROLES = tuple(MAY)
LONGEST_NAME = 40


@dataclass(frozen=True)
class NotPossible:
    """Why nothing was changed, in one line."""

    why: str


def new_ref() -> str:
    """A random reference for an adult, as events name them."""
    return f"a{secrets.token_hex(6)}"


def adult_to_issue(
    known: Iterable[Adult], adults: Adults, name: str, role: str
) -> Adult | NotPossible:
    """The adult to keep with a new PIN's hash: one already known by that name, or a new one.

    `known` are the names kept, `adults` the state that says who is revoked. A name that was
    revoked may come back in any role; one in use keeps its role.
    """
    name = " ".join(name.split())
    if not name or not name.isprintable() or len(name) > LONGEST_NAME:
        return NotPossible(f"name {name!r}; allowed: 1 to {LONGEST_NAME} letters in one line")
    if role not in ROLES:
        advice = nearest(role, ROLES)
        return NotPossible(f"role {role!r}; allowed: {', '.join(ROLES)}; {advice}".rstrip("; "))
    found = named(known, name)
    if found is None:
        return Adult(new_ref(), name, role)
    state = adults.find(found.ref)
    if state is not None and state.role != role:
        return NotPossible(f"{found.name} is a {state.role}; revoke first to change the role")
    return Adult(found.ref, found.name, role)


def adult_to_revoke(known: Iterable[Adult], adults: Adults, name: str) -> Adult | NotPossible:
    """The adult in use by that name; the last technician can't be revoked."""
    found = in_use_named(known, adults, name)
    if not isinstance(found, NotPossible) and adults.technicians == (found.ref,):
        return NotPossible(f"{found.name} is the only technician; issue another one first")
    return found


def in_use_named(known: Iterable[Adult], adults: Adults, name: str) -> Adult | NotPossible:
    """The adult of that name who can use the kiosk."""
    in_use = [a for a in known if adults.find(a.ref)]
    found = named(in_use, name)
    if found is None:
        advice = nearest(name, [a.name for a in in_use])
        names = ", ".join(a.name for a in in_use) or "nobody yet"
        return NotPossible(f"no adult named {name!r}; known: {names}; {advice}".rstrip("; "))
    return found


def ends_on(role: str, until: str, today: int) -> int | NotPossible:
    """The last day of an authorisation, as days since 1970; 0 for no end.

    `until` is a date or empty; cover, assistants and trainees must have one.
    """
    if not until:
        allowed = f"--until YYYY-MM-DD: a {role} is authorised up to a day"
        return 0 if role in STANDING else NotPossible(allowed)
    try:
        day = (date.fromisoformat(until) - date(1970, 1, 1)).days
    except ValueError:
        return NotPossible(f"until {until!r}; allowed: a date such as 2027-07-20")
    return day if day >= today else NotPossible(f"until {until}: that day has passed")


def named(known: Iterable[Adult], name: str) -> Adult | None:
    """The adult of that name, however it is spaced and capitalised."""
    wanted = " ".join(name.split()).casefold()
    return next((a for a in known if a.name.casefold() == wanted), None)
