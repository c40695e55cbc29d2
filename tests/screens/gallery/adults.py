"""Views of an adult: checks, forms, PIN, note, download."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    Act,
    OpenPage,
)
from kiosk.core.view import Band, Button, Keys, Pad, Progress, View
from tests.screens.gallery.parts import BACK, LEAVE, OFF, TEACHER, adults, choices

checks = (
    "Guard whole, clear, stays where it is put",
    "Red stop works: drill stops and stays stopped",
    "Chuck key on its hook",
    "Table, vice and clamps tight",
    "Belt cover shut and belt not worn",
    "Floor dry and clear round the drill",
    "Vacuum or brush is here",
)
not_right = Button("Not right", OpenPage("pre_use"))
VIEWS = {
    "pre_use": View(
        "pre_use",
        TEACHER,
        "Look at the drill. Is all of this so?",
        checks,
        band=Band("adult", "Check before the first lesson today"),
        buttons=(not_right, Button("All seven are so", Act("pre_use"), "adult")),
    ),
    "help_start": View(
        "pre_use",
        TEACHER,
        "The isolator is on, but it won't start",
        (
            "Room stop: is it pressed in? Reset it with its key.",
            "Red stop: does it stick in? Turn it to let it out.",
            "Guard: swing it right down. Its switch must close.",
            "Belt cover: shut it. It may have a switch too.",
            "Key switch, if it has one: is it turned on?",
            "Overload: let the motor cool ten minutes. Reset it once.",
            "Still dead? Turn it off. Take it out of use.",
        ),
        buttons=(LEAVE,),
    ),
    "form_group": View(
        "form",
        TEACHER,
        "Which group is it?",
        buttons=(LEAVE,),
        choices=choices("7A", "7B", "8 Engineering", "9 Design and technology", "10C"),
    ),
    "form_many": View(
        "form",
        TEACHER,
        "Who are you?",
        buttons=(LEAVE,),
        choices=adults(*(f"Mx Example-Longname {n}" for n in range(1, 24))),
    ),
    "form_length": View(
        "form",
        TEACHER,
        "How long is the lesson?",
        ("Jobs: key fob, phone stand",),
        buttons=(LEAVE,),
        choices=choices("40 min", "50 min", "60 min", "100 min"),
    ),
    "menu": View(
        "menu",
        TEACHER,
        "What would you like to do?",
        buttons=(LEAVE,),
        choices=choices(
            "Drill myself",
            "Write a note",
            "Take out of use",
            "Everyone stop",
            "Training level of a pupil",
            "Take the week away",
            "Close the lesson",
        ),
    ),
    "own_use": View(
        "own_use",
        replace(TEACHER, isolator="on", isolator_word="Isolator on"),
        "The drill is yours",
        ("The set-up of the lesson is void after this.",),
        buttons=(Button("I have finished. The drill is still.", Act("own_end"), "main"),),
    ),
    "download": View(
        "download",
        TEACHER,
        "Taking the week away",
        ("Leave the stick where it is.",),
        progress=Progress(1312, 2048, "1312 of 2048 entries"),
        buttons=(Button("Stop", Act("download_stop")),),
    ),
    "package": View(
        "package",
        TEACHER,
        "From the stick, put together on 2026-11-26",
        (
            "Read it through. Nothing is changed yet.",
            "In its place now: what was put together on 2026-09-02",
            "Comes as supervised: 8B 1 - 14, 16",
            "Other level or flag, what was granted here stands: 9A 2, 7",
            "Revoked: Mx Example-Longname",
            "New file: jobs/name_plate.yaml",
        ),
        buttons=(LEAVE, Button("Take all of it in", Act("package_in", "d1"), "adult")),
    ),
    "sheet": View(
        "sheet",
        TEACHER,
        "2 of 6: The order of work",
        tuple(f"Step {n} · Goggles with the marking the school asks for" for n in range(1, 31)),
        buttons=(
            BACK,
            Button("Next part", Act("sheet_part", "2")),
            Button("To the stick", Act("sheet_out", "wall A4")),
        ),
    ),
    "incident": View(
        "incident",
        TEACHER,
        "Near miss on 2026-11-26",
        ("Hazard: hair or clothes are caught", "Cause: not looked at yet", "Review due: no"),
        secret=("A scarf hung near the chuck.\nNobody was hurt; the drill had been stopped.",),
        buttons=(LEAVE, Button("Name the cause", Act("follow", "n1 cause"), "adult")),
    ),
    "note": View(
        "note",
        TEACHER,
        keys=Keys("near_miss", "entangle", "What happened?", "Keep the note"),
        buttons=(LEAVE,),
    ),
    "pin": View(
        "pin",
        TEACHER,
        "Mx Example-Longname: your PIN",
        ("Hide the keys with your hand.",),
        pad=Pad("a1", "Mx Example-Longname"),
        buttons=(BACK,),
    ),
    "pin_stay": View(
        "pin",
        OFF,
        "Mx Example: your PIN",
        band=Band("adult", "OK for number 14"),
        pad=Pad("a1", "Mx Example", "I stay here"),
        buttons=(BACK,),
        answer="That was not the PIN.",
    ),
    "pin_busy": View(
        "pin",
        OFF,
        "Mx Example: your PIN",
        buttons=(BACK,),
        pad=Pad("a1", "Mx Example", busy="Five wrong PINs. Wait 30 s, or ask another adult."),
    ),
}
