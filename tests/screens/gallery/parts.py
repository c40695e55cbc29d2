"""What the sample views share: heads, buttons, pictures, choices."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    AskAdult,
    Choose,
    GoBack,
    LeavePage,
    NameTrouble,
    PickAdult,
    PickPupil,
    SomethingWrong,
    StopEveryone,
)
from kiosk.core.units import Length, SpindleSpeed
from kiosk.core.view import Band, Button, Head, Picture

WRONG = Button("Something wrong?", SomethingWrong(), "danger")
EVERYONE = Button("Everyone stop", StopEveryone())
OFF = Head("Drill 2", "off", "Isolator off", "No. 14 · supervised", WRONG, EVERYONE)
ON = replace(OFF, isolator="on", isolator_word="Isolator on")
UNKNOWN = replace(OFF, isolator="unknown", isolator_word="Isolator not known")
FAULT = replace(OFF, isolator="fault", isolator_word="Isolator contacts disagree")
NOBODY = replace(OFF, who="")
TEACHER = replace(OFF, who="Mx Example · teacher")
PLAIN = Head("Drill 2", "none", "", "", WRONG)

ADULT = Button("Adult: name and PIN", AskAdult("ok"), "adult")
BACK = Button("Back", GoBack())
LEAVE = Button("Back", LeavePage())
HAND_UP = Band("adult", "Stay here. Hand up. An adult looks now.")
RED_STOP = Band("stop", "Lift clear. Press the red stop.")

DEPTH = Picture(
    "depth",
    (
        ("diameter", Length(8)),
        ("thickness", Length(18)),
        ("depth", Length(12)),
        ("point", Length(2.4)),
        ("floor", Length(3.5)),
        ("stop", Length(14.5)),
    ),
)
BELTS = Picture("belts", (("groove", 3), ("speed", SpindleSpeed(800))))
DRILLING = Picture("drilling", (("diameter", Length(8)), ("thickness", Length(6))))

LOOK_FOR = (
    "8 mm bit, straight, gripped by all three jaws",
    "Chuck key on its hook",
    "Vice bolted, work does not move when pushed",
    "Guard down, clears the work",
    "Belt cover shut: 800 rpm",
)


def choices(*labels: str, look: str = "choice") -> tuple[Button, ...]:
    """Many choices with these labels."""
    return tuple(Button(label, Choose("what", label), look) for label in labels)


def numbers(last: int) -> tuple[Button, ...]:
    """List numbers from 1 to the last."""
    return tuple(Button(str(n), PickPupil(n), "number") for n in range(1, last + 1))


def adults(*names: str) -> tuple[Button, ...]:
    """Names of adults."""
    return tuple(Button(name, PickAdult(name), "choice") for name in names)


def troubles() -> tuple[Button, ...]:
    """A picture for every trouble."""
    names = {
        "bit_broken": "Bit broken",
        "bit_jammed": "Bit jammed",
        "work_spun": "Work spun round",
        "smoke": "Smoke or squeal",
        "hurt": "Someone hurt",
        "alarm": "Alarm",
        "power": "Power or room stop",
        "gone": "Pupil gone",
    }
    return tuple(
        Button(label, NameTrouble(name), "choice", picture=Picture(name))
        for name, label in names.items()
    )
