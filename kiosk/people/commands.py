"""What a command about adults leads to: the same for the running kiosk and for a closed record.

The command's secrets come as hashes, made by `hashed`. What is kept apart is kept at once; the
input that is handed back becomes the events.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from kiosk.core.inputs import AdultAllowed, AdultEnded, AdultIssued, Input, SecretReady
from kiosk.core.kiosk import Kiosk
from kiosk.core.kiosk.adults import AdultState
from kiosk.core.model import Adult
from kiosk.core.units import day_named
from kiosk.people.issuing import (
    NotPossible,
    adult_to_issue,
    adult_to_revoke,
    ends_on,
    in_use_named,
)
from kiosk.people.keys import hash_badge, hash_code, is_badge, issue_codes
from kiosk.people.pins import hash_pin, issue_pin

BY = "command"
Answer = tuple[Input | None, dict[str, Any]]


class Keeping(Protocol):
    """What is asked of the record."""

    def adults(self) -> tuple[Adult, ...]: ...

    def keep_adult(self, adult: Adult, pin_hash: str) -> None: ...

    def keep_badge(self, ref: str, hash: str) -> bool: ...

    def keep_codes(self, ref: str, hashes: Sequence[str]) -> None: ...


@dataclass(frozen=True)
class Office:
    """The record, the state, the machine that authorisations are for, and today's day."""

    record: Keeping
    kiosk: Kiosk
    machine: str
    today: int

    def carry_out(self, request: dict[str, Any]) -> Answer | None:
        """The input a command leads to and its answer; None if it is not about adults."""
        match request:
            case {"do": "adult_issue", "name": str(), "role": str(), "hash": str()}:
                return self._issue(request)
            case {"do": "adult_badge", "name": str(name), "hash": str(hashed)}:
                return self._badge(name, hashed)
            case {"do": "adult_badge"}:
                return _not("a badge; allowed: 4 to 32 letters or digits, as a reader types them")
            case {"do": "adult_codes", "name": str(name), "codes": list(codes)}:
                return self._codes(name, codes)
            case {"do": "adult_until", "name": str(name), "until": str(until)}:
                return self._until(name, until)
            case {"do": "adult_revoke", "name": str(name)}:
                return self._revoke(name)
            case {"do": "adult_list"}:
                return None, {"ok": True, "adults": self._listed()}
        return None

    def _issue(self, request: dict[str, Any]) -> Answer:
        """A PIN and spare codes; those before stop working."""
        role, codes = request["role"], list(request.get("codes", []))
        adult = adult_to_issue(self.record.adults(), self.kiosk.adults, request["name"], role)
        if isinstance(adult, NotPossible):
            return _not(adult.why)
        until = self._end(adult, str(request.get("until", "")))
        if isinstance(until, NotPossible):
            return _not(until.why)
        self.record.keep_adult(adult, request["hash"])
        self.record.keep_codes(adult.ref, codes)
        machine = "" if until is None else self.machine
        issued = AdultIssued(adult.ref, adult.role, BY, machine, until or 0, len(codes))
        return issued, {"ok": True, "name": adult.name}

    def _end(self, adult: Adult, until: str) -> int | NotPossible | None:
        """The last day asked for; None to leave it as it is: no end, or one settled before."""
        state = self.kiosk.adults.find(adult.ref)
        if not until and state and self.machine in dict(state.until):
            return None
        ends = ends_on(adult.role, until, self.today)
        if ends and not self.machine:
            return NotPossible("no drill is known yet: start the kiosk once, then authorise")
        return None if ends == 0 else ends

    def _badge(self, name: str, hashed: str) -> Answer:
        adult = in_use_named(self.record.adults(), self.kiosk.adults, name)
        if isinstance(adult, NotPossible):
            return _not(adult.why)
        if not self.record.keep_badge(adult.ref, hashed):
            return _not("that badge is another adult's; revoke it there first")
        return SecretReady(adult.ref, "badge", BY), {"ok": True, "name": adult.name}

    def _codes(self, name: str, codes: list[str]) -> Answer:
        adult = in_use_named(self.record.adults(), self.kiosk.adults, name)
        if isinstance(adult, NotPossible):
            return _not(adult.why)
        self.record.keep_codes(adult.ref, codes)
        lines = tuple("" for _ in codes)  # the codes themselves are shown by the command alone
        return SecretReady(adult.ref, "codes", BY, lines), {"ok": True, "name": adult.name}

    def _until(self, name: str, until: str) -> Answer:
        adult = in_use_named(self.record.adults(), self.kiosk.adults, name)
        ends = adult if isinstance(adult, NotPossible) else self._ends(adult, until)
        if isinstance(adult, NotPossible) or isinstance(ends, NotPossible):
            return _not(ends.why if isinstance(ends, NotPossible) else "")
        allowed = AdultAllowed(adult.ref, self.machine, ends, BY)
        return allowed, {"ok": True, "name": adult.name}

    def _ends(self, adult: Adult, until: str) -> int | NotPossible:
        return ends_on(adult.role, "" if until == "none" else until, self.today)

    def _revoke(self, name: str) -> Answer:
        adult = adult_to_revoke(self.record.adults(), self.kiosk.adults, name)
        if isinstance(adult, NotPossible):
            return _not(adult.why)
        self.record.keep_adult(adult, "")
        return AdultEnded(adult.ref, BY), {"ok": True, "name": adult.name}

    def _listed(self) -> list[dict[str, Any]]:
        found = ((a, self.kiosk.adults.find(a.ref)) for a in self.record.adults())
        return [self._line(adult, state) for adult, state in found if state]

    def _line(self, adult: Adult, state: AdultState) -> dict[str, Any]:
        until = dict(state.until).get(self.machine, 0)
        told = {"ref": adult.ref, "name": adult.name, "role": state.role}
        more = {"badge": state.badge, "codes": state.codes}
        ends = {"until": day_named(until), "over": self.today > until} if until else {}
        return {**told, **more, **ends}


def hashed(
    request: dict[str, Any], pepper: Callable[[], bytes]
) -> tuple[dict[str, Any], dict[str, Any]]:
    """A command with what it issues or reads in as hashes, and what to show once if it succeeds.

    Costs a hash for each PIN, badge and spare code; a badge that can be none stays as it is.
    """
    match request:
        case {"do": "adult_issue"}:
            key, pin = pepper(), issue_pin()
            codes, kept = _new_codes(key)
            shown = {"pin": pin, "codes": codes}
            return {**request, "hash": hash_pin(pin, key), "codes": kept}, shown
        case {"do": "adult_codes"}:
            codes, kept = _new_codes(pepper())
            return {**request, "codes": kept}, {"codes": codes}
        case {"do": "adult_badge", "digits": str(digits), **rest} if is_badge(digits):
            return {**rest, "do": "adult_badge", "hash": hash_badge(digits, pepper())}, {}
    return request, {}


def _new_codes(pepper: bytes) -> tuple[tuple[str, ...], list[str]]:
    codes = issue_codes()
    return codes, [hash_code(code, pepper) for code in codes]


def _not(why: str) -> Answer:
    return None, {"ok": False, "why": why}
