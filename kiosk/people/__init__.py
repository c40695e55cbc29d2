"""Who may use the drill: PINs and the secret they are kept with, and the roster file.

`runtime` and `cli` call these; the record keeps what they return. No PIN is ever kept or
shown again: it is issued once, and only its hash stays.
"""

from __future__ import annotations

from kiosk.people.commands import BY, Office, hashed
from kiosk.people.erasing import to_erase
from kiosk.people.issuing import (
    ROLES,
    NotPossible,
    adult_to_issue,
    adult_to_revoke,
    ends_on,
    new_ref,
)
from kiosk.people.keys import hash_badge, hash_code, is_badge, is_code, issue_codes
from kiosk.people.levels import about_levels, levels_here, read_levels
from kiosk.people.packages import known_of, package_in, revoked_of
from kiosk.people.pepper import pepper_for, pepper_path
from kiosk.people.pins import hash_pin, is_common, is_pin, issue_pin, pin_is_right
from kiosk.people.roster import RosterGroup, RosterPupil, read_roster, roster_of, with_refs
from kiosk.people.spreadsheet import is_workbook
from kiosk.people.taking_in import (
    Changes,
    changes,
    group_as_plain,
    group_from_plain,
    is_same,
    resolved,
    take_in,
    unresolved,
    without_names,
)

__all__ = [
    "BY",
    "ROLES",
    "Changes",
    "NotPossible",
    "Office",
    "RosterGroup",
    "RosterPupil",
    "about_levels",
    "adult_to_issue",
    "adult_to_revoke",
    "changes",
    "ends_on",
    "group_as_plain",
    "group_from_plain",
    "hash_badge",
    "hash_code",
    "hash_pin",
    "hashed",
    "is_badge",
    "is_code",
    "is_common",
    "is_pin",
    "is_same",
    "is_workbook",
    "issue_codes",
    "issue_pin",
    "known_of",
    "levels_here",
    "new_ref",
    "package_in",
    "pepper_for",
    "pepper_path",
    "pin_is_right",
    "read_levels",
    "read_roster",
    "resolved",
    "revoked_of",
    "roster_of",
    "take_in",
    "to_erase",
    "unresolved",
    "with_refs",
    "without_names",
]
