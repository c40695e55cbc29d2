"""Views of a pupil's session."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    EndSpell,
    Leave,
    PickJob,
    PickNotRight,
    SeenRight,
    SpellOk,
    Still,
    StillThere,
)
from kiosk.core.view import Aside, Band, Button, Picture, Rail, ShopWord, View
from tests.screens.gallery.parts import (
    ADULT,
    BACK,
    BELTS,
    DEPTH,
    DRILLING,
    HAND_UP,
    LOOK_FOR,
    OFF,
    ON,
    PLAIN,
    UNKNOWN,
)

WORDS = (
    ShopWord("bit", "The sharp tool that cuts.", Picture("word_bit"), ("bit",)),
    ShopWord("work", "The piece that you drill.", Picture("word_work"), ("work",)),
    ShopWord("scale", "Lines and numbers that show how far.", Picture("word_scale"), ("scale",)),
)
ASIDES = (
    Aside("Why?", "Why?", "Back", ("Too deep, and the bit goes into the table.",)),
    Aside(
        "How was this worked out?",
        "How was this worked out?",
        "Back",
        ("Stop: 14.5\u00a0mm. Depth and point.\nSum: 12 + 2.4 = 14.4, up to the half.",),
    ),
    Aside("", "Shop words", "Back", words=WORDS),
)
jobs = ("Key fob: 4 mm hole", "Phone stand: 8 mm through", "Bike lamp bracket: 6.5 mm part-way")
VIEWS = {
    "job": View(
        "job",
        replace(OFF, who="No. 14 · adult beside"),
        "What are you making?",
        choices=tuple(Button(label, PickJob(label, 0), "choice") for label in jobs),
        buttons=(Button("I am not number 14", Leave()),),
        rail=Rail(1, 15),
    ),
    "step": View(
        "step",
        OFF,
        "Set the depth stop",
        ("Touch the bit on the work.", "Read the scale.", "Set the stop 14.5\u00a0mm lower."),
        "12\u00a0mm deep to full width, and 2.4\u00a0mm for the point.",
        picture=DEPTH,
        buttons=(BACK, Button("My stop reads 14.5\u00a0mm more", SeenRight("s7"), "main")),
        rail=Rail(7, 15),
        asides=ASIDES,
    ),
    "step_belts": View(
        "step",
        UNKNOWN,
        "An adult moves the belt",
        ("Isolator off. Open the belt cover.", "Belt on the third groove from the top."),
        picture=BELTS,
        band=Band("adult", "Hand up. An adult does this."),
        buttons=(BACK, Button("Belt on groove 3, cover shut", SeenRight("s4"), "main")),
        rail=Rail(4, 15),
        answer="The isolator is on. Turn it off first.",
    ),
    "step_plain": View(
        "step",
        replace(PLAIN, who="No. 7 · signed off"),
        "Eyes, hair, sleeves",
        ("Goggles on.", "Hair tied back. Sleeves up.", "No tie, cord or glove."),
        buttons=(Button("Goggles on, all tied back", SeenRight("s1"), "main"),),
        rail=Rail(1, 15),
    ),
    "step_wait": View(
        "step",
        OFF,
        "Still there?",
        ("Nobody has touched the screen.",),
        buttons=(Button("I am here", StillThere(), "main"),),
        rail=Rail(9, 15),
    ),
    "already_set": View(
        "already_set",
        OFF,
        "Look: is this still so?",
        (
            "8 mm twist bit in the chuck",
            "Belt on groove 3: 800 rpm",
            "Table and stop not moved",
        ),
        picture=Picture("set_up"),
        rail=Rail(3, 15),
        buttons=(
            Button("Not so", PickNotRight("set")),
            Button("All three are so", SeenRight("set"), "main"),
        ),
    ),
    "adult_check": View(
        "adult_check",
        OFF,
        "Is this number 14 in front of you? Level: supervised.",
        LOOK_FOR,
        band=HAND_UP,
        buttons=(Button("Not right", PickNotRight("")), ADULT),
    ),
    "adult_check_long": View(
        "adult_check",
        ON,
        "Is this number 14 in front of you? Level: adult beside.",
        (*LOOK_FOR, "Scrap board under the work", "Depth stop 14.5\u00a0mm lower than touch"),
        band=HAND_UP,
        buttons=(Button("Not right", PickNotRight("")), ADULT),
    ),
    "adult_check_guard": View(
        "adult_check",
        ON,
        "Is this number 14 in front of you? Level: adult beside.",
        (*LOOK_FOR, "Scrap board under the work", "Depth stop 14.5\u00a0mm lower than touch"),
        "The guard's contact says that it is up.",
        band=HAND_UP,
        buttons=(Button("Not right", PickNotRight("")), ADULT),
    ),
    "adult_check_spell": View(
        "adult_check",
        OFF,
        "Is this number 14 in front of you? Level: supervised.",
        LOOK_FOR[:3],
        band=Band("adult", "Mx Example stays here"),
        buttons=(
            Button("Not right", PickNotRight("")),
            Button("I go", EndSpell()),
            Button("OK to start", SpellOk(), "adult"),
        ),
    ),
    "drilling": View(
        "drilling",
        replace(ON, stop=None),
        "Drill hole 2 of 4",
        (
            "Start. Wait for full speed.",
            "Press gently and evenly.",
            "Ease off as it breaks through.",
            "Lift right up. Red stop.",
            "Wait until it is quite still.",
        ),
        picture=DRILLING,
        rail=Rail(13, 15),
        buttons=(Button("Stopped and still? Then touch here.", Still(), "still"),),
    ),
}
