"""What the invented school's technician has put on a stick: lists, a job, settings, a timetable."""

from __future__ import annotations

import subprocess
from pathlib import Path

from demo.kiosk import ROSTER, command

CLUB = "Lunch club"
LEAVER = "Year 8 blue,20,supervised,"
# One has left; a club has two of the group, one of them with an adult always beside; a visitor.
LISTS = """group,number,level,name,same as,adult beside,visitor
{group}
Lunch club,1,,,Year 8 blue 14,,
Lunch club,2,,,Year 8 blue 16,yes,
Lunch club,3,,,,,yes
"""
SCHOOL = {
    "people.yaml": "mixed_pad: yes\n",
    "silent_hours.yaml": (
        "zone: Europe/London\n"
        "hours:\n"
        "  - days: [mon, tue, wed, thu, fri]\n"
        "    at: 09:00 to 11:30\n"
        "    first: 2035-05-14\n"
        "    last: 2035-06-22\n"
    ),
    "jobs/lunch_tag.yaml": (
        "name: Lunch club tag\n"
        "invented: yes\n"
        "material: acrylic\n"
        "work: sheet 30 x 5 x 120 mm\n"
        "holes:\n"
        "  - {id: ring, bit: plastics, diameter: 5 mm, depth: through, count: 1}\n"
    ),
}


def packed(folder: Path, stick: Path) -> None:
    """Write lists and the school's folder into `folder`, and pack them for the `stick`."""
    roster, school = folder / "roster.csv", folder / "school"
    rows = [line for line in ROSTER.read_text("utf-8").splitlines() if "#" not in line]
    kept = [f"{row},,," for row in rows[1:] if row != LEAVER]
    for name, text in {"roster.csv": LISTS.format(group="\n".join(kept)), **_files()}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    words = ["pack", "--roster", str(roster), "--school", str(school), "--to", str(stick)]
    subprocess.run(command(*words), capture_output=True, check=True)


def _files() -> dict[str, str]:
    return {f"school/{name}": text for name, text in SCHOOL.items()}
