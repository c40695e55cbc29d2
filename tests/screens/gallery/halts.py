"""Views of whatever halts a session, and its end."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    ByMistake,
    Leave,
    SeenRight,
    Still,
)
from kiosk.core.view import Band, Button, Picture, Rail, View
from tests.screens.gallery.parts import (
    ADULT,
    BACK,
    FAULT,
    OFF,
    ON,
    PLAIN,
    RED_STOP,
    UNKNOWN,
    troubles,
)

mistake = Button("Pressed by mistake", ByMistake())
VIEWS = {
    "drilling_halt": View(
        "drilling",
        replace(FAULT, stop=None),
        "Drill hole 2 of 4",
        ("Lift clear.", "Press the red stop.", "Wait until it is quite still."),
        band=RED_STOP,
        flash=True,
        unsaved="Not saved yet",
        rail=Rail(13, 15),
        buttons=(Button("Stopped and still? Then touch here.", Still(), "still"),),
    ),
    "interruption": View(
        "interruption",
        ON,
        "The isolator was turned on",
        ("It should be off while hands are at the chuck.", "Hands away. Wait for an adult."),
        band=Band("stop", "Hands away from the drill"),
        flash=True,
        unsaved="Not saved yet",
        buttons=(ADULT,),
    ),
    "wrong": View(
        "wrong",
        replace(ON, wrong=None, stop=None),
        "Touch what is wrong",
        band=RED_STOP,
        choices=troubles(),
        buttons=(mistake, ADULT),
    ),
    "recovery": View(
        "recovery",
        OFF,
        "Bit broken",
        ("Isolator off.", "Wait until the spindle is still.", "An adult takes out the bit."),
        "Broken bits are sharp. Use pliers.",
        band=Band("adult", "An adult does this"),
        picture=Picture("bit_broken"),
        rail=Rail(2, 4),
        buttons=(BACK, Button("Both parts are out", SeenRight("r2"), "adult")),
    ),
    "finished": View(
        "finished",
        replace(OFF, who="No. 14 · supervised"),
        "All four holes are drilled",
        ("Bit and key are away.", "Goggles back on the hook."),
        buttons=(Button("Next pupil", Leave(), "main"),),
    ),
    "record_fault": View(
        "record_fault",
        UNKNOWN,
        "The record can't be written",
        ("The card is full.", "Stop drilling. Tell the technician."),
        band=Band("stop", "Do not go on drilling"),
        unsaved="3 entries are not saved yet",
    ),
    "content_fault": View(
        "content_fault",
        replace(PLAIN, wrong=None),
        "A file of the kiosk is not right",
        (
            "machines/drill-2.yaml, line 14:",
            "found “spindel”; nearest is “spindle”. Allowed here: plate, pulleys, spindle.",
            "Nobody can drill with the kiosk until this is put right.",
        ),
    ),
}
