"""Every screen that can be reached by touches, readings, time and results: each looked at once.

`decide`, `advance` and `show` are pure, so a state can be left and taken up again. A new page is
found by itself as soon as a button leads to it.
"""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, replace

from kiosk.core.events import Entry
from kiosk.core.inputs import (
    AdultIssued,
    Choose,
    DeadlinePassed,
    DownloadEnded,
    DownloadMoved,
    Input,
    KioskBegan,
    LevelsRead,
    NoteKept,
    PackageIn,
    PackageRead,
    PickAdult,
    PinChecked,
    ReadingIs,
    SheetEnded,
    SheetRead,
    TypePin,
)
from kiosk.core.kiosk import EMPTY, Kiosk, Shop, advance, decide, next_deadline
from kiosk.core.kiosk.stick_acts import READING
from kiosk.core.model import Reading
from kiosk.core.units import Moment
from kiosk.core.view import Button, Head, View, show
from kiosk.core.words import Words
from tests.core.story import PUPILS, TEACHER, TECHNICIAN, WORDS, shop

BEGAN = Moment("boot1", 1_000_000_000, 1_700_000_000_000_000, 1)
NOBODY = Head("", "none", "", "", None)
ENDS = ("", "full", "read_only", "gone", "no_stick", "foreign", "changed", "failing", "nothing")

PACKAGE_LINES = (
    ("before", "2026-09-02"),
    ("come.supervised", "8B 1 - 14, 16"),
    ("come.adult_beside", "8B 15"),
    ("change", "9A 2, 7"),
    ("leave", "9A 30"),
    ("revoked", "Mr Invented"),
    ("stranger", "Ms Elsewhere"),
    ("new", "jobs/name_plate.yaml"),
    ("changed", "machines/drill-1.yaml"),
    ("away", "jobs/hook.yaml"),
)
PACKAGE_MISTAKES = (("", "roster.csv:4: level 'superb'; allowed: adult beside, shown"),)
SHEET_PARTS = (
    ("Wall sheet", "Drill 1", "Invented example. Not for use at a real drill."),
    ("The order of work", *(f"Step {n}: hair tied back, goggles on" for n in range(1, 31))),
)
REFUSALS = (
    *("no_stick", "foreign", "no_package", "gone", "failing", "torn", "newer", "mistakes"),
    *("card", "failed"),
)


@dataclass(frozen=True)
class State:
    """One place in a lesson: all that `show` needs, and how many inputs led to it."""

    shop: Shop
    kiosk: Kiosk
    now: Moment
    refusal: str = ""
    depth: int = 0

    def view(self, words: Words = WORDS) -> View:
        """What the screen shows here."""
        return show(self.shop, self.kiosk, words, self.now, self.refusal)

    def after(self, given: Input, seconds: float = 0.4) -> State:
        """Where an input leads."""
        now = replace(self.now, us=self.now.us + round(seconds * 1e6))
        decided = decide(self.shop, self.kiosk, given, now)
        kiosk, seq = self.kiosk, self.depth + 1
        for event in decided.events:
            kiosk = advance(kiosk, Entry(seq if event.recorded else 0, now, event, decided.plan))
        return State(self.shop, kiosk, now, decided.refusal, self.depth + 1)

    def after_all(self, *given: Input) -> State:
        """Where several inputs lead, one after the other."""
        state = self
        for one in given:
            state = state.after(one)
        return state


def begun(machine: str = "drill-1") -> State:
    """A kiosk that has started, its drill at rest."""
    levels = LevelsRead(tuple((p.ref, p.level.word) for p in PUPILS))
    known = [AdultIssued(a.ref, a.role, "test") for a in (TEACHER, TECHNICIAN)]
    state = State(shop(machine), EMPTY, BEGAN)
    state = state.after_all(KioskBegan(machine, "test", "first"), *known, levels)
    return state.after_all(*(_reads(state, "isolator", "on"), *_reads(state, "starter", "off")))


def _reads(state: State, name: str, reading: str) -> tuple[Input, ...]:
    wired = state.shop.machine.wiring.has(name)
    return (ReadingIs(name, Reading(reading), "settled"),) if wired else ()


# --- from one screen to the next ----------------------------------------------------------------


def explored(start: State, most: int = 9000) -> tuple[State, ...]:
    """States whose screens differ, the nearest first; ends after `most` places."""
    found: dict[object, State] = {}
    places: set[object] = set()
    waiting = deque([start])
    while waiting and len(places) < most:
        state = waiting.popleft()
        view = state.view()
        place = (_plain(view) if state.kiosk.session else _said(view), _place(state.kiosk))
        if place in places:
            continue
        places.add(place)
        found.setdefault(place[0], state)
        waiting.extend(_next(state))
    return tuple(found.values())


def _plain(view: View) -> View:
    """What makes a screen another one: all but the line at the top."""
    return replace(view, head=NOBODY)


