"""Invented views, one or more for every screen name, with the longest words to be expected.

For tests, and for looking at the screens without the rest of the kiosk. All people, jobs and
numbers here are made up.
"""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    Act,
    AskAdult,
    ByMistake,
    Choose,
    EndSpell,
    GoBack,
    Leave,
    LeavePage,
    NameTrouble,
    OpenPage,
    PickAdult,
    PickJob,
    PickNotRight,
    PickPupil,
    SeenRight,
    SomethingWrong,
    SpellOk,
    Still,
    StillThere,
)
from kiosk.core.units import Length, SpindleSpeed
from kiosk.core.view import Band, Button, Head, Keys, Pad, Picture, Progress, Rail, View

WRONG = Button("Something wrong?", SomethingWrong(), "danger")
OFF = Head("Drill 2", "off", "Isolator off", "No. 14 · supervised", WRONG)
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


def _choices(*labels: str, look: str = "choice") -> tuple[Button, ...]:
    return tuple(Button(label, Choose("what", label), look) for label in labels)


def _numbers(last: int) -> tuple[Button, ...]:
    return tuple(Button(str(n), PickPupil(n), "number") for n in range(1, last + 1))


def _adults(*names: str) -> tuple[Button, ...]:
    return tuple(Button(name, PickAdult(name), "choice") for name in names)


def _troubles() -> tuple[Button, ...]:
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


def _idle() -> dict[str, View]:
    teacher = Button("Teacher: open a lesson", AskAdult("open"), "adult")
    adult = Button("Adult", AskAdult("menu"))
    closed = ("Do not use the drill.", "A teacher opens the lesson first.")
    return {
        "idle": View("idle", NOBODY, "Touch your number", choices=_numbers(24), buttons=(adult,)),
        "idle_many": View(
            "idle",
            UNKNOWN,
            "Touch your number",
            choices=_numbers(32),
            buttons=(adult,),
            note="The isolator is not known. An adult looks for each pupil.",
        ),
        "idle_closed": View("idle", NOBODY, "No lesson is open", closed, buttons=(teacher,)),
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


def _adult_pages() -> dict[str, View]:
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
    return {
        "pre_use": View(
            "pre_use",
            TEACHER,
            "Look at the drill. Is all of this so?",
            checks,
            band=Band("adult", "Check before the first lesson today"),
            buttons=(not_right, Button("All seven are so", Act("pre_use"), "adult")),
        ),
        "form_group": View(
            "form",
            TEACHER,
            "Which group is it?",
            buttons=(LEAVE,),
            choices=_choices("7A", "7B", "8 Engineering", "9 Design and technology", "10C"),
        ),
        "form_many": View(
            "form",
            TEACHER,
            "Who are you?",
            buttons=(LEAVE,),
            choices=_adults(*(f"Mx Example-Longname {n}" for n in range(1, 24))),
        ),
        "form_length": View(
            "form",
            TEACHER,
            "How long is the lesson?",
            ("Jobs: key fob, phone stand",),
            buttons=(LEAVE,),
            choices=_choices("40 min", "50 min", "60 min", "100 min"),
        ),
        "menu": View(
            "menu",
            TEACHER,
            "What would you like to do?",
            buttons=(LEAVE,),
            choices=_choices(
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


def _session() -> dict[str, View]:
    jobs = ("Key fob: 4 mm hole", "Phone stand: 8 mm through", "Bike lamp bracket: 6.5 mm part-way")
    return {
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
            "Is this number 14, supervised, in front of you?",
            LOOK_FOR,
            band=HAND_UP,
            buttons=(Button("Not right", PickNotRight("")), ADULT),
        ),
        "adult_check_long": View(
            "adult_check",
            ON,
            "Is this number 14, adult beside, in front of you?",
            (*LOOK_FOR, "Scrap board under the work", "Depth stop 14.5\u00a0mm lower than touch"),
            band=HAND_UP,
            buttons=(Button("Not right", PickNotRight("")), ADULT),
        ),
        "adult_check_spell": View(
            "adult_check",
            OFF,
            "Is this number 14, supervised, in front of you?",
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
            ON,
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


def _halts() -> dict[str, View]:
    mistake = Button("Pressed by mistake", ByMistake())
    return {
        "drilling_halt": View(
            "drilling",
            FAULT,
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
            replace(ON, wrong=None),
            "Touch what is wrong",
            band=RED_STOP,
            choices=_troubles(),
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


def views() -> dict[str, View]:
    """Every sample view by its own name, numbered from 1."""
    found = {**_idle(), **_adult_pages(), **_session(), **_halts()}
    return {name: replace(view, number=at) for at, (name, view) in enumerate(found.items(), 1)}
