"""What one screen shows, as a value: `screens` draws it and sends back its buttons' touches."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.inputs import Touch
from kiosk.core.machining.worked import Value

SCREENS = (
    "idle",  # the lesson is open: numbers to touch; or nothing is open
    "restart",  # is it turning? press the red stop
    "out_of_use",
    "pre_use",  # the machine's pre-use check, at most 7 lines
    "form",  # one question with choices: group, jobs, length, adult's name, note, hazard
    "job",
    "step",  # one thing to do and see, with a drawing
    "already_set",  # the kept set-up looked at
    "adult_check",
    "pin",
    "drilling",
    "interruption",
    "wrong",  # Something wrong?: what to do now, then pictures
    "recovery",
    "finished",
    "note",  # an adult types a note
    "menu",  # what a signed-in adult can do
    "own_use",
    "download",
    "package",  # what a stick brings in
    "sheet",  # a printed sheet, read part by part before it goes on a stick
    "incident",  # a near miss or incident: what was written stands in `secret`
    "secret",  # what was issued, shown once
    "record_fault",
    "content_fault",
)
AT_REST = ("idle", "out_of_use")
"""Screens on which nobody is at the drill: they can be wiped, and dim."""


@dataclass(frozen=True)
class Picture:
    """A drawing by name and values; `drawings` makes its shapes."""

    name: str
    values: tuple[tuple[str, Value], ...] = ()


@dataclass(frozen=True)
class Button:
    """One thing to touch.

    `look`: `main` (the one action), `adult` (an adult must act), `plain`, `choice` (one of
    many), `picked` (one of many, chosen), `number` (a list number), `still` (the drilling
    screen's one touch, calm and wide), `danger` (Something wrong?). A button that is not `live`
    is shown pale and sends nothing. `picture` is shown above or beside the label.
    """

    label: str
    touch: Touch
    look: str = "plain"
    live: bool = True
    picture: Picture | None = None


@dataclass(frozen=True)
class Head:
    """The line at the top: machine, isolator knob and word, whose turn it is; who is called.

    `stop` is *Everyone stop*, there while a lesson is on; pale once everyone is stopped.
    """

    machine: str
    isolator: str  # `off`, `on`, `unknown`, `fault`, or `none` where there is no contact
    isolator_word: str
    who: str
    wrong: Button | None
    stop: Button | None = None


@dataclass(frozen=True)
class Band:
    """One line across the screen under the head. `look`: `adult`, `caution`, `stop`."""

    look: str
    text: str


@dataclass(frozen=True)
class Rail:
    """How far the session has come: step `at` of `of`, 1 first; the drill's table rises."""

    at: int
    of: int


@dataclass(frozen=True)
class Pad:
    """A pad of digits, for a `pin` or a spare `code`; sent with `adult` once all are typed.

    `order` is how the keys lie, row by row, where the school has them mixed.
    """

    adult: str
    name: str
    stay_label: str = ""  # a toggle to ask for an attended spell; empty: none
    busy: str = ""  # shown instead of the pad while the PIN is checked, or during back-off
    asks: str = "pin"
    digits: int = 6
    order: str = "1234567890"


@dataclass(frozen=True)
class Keys:
    """A keyboard for an adult's note of kind `what` on `hazard`; `prompt` stands above it.

    Where it `asks` for a `name`, it is that of a new adult, whose role `what` is.
    """

    what: str
    hazard: str
    prompt: str
    done_label: str
    asks: str = "note"


@dataclass(frozen=True)
class Progress:
    """A bar: `done` of `whole`, with a word."""

    done: int
    whole: int
    word: str


@dataclass(frozen=True)
class ShopWord:
    """A shop word with its plain meaning and drawing; `forms` is how the screen writes it."""

    name: str
    means: str
    picture: Picture
    forms: tuple[str, ...]


@dataclass(frozen=True)
class Aside:
    """Something to read beside a step. The screens open and close it; nothing changes by it.

    `label` stands on its button; the one of the shop `words` has none: the sentences open it.
    One with `seconds` closes by itself after them, and till then nothing answers: the screen can
    be wiped.
    """

    label: str
    title: str
    back: str
    lines: tuple[str, ...] = ()
    words: tuple[ShopWord, ...] = ()
    seconds: int = 0


@dataclass(frozen=True)
class View:
    """One screen. `number` grows when anything that can be touched or read below the head changes.

    `lines` are plain lines; on `step` they are the sentences, on `adult_check` and
    `already_set` what to look for, on `drilling` numbered. `note` is a caution box. `answer`
    says why the last touch was refused. `unsaved` marks what is not yet in the record, whose
    last kept entry is `seq`. `secret` is shown and never logged. `asides` may be read beside it.
    `language` is the one that its numbers are written in.
    """

    screen: str
    head: Head
    title: str = ""
    lines: tuple[str, ...] = ()
    note: str = ""
    band: Band | None = None
    picture: Picture | None = None
    buttons: tuple[Button, ...] = ()  # the bar at the bottom, left to right
    choices: tuple[Button, ...] = ()  # many alike: numbers, jobs, names, pictures
    rail: Rail | None = None
    pad: Pad | None = None
    keys: Keys | None = None
    progress: Progress | None = None
    answer: str = ""
    unsaved: str = ""
    flash: bool = False
    asides: tuple[Aside, ...] = ()
    large: bool = False
    left: bool = False  # made for a left hand: what is touched lies where it does not cover
    aloud: bool = False  # it is read aloud, and a key has it read again
    language: str = ""
    secret: tuple[str, ...] = ()
    number: int = 0
    seq: int = 0

    @property
    def touchable(self) -> tuple[object, ...]:
        """What a touch is made from: with another, the view is another one."""
        return (self.screen, self.title, self.buttons, self.choices, self.pad, self.keys)
