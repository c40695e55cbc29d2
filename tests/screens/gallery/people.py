"""Views about adults, training levels and questions, with the longest words to be expected."""

from __future__ import annotations

from kiosk.core.inputs import Act, Choose, OpenPage
from kiosk.core.view import Button, Keys, Pad, View
from tests.screens.gallery.parts import BACK, LEAVE, NOBODY, TEACHER, choices, numbers

LONG = "Mx Example-Longname"
CODE = Button("Use a spare code", OpenPage("code"), "adult")
WAIT = "Too many wrong tries. This PIN is taken again in 60 minutes. Another adult can go on now."

VIEWS = {
    "pin_code": View(
        "pin",
        TEACHER,
        f"{LONG}: your spare code",
        ("Ten digits. Each code works once.",),
        pad=Pad("a1", LONG, asks="code", digits=10, order="4801739526"),
        buttons=(BACK,),
    ),
    "pin_wait": View(
        "pin",
        TEACHER,
        f"{LONG}: your PIN",
        ("Six digits. Make sure nobody is watching.",),
        "Not right. Wrong tries: 12",
        pad=Pad("a1", LONG, busy=WAIT),
        buttons=(BACK, CODE),
    ),
    "people": View(
        "form",
        TEACHER,
        "Adults",
        buttons=(BACK, Button("A new adult", Act("role"), "main")),
        choices=choices(*(f"{LONG} {n}\nTrainee teacher" for n in range(1, 9))),
    ),
    "people_unknown_badge": View(
        "form",
        TEACHER,
        "Who gives the OK to start?",
        (),
        "This badge is not known here. Touch your name.",
        buttons=(LEAVE,),
        choices=choices(LONG, "Ms Ash", "Mr Elm\nHas ended"),
    ),
    "person": View(
        "menu",
        TEACHER,
        LONG,
        ("Authorised on this drill. Days left: 366.",),
        buttons=(BACK,),
        choices=choices("New PIN", "New badge", "New spare codes", "How long", "Revoke"),
    ),
    "name": View(
        "note",
        TEACHER,
        keys=Keys("cover", "", "What is the name?", "Keep the name", asks="name"),
        buttons=(LEAVE,),
    ),
    "badge": View(
        "menu",
        TEACHER,
        f"{LONG}: hold the badge to the reader",
        ("This screen waits for the badge.",),
        buttons=(BACK,),
    ),
    "secret_pin": View(
        "secret",
        TEACHER,
        f"{LONG}: the new PIN",
        note="Write it down now. It is shown only this once.",
        secret=("482 915",),
        buttons=(Button("I have written it down", Act("person"), "main"),),
    ),
    "secret_codes": View(
        "secret",
        TEACHER,
        f"{LONG}: spare codes",
        note="Write it down now. It is shown only this once.",
        secret=tuple(f"{n}0482 9157{n}" for n in range(1, 6)),
        buttons=(Button("I have written it down", Act("person"), "main"),),
    ),
    "revoke": View(
        "menu",
        TEACHER,
        f"Revoke {LONG}?",
        ("PIN, badge and spare codes stop working at once.",),
        buttons=(BACK, Button("Revoke now", Act("revoke"), "adult")),
    ),
    "level_pupil": View(
        "form",
        TEACHER,
        "Which pupil have you watched?",
        buttons=(BACK,),
        choices=numbers(30),
    ),
    "level_bits": View(
        "form",
        TEACHER,
        "Which bits is it for?",
        buttons=(BACK,),
        choices=choices("All bits but hole saws", "hole saw", "No longer always an adult beside"),
    ),
    "level_to": View(
        "form",
        TEACHER,
        "Which level?",
        ("Number 14 now: adult beside", "The level before has ended or lapsed."),
        buttons=(BACK,),
        choices=choices("adult beside", "shown", "supervised", "signed off"),
    ),
    "question": View(
        "form",
        NOBODY,
        "Where is the chuck key when you start?",
        buttons=(LEAVE,),
        choices=choices("On its hook", "In the chuck", "In my pocket"),
    ),
    "reason": View(
        "menu",
        NOBODY,
        "Not right",
        (
            "Tie it back and cover it",
            "The spindle winds up hair in a blink.",
            "You can't pull it out again.",
        ),
        buttons=(Button("Go on", Choose("go_on", ""), "main"),),
    ),
}
