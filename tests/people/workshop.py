"""The workshop that people walk in: the real core, its judge, and secrets in a plain table.

What passes a pad or a reader is what that table says, not what the kiosk believes.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace

from hypothesis.stateful import RuleBasedStateMachine

from kiosk.core.events import (
    BadgePassed,
    CodePassed,
    DrillingShown,
    Entry,
    Event,
    HoleDrilled,
    LevelGranted,
    OkGiven,
    PilotsDrilled,
    PinPassed,
    QuestionsAnswered,
    SecretAsked,
    SessionStarted,
)
from kiosk.core.inputs import (
    AdultIssued,
    Input,
    KioskBegan,
    ReadingIs,
    RosterRead,
    SecretReady,
    SomethingWrong,
    Touch,
)
from kiosk.core.kiosk import EMPTY, Kiosk, advance, decide
from kiosk.core.kiosk.allowed import may
from kiosk.core.model import (
    Adult,
    Group,
    Hole,
    Job,
    Level,
    Pupil,
    QuietSpan,
    Reading,
    Roster,
    Work,
)
from kiosk.core.rules import Judge, Past
from kiosk.core.session import Session
from kiosk.core.units import Length, Moment
from kiosk.core.view import show
from kiosk.core.walk.grounds import house_of
from tests.core.story import GROUP, TEACHER, TECHNICIAN, WORDS, shop
from tests.people.rights import NOBODY, OFFICE, rights, who

COVER, ASSISTANT = Adult("a3", "Mx Cover", "cover"), Adult("a4", "Mx Help", "assistant")
ADULTS = (TEACHER, TECHNICIAN, COVER, ASSISTANT)
REFS = tuple(a.ref for a in ADULTS)
FLAGGED = Pupil("p30", 30, Level.SIGNED_OFF, beside=True)
GUEST = Pupil("p31", 31, Level.SIGNED_OFF, visitor=True)
PUPILS = (*GROUP.pupils, FLAGGED, GUEST)
PLATE = Job(
    "plate",
    "Plate",
    "mild_steel",
    Work("bar", Length(40.0), Length(6.0), Length(120.0)),
    (
        Hole("pilot", "twist", Length(3.0), None, 1),
        Hole("wide", "twist", Length(12.0), None, 1, after="pilot"),
    ),
)
BEGAN_S = 1_700_000_000
QUIET = tuple(
    QuietSpan(start, start + 3600, 0)
    for start in range(BEGAN_S - 10 * 86_400 + 7200, BEGAN_S + 10 * 86_400, 86_400)
)
SAID, CHANGED = Counter[str](), Counter[str]()
DAY_US = 86_400_000_000
RANKS = tuple(Level)


@dataclass
class Secrets:
    """What really opens the way now: a table beside the kiosk, changed only by issuing."""

    pins: dict[str, str] = field(default_factory=dict)
    badges: dict[str, str] = field(default_factory=dict)
    codes: dict[str, list[str]] = field(default_factory=dict)
    issued: int = 100_000

    def new(self) -> str:
        self.issued += 1
        return str(self.issued)

    def forget(self, ref: str) -> None:
        self.pins.pop(ref, None)
        self.badges.pop(ref, None)
        self.codes.pop(ref, None)


class Workshop(RuleBasedStateMachine):
    """The real kiosk with the judge looking on, and what must hold of every event."""

    def __init__(self) -> None:
        super().__init__()
        base = shop()
        policy = replace(base.content.people, questions_first=True, lasts=20, lapses=10)
        group = Group(GROUP.id, GROUP.name, PUPILS)
        jobs = (*base.content.jobs, PLATE)
        self.shop = replace(
            base,
            content=replace(base.content, people=policy, jobs=jobs, quiet=QUIET),
            roster=Roster((group,), ADULTS),
        )
        self.kiosk: Kiosk = EMPTY
        self.now = Moment("boot0", 1_000_000_000, BEGAN_S * 1_000_000, 2)
        self.judge, self.past = Judge(house_of(self.shop)), Past()
        self.seq, self.boots = 0, 0
        self.secrets, self.waiting, self.is_right = Secrets(), "", False
        self.answered: set[str] = set()
        self.pilots = Counter[str]()
        self.begin()

    # --- one input, and what must hold of all it leads to --------------------------------------

    def give(self, given: Input) -> tuple[Event, ...]:
        decided = decide(self.shop, self.kiosk, given, self.now)
        for event in decided.events:
            self.seq += int(event.recorded)
            entry = Entry(self.seq if event.recorded else 0, self.now, event, decided.plan)
            session = self.kiosk.session
            here = session.step if session and not session.halt else None
            self.past, broken = self.judge.judge(self.past, entry, here)
            assert not broken, "; ".join(map(str, broken))
            self.look_at(event)
            before, self.kiosk = self.kiosk, advance(self.kiosk, entry)
            self.look_at_rights(before, event)
        self.past, owing = self.judge.rested(self.past)
        assert not owing, "; ".join(map(str, owing))
        return decided.events

    def look_at(self, event: Event) -> None:
        """What this walk holds every event to, beside the judge."""
        SAID[type(event).__name__] += 1
        match event:
            case PinPassed(ref):
                assert self.secrets.pins.get(ref) == self.waiting, f"{ref} has another PIN now"
            case BadgePassed(ref):
                assert self.secrets.badges.get(ref) == self.waiting, f"{ref} has another badge"
            case CodePassed(ref, _, number):
                assert self.waiting in self.secrets.codes.get(ref, []), "a spare code worked twice"
                self.secrets.codes[ref].remove(self.waiting)
                assert number
            case OkGiven(ref):
                assert may(self.shop, self.kiosk, ref, "ok", self.now)
            case QuestionsAnswered(ref):
                assert len(self.answered_right) >= len(self.shop.content.people.questions)
                self.answered.add(ref)
            case SessionStarted(ref, level):
                self.look_at_level(ref, level)
            case LevelGranted(ref, level):
                above = level in ("supervised", "signed_off")
                assert not above or ref in self.answered, "the questions were skipped"
            case PilotsDrilled(ref, _, _, count):
                self.pilots[ref] += count
            case HoleDrilled() if self.kiosk.session and self.kiosk.session.plan.job == PLATE.id:
                self.look_at_pilots(self.kiosk.session)
            case DrillingShown():
                session, lesson = self.kiosk.session, self.kiosk.lesson
                assert session is not None and lesson is not None
                assert lesson.confirmed and not lesson.stopped

    def look_at_pilots(self, session: Session) -> None:
        if session.plan.hole == 1:
            assert self.pilots[session.pupil] > 0, "a hole with no pilot"
            self.pilots[session.pupil] -= 1

    def look_at_rights(self, before: Kiosk, event: Event) -> None:
        """Whatever changes what somebody may do is in the record, with who has done it."""
        if rights(before) == rights(self.kiosk) or isinstance(event, NOBODY):
            return
        assert event.recorded, f"{event} changes what somebody may do, and is not recorded"
        known = {a.ref for a in self.kiosk.adults.known} | {p.ref for p in PUPILS} | OFFICE
        assert who(event) in known, f"{event} does not say who"
        CHANGED[type(event).__name__] += 1

    def look_at_level(self, ref: str, word: str) -> None:
        level = Level(word.replace("_", " "))
        pupil = next(p for p in PUPILS if p.ref == ref)
        if pupil.beside or pupil.visitor or ref in self.kiosk.pupils.beside:
            assert level is Level.ADULT_BESIDE
        if ref not in self.answered:
            assert RANKS.index(level) <= RANKS.index(Level.SHOWN), "the questions were skipped"
        lesson = self.kiosk.lesson
        assert lesson is not None and lesson.confirmed and not lesson.stopped

    def begin(self) -> None:
        self.give(KioskBegan("drill-1", "walk", "first"))
        for adult in (TEACHER, TECHNICIAN):
            self.issue(adult.ref, adult.role, 0)
        self.secrets.badges[TEACHER.ref] = self.secrets.new()
        self.give(SecretReady(TEACHER.ref, "badge", "command"))
        levels = tuple((p.ref, p.level.word) for p in PUPILS)
        self.give(RosterRead("roster", len(PUPILS), len(PUPILS), 0, 0, levels, (FLAGGED.ref,)))
        self.read("isolator", "on")
        self.read("starter", "off")

    def read(self, name: str, reading: str) -> None:
        if self.kiosk.machine.reading(name) is not Reading(reading):
            self.give(ReadingIs(name, Reading(reading), "settled"))

    def issue(self, ref: str, role: str, days: int) -> None:
        self.secrets.pins[ref] = self.secrets.new()
        self.secrets.codes[ref] = [f"{ref} {n} {self.secrets.new()}" for n in range(2)]
        machine = self.shop.machine.id if days else ""
        self.give(AdultIssued(ref, role, "command", machine, self.now.day + days, 2))

    def shown(self) -> list[Touch]:
        view = show(self.shop, self.kiosk, WORDS, self.now)
        called = tuple(b for b in (view.head.wrong, view.head.stop) if b)
        buttons = (*view.buttons, *view.choices, *called)
        return [b.touch for b in buttons if b.live and not isinstance(b.touch, SomethingWrong)]

    @property
    def answered_right(self) -> set[str]:
        """The questions that the pupil at the screen has just answered right."""
        left = set(self.kiosk.desk.picked("left"))
        return {q.id for q in self.shop.content.people.questions} - left

    def carry_out(self, events: tuple[Event, ...]) -> None:
        """What a technician asked for at the screen is issued."""
        for event in events:
            if not isinstance(event, SecretAsked):
                continue
            ref, what = event.adult, event.what
            if what == "pin":
                self.secrets.pins[ref] = self.secrets.new()
            elif what == "badge":
                self.secrets.badges[ref] = self.secrets.new()
            else:
                self.secrets.codes[ref] = [f"{ref} {n} {self.secrets.new()}" for n in range(2)]
            lines = {"pin": ("482915",), "codes": ("", "")}.get(what, ())
            self.give(SecretReady(ref, what, event.by, lines))
