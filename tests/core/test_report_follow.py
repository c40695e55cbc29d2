"""What a report tells of incidents followed up and of checks made."""

from __future__ import annotations

from kiosk.core.events import CheckDone, FollowedUp, IncidentClosed, Noted, ReviewSaid
from kiosk.core.kiosk.care import CheckState
from tests.core.test_report import counted, drill


def test_an_incident_is_open_and_its_hazard_due_until_it_is_followed_up() -> None:
    near = Noted("a1", "n1", "near_miss", "swarf", "d")
    other = Noted("a1", "n2", "incident", "hair", "d")
    followed = (
        FollowedUp("a1", "n1", "cause", "n3", "d"),
        FollowedUp("a1", "n1", "action", "n4", "d"),
        ReviewSaid("a1", "n1", "swarf", "yes"),
        IncidentClosed("a1", "n1"),
    )

    before = {row.hazard: (row.open, row.due) for row in counted(near, other).notes_by_hazard}
    after = counted(near, other, *followed)

    assert before == {"swarf": (1, True), "hair": (1, True)}
    assert {r.hazard: (r.open, r.due) for r in after.notes_by_hazard} == {
        "swarf": (0, False),
        "hair": (1, True),
    }
    assert after.total("incidents_closed") == 1


def test_an_installation_check_stands_as_last_made() -> None:
    found = counted(
        CheckDone("lock", "wrong", 20_000, "a1"), CheckDone("lock", "right", 20_400, "a1")
    )

    assert drill(found).checks == (CheckState("lock", "right", 20_400),)
