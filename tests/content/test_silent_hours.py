"""The timetable of silent hours: local times of the school in UTC, over a change of the clocks."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from kiosk.content import load

SEQUENCES = Path(__file__).parents[2] / "sequences"
HOURS = "{days: [thu, fri], at: 09:00 to 11:30, first: 2027-03-25, last: 2027-04-02}"


def written(school: Path, hours: str = HOURS, zone: str = "Europe/London") -> Path:
    (school / "silent_hours.yaml").write_text(f"zone: {zone}\nhours:\n  - {hours}\n", "utf-8")
    return school


def utc(year: int, month: int, day: int, hour: int, minute: int) -> int:
    return round(datetime(year, month, day, hour, minute, tzinfo=UTC).timestamp())


def test_the_hours_are_those_of_the_schools_clocks_also_after_they_change(tmp_path: Path) -> None:
    """British Summer Time begins on 28 March 2027: the last Sunday (Summer Time Act 1972, 2002)."""
    loaded = load(SEQUENCES, written(tmp_path))

    assert loaded.content is not None
    spans = [(s.start_s, s.end_s, s.offset_s) for s in loaded.content.quiet]
    assert spans == [
        (utc(2027, 3, 25, 9, 0), utc(2027, 3, 25, 11, 30), 0),
        (utc(2027, 3, 26, 9, 0), utc(2027, 3, 26, 11, 30), 0),
        (utc(2027, 4, 1, 8, 0), utc(2027, 4, 1, 10, 30), 3600),
        (utc(2027, 4, 2, 8, 0), utc(2027, 4, 2, 10, 30), 3600),
    ]


def test_none_are_shipped() -> None:
    content = load(SEQUENCES).content

    assert content is not None and content.quiet == ()


@pytest.mark.parametrize(
    ("hours", "zone", "told"),
    [
        (HOURS, "Europe/Lodnon", "1: zone 'Europe/Lodnon'; allowed: a time zone that"),
        (HOURS.replace("11:30", "08:30"), "Europe/London", "3: at 09:00 to 08:30; allowed: a time"),
        (HOURS.replace("09:00", "9.00"), "Europe/London", "3: at '9.00 to 11:30'; allowed: two"),
        (HOURS.replace("thu", "thr"), "Europe/London", "3: days: 'thr'; allowed: mon, tue"),
        (HOURS.replace("thu, fri", ""), "Europe/London", "3: no days; allowed: mon, tue"),
        (HOURS.replace("04-02", "03-01"), "Europe/London", "3: first 2027-03-25, last 2027-03-01"),
        (HOURS.replace("2027-04", "2030-04"), "Europe/London", "and at most 366 days in all"),
        (HOURS.replace("04-02", "02-30"), "Europe/London", "'2027-02-30'; allowed: a date such"),
        (HOURS.replace("at:", "from:"), "Europe/London", "from"),
    ],
)
def test_a_mistake_is_told_with_its_line(tmp_path: Path, hours: str, zone: str, told: str) -> None:
    loaded = load(SEQUENCES, written(tmp_path, hours, zone))

    assert loaded.content is None
    assert any("silent_hours.yaml" in str(p) and told in str(p) for p in loaded.problems), [
        str(p) for p in loaded.problems
    ]
