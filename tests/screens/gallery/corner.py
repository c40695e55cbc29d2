"""The technician's corner, incidents and jobs made at the screen, told page by page."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    DownloadMoved,
    LeavePage,
    NoteKept,
    PickAdult,
    PickPupil,
    SheetEnded,
    SheetRead,
)
from kiosk.core.kiosk.returning import KINDS
from kiosk.core.model import QuietSpan
from tests.core.computer import FOUND
from tests.core.exploring import SHEET_PARTS
from tests.core.story import TECHNICIAN

if TYPE_CHECKING:
    from tests.screens.gallery.told import Told

CORNER = (
    *(
        "computer",
        "care",
        "checks",
        "check rcd_tested",
        "racks",
        "rack twist 8000",
        "deputy",
        "fault_log",
    ),
    *(
        "data",
        "datum run_down",
        "datum spell",
        "datum widest",
        "down",
        "down 0",
        "down 0 30",
        "ask_restart",
    ),
    "restart",
)
SPOILT = (
    "checked room_stop_tested wrong 0",
    "check room_stop_tested",
    "checked rcd_tested right 7",
)
STEEL = "8b mild_steel bar 12000 40000 120000 twist:12000 0 2"


def signed(story: Told) -> None:
    """The technician stands at the menu."""
    for touch in (LeavePage(), AskAdult("menu"), PickAdult(TECHNICIAN.ref), LeavePage()):
        story.give(touch)
        story.look()
    story.give(AskAdult("menu"))
    story.pin(TECHNICIAN)
    story.look()


def corner(story: Told) -> None:
    """Each page of the technician's corner; out of use and back for each kind of fault."""
    for page in CORNER:
        signed(story)
        what, _, about = page.partition(" ")
        story.give(Act(what, about))
        story.look()
    story.give(Act("quiet"))
    story.look()
    story.give(Act("quiet", "30"))
    story.give(LeavePage())
    story.look()
    signed(story)
    story.give(Act("quiet_end"))
    story.give(Act("own_use"))
    story.give(Act("own_hole"))
    story.look()
    story.give(Act("own_use_end"))
    for why in KINDS:
        signed(story)
        story.give(Act("out_why", why))
        story.look()
        signed(story)
        story.give(Act("return"))
    signed(story)
    story.give(Act("fault_log"))
    story.look()
    checks(story)
    incident(story)
    timetable(story)
    computer(story)


def computer(story: Told) -> None:
    """What was found of the computer, part by part; a record that is lost with the power."""
    shop = story.shop
    story.shop = replace(shop, computer=FOUND)
    story.give(LeavePage())
    story.look()
    signed(story)
    story.give(Act("computer"))
    story.look()
    for one in FOUND:
        story.give(Act("part", one.name))
        story.look()
    story.shop = shop


def checks(story: Told) -> None:
    """A check that is not right, one entered as right, and the drill that waits for it."""
    signed(story)
    for act in (*SPOILT, "check rcd_tested", "return"):
        what, _, about = act.partition(" ")
        story.give(Act(what, about))
        story.look()
    story.give(LeavePage())
    story.look()
    signed(story)
    story.give(Act("checked", "room_stop_tested right 0"))
    story.give(Act("return"))


def timetable(story: Told) -> None:
    """Silent hours of the school's timetable by clocks that are sure, doubtful and never set."""
    start = story.now.wall_us // 1_000_000
    quiet = (QuietSpan(start - 3600, start + 3600, 3600),)
    shop, now = story.shop, story.now
    story.shop = replace(shop, content=replace(shop.content, quiet=quiet))
    for quality in (2, 1, 0):
        story.now = replace(now, quality=quality)
        story.give(LeavePage())
        story.look()
        signed(story)
    story.shop, story.now = shop, now


def sheets(story: Told) -> None:
    """Each printed sheet: asked for, read part by part, put on a stick, or why it was not."""
    for page in ("sheets", "sheet card", "sheet wall A4"):
        signed(story)
        what, _, about = page.partition(" ")
        story.give(Act(what, about))
        story.look()
    story.give(SheetRead("wall A4", SHEET_PARTS))
    story.look()
    for given in (Act("sheet_part", "1"), Act("sheet_out", "wall A4"), DownloadMoved(2, 4)):
        story.give(given)
        story.look()
    story.give(SheetEnded("full"))
    story.look()
    for given in (Act("sheet_out", "wall A4"), SheetEnded("")):
        story.give(given)
        story.look()
    story.give(Act("sheets"))
    story.give(Act("sheet", "commissioning"))
    story.give(SheetRead("commissioning", (), "no_sheet"))
    story.look()


def incident(story: Told) -> None:
    """A near miss, written and followed up to its end."""
    story.shop = story.shop.noting("n1", "The bit caught and the tag spun round once.")
    story.shop = story.shop.noting("n2", "The vice was not done up.")
    signed(story)
    story.give(Act("incidents"))
    story.look()
    story.give(Act("note"))
    story.give(Choose("note_what", "near_miss"))
    story.give(Choose("note_hazard", "grabbed_work"))
    story.give(NoteKept("n1", "near_miss", "grabbed_work", "0" * 64))
    for touch in (Act("incidents"), Act("incident", "n1"), Act("follow", "n1 cause")):
        story.give(touch)
        story.look()
    story.give(NoteKept("n2", "near_miss", "grabbed_work", "0" * 64))
    story.give(Act("follow", "n1 action"))
    story.look()
    story.give(NoteKept("n3", "near_miss", "grabbed_work", "0" * 64))
    story.look()
    for touch in (Act("review", "n1 no"), Act("close_incident", "n1")):
        story.give(touch)
        story.look()


def make(story: Told) -> None:
    """A job made at the screen: each question, and what the sums propose."""
    said = ""
    signed(story)
    story.give(Act("jobs_made"))
    story.look()
    for word in ("", *STEEL.split()):
        said = f"{said} {word}".strip()
        story.give(Act("make", said))
        story.look()
    story.give(Act("make_keep", said))
    story.look()
    story.give(Act("job_made", "made_1"))
    story.look()


def piloted(story: Told) -> None:
    """A job with a pilot in a lesson: what a pupil is offered, and what an adult has seen."""
    for number in (5, 14):
        story.give(LeavePage())
        story.give(PickPupil(number))
        story.look()
        signed(story)
        for act in ("pilots", "pilots made_1 1", "pilots_seen made_1 1 14"):
            what, _, about = act.partition(" ")
            story.give(Act(what, about))
            story.look()
    story.give(Act("close"))
