"""Views while no pupil is at the drill."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    AskAdult,
)
from kiosk.core.view import Band, Button, Picture, View
from tests.screens.gallery.parts import ADULT, NOBODY, UNKNOWN, numbers

teacher = Button("Teacher: open a lesson", AskAdult("open"), "adult")
adult = Button("Adult", AskAdult("menu"))
closed = ("Do not use the drill.", "A teacher opens the lesson first.")
VIEWS = {
    "idle": View("idle", NOBODY, "Touch your number", choices=numbers(24), buttons=(adult,)),
    "idle_many": View(
        "idle",
        UNKNOWN,
        "Touch your number",
        choices=numbers(32),
        buttons=(adult,),
        note="The isolator is not known. An adult looks for each pupil.",
    ),
    "idle_contacts": View(
        "idle",
        UNKNOWN,
        "Year 9 Design and technology: touch your number",
        (
            "The drill is not set up yet.",
            "Extraction: its two contacts disagree. A wire may be off.",
        ),
        choices=numbers(24),
        buttons=(adult,),
    ),
    "idle_closed_contacts": View(
        "idle",
        UNKNOWN,
        "The drill must be looked at first",
        ("An adult does the check of the day.", "Contacts: the box does not answer. Has it power?"),
        note="This screen informs and records. It is not a safety device.",
        picture=Picture("stops"),
        buttons=(teacher,),
    ),
    "idle_closed": View(
        "idle", replace(NOBODY, stop=None), "No lesson is open", closed, buttons=(teacher,)
    ),
    "restart": View(
        "restart",
        UNKNOWN,
        "The kiosk has started again",
        ("Nothing goes on by itself.", "Wait for an adult."),
        band=Band("stop", "Is it turning? Press the red stop."),
        buttons=(ADULT,),
    ),
    "out_of_use": View(
        "out_of_use",
        NOBODY,
        "This drill is out of use",
        ("The guard does not stay down.", "Do not use it. Use another drill."),
        band=Band("caution", "Out of use since Monday"),
        buttons=(ADULT,),
    ),
}