def _said(view: View) -> object:
    """What an adult's screen says, its figures by their number of digits: counts never end."""
    buttons = tuple((b.label, b.look, b.live) for b in (*view.buttons, *view.choices))
    band = view.band.text if view.band else ""
    said = (view.title, view.lines, view.secret, view.note, view.answer, band, buttons)
    shape = (view.pad, view.keys, view.progress is None, view.flash)
    return (view.screen, re.sub(r"[0-9]", "0", repr(said)), shape)


def _place(kiosk: Kiosk) -> object:
    """What a screen does not say, but what comes after it depends on."""
    session, desk = kiosk.session, kiosk.desk
    aside = session is None or session.halt or desk.page == "wrong"
    stands = () if aside else (session.path, session.step.id, session.job, session.way)
    return (stands, desk.purpose, session is None, bool(kiosk.machine.set_up))


def _next(state: State) -> Iterator[State]:
    view = state.view()
    for button in _touchable(state, view):
        yield state.after(button.touch)
    yield from _typed(state, view)
    yield from _by_itself(state)


def _touchable(state: State, view: View) -> tuple[Button, ...]:
    """Every button, and of answers that lead the same way the first that is not picked yet."""
    called = tuple(b for b in (view.head.wrong, view.head.stop) if b)
    others = tuple(b for b in view.choices if not isinstance(b.touch, Choose | PickAdult))
    alike = [b for b in view.choices if isinstance(b.touch, Choose) and b.look != "picked"]
    adults = [b for b in view.choices if isinstance(b.touch, PickAdult)]
    adults = adults if state.kiosk.desk.purpose == "menu" else adults[:1]
    buttons = view.buttons[:1] if alike else view.buttons
    return (*buttons, *alike[:1], *adults, *others, *called)


def _typed(state: State, view: View) -> Iterator[State]:
    """A PIN that is right or wrong, and an adult who stays; a note."""
    if view.pad and not view.pad.busy:
        adult, purpose = view.pad.adult, state.kiosk.desk.purpose
        for stay in (0, 1) if view.pad.stay_label else (0,):
            tried = state.after(TypePin(adult, "482915", stay))
            yield tried
            yield tried.after(PinChecked(adult, True))
        if purpose == "menu" and adult == TEACHER.ref and not state.kiosk.session:
            yield tried.after(PinChecked(adult, False))
    if view.keys:
        yield state.after(NoteKept("n1", view.keys.what, view.keys.hazard, "0" * 64))


def _from_a_stick(state: State) -> Iterator[State]:
    """What a package brings in, or why it can't; then how taking it in ended."""
    desk = state.kiosk.desk
    if desk.page != "package":
        return
    if desk.about == READING:
        yield state.after(PackageRead("d1", BEGAN.wall_us, PACKAGE_LINES))
        yield from (state.after(PackageRead("", 0, PACKAGE_MISTAKES, why)) for why in REFUSALS)
    if desk.why == "taking":
        yield state.after(PackageIn(TECHNICIAN.ref, "d1", BEGAN.wall_us, ("school",)))
        yield state.after(PackageIn(TECHNICIAN.ref, "d1", 0, why="last_technician"))


def _of_a_sheet(state: State) -> Iterator[State]:
    """What a printed sheet says, or why it can't be made; then how it came on the stick."""
    desk = state.kiosk.desk
    if desk.page == "sheet" and desk.why == "making":
        yield state.after(SheetRead(desk.about, SHEET_PARTS))
        yield state.after(SheetRead(desk.about, (), "no_sheet"))
    if desk.page == "sheet" and desk.why == "writing":
        yield state.after(DownloadMoved(2, 4))
        yield from (state.after(SheetEnded(why)) for why in ENDS if why != "nothing")


def _by_itself(state: State) -> Iterator[State]:
    """Readings that change, time that passes, a download's news, a restart."""
    session = state.kiosk.session
    early = session is None or session.at < 8 or session.step.part in ("check", "drill")
    names = ("off", "on", "unknown") if early else ("off", "on")
    for reading in names:
        yield from (state.after(one) for one in _reads(state, "isolator", reading))
    if session and session.is_drilling:
        for reading in ("on", "off"):
            yield from (state.after(one, 9.0) for one in _reads(state, "starter", reading))
    due = next_deadline(state.shop, state.kiosk, state.now)
    if due:
        waited = max(0.0, (due.us - state.now.us) / 1e6)
        yield state.after(DeadlinePassed(due.kind), waited)
    if state.kiosk.desk.page == "download":
        yield state.after(DownloadMoved(412, 900))
        yield from (state.after(DownloadEnded("week", why)) for why in ENDS)
    yield from _from_a_stick(state)
    yield from _of_a_sheet(state)
    if state.kiosk.lesson:
        yield state.after(KioskBegan(state.shop.machine.id, "test", "cut"))
