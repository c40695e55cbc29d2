"""The composition root: puts content, record, people, contacts and the loop together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import NamedTuple

from hardware.reader import Reader, reader_for
from kiosk.clock import Clock
from kiosk.content.starting import Starting, load_for
from kiosk.core.inputs import AdultIssued, KioskBegan, KioskEnding, LevelsRead, RosterRead, Touched
from kiosk.core.kiosk import Looked, Shop
from kiosk.core.model import Adult, Group, Roster
from kiosk.core.problems import Place, Problem
from kiosk.core.view import View
from kiosk.core.view.fault_views import closed_record_view, content_fault_view
from kiosk.core.words import Words
from kiosk.people import (
    RosterGroup,
    hash_code,
    hash_pin,
    issue_codes,
    issue_pin,
    new_ref,
    pepper_for,
    read_roster,
    resolved,
    take_in,
    without_names,
)
from kiosk.runtime.asked import Asked
from kiosk.runtime.errands import Runners
from kiosk.runtime.feeding import Feeding
from kiosk.runtime.inbox import Command
from kiosk.runtime.loop import Loop
from kiosk.runtime.settings import Settings
from kiosk.runtime.sticks import Sticks
from kiosk.runtime.voice import has_voice
from kiosk.store import ReadOnlyRecord, Record, RecordFault, school_of

FIRST_TECHNICIAN = "Technician"


class Issued(NamedTuple):
    """What the first technician is let in with: shown once, kept as hashes."""

    name: str
    pin: str
    codes: tuple[str, ...]


@dataclass
class Running:
    """A kiosk that runs: what the screen asks and what ends it.

    `listen` takes what is to be called, from any thread, when there is another view, and
    `restless` says whether there may be one with no such call. `issued` holds what the first
    technician was issued at this start, if it was the first. `anew`: a technician has asked
    for the kiosk to start anew.
    """

    latest: Callable[[], View]
    post: Callable[[Touched], None]
    stop: Callable[[], None]
    words: Words
    listen: Callable[[Callable[[], None]], None] = lambda call: None
    restless: Callable[[], bool] = lambda: False
    loop: Loop | None = None
    issued: Issued | None = None
    fault: str = ""
    anew: Callable[[], bool] = lambda: False


def start(settings: Settings) -> Running:
    """Start a kiosk. Mistakes in the content or a closed record give a kiosk that says so."""
    return _start(settings, *_school_taken_in(settings.record))


def _start(settings: Settings, taken: Path | None, wrong: tuple[Problem, ...]) -> Running:
    """Start with the school's folder that was taken in, in place of the one in the settings."""
    school = taken or settings.school
    found = load_for(
        settings.machine, settings.sequences, school, settings.language, settings.lacks_school
    )
    roster, roster_problems = read_roster(settings.roster) if settings.roster else ((), ())
    problems = (*settings.problems, *wrong, *found.problems, *roster_problems)
    problems = tuple(sorted(problems, key=lambda problem: _turn(settings, problem)))
    if problems or found.machine is None or found.content is None:
        view = content_fault_view(settings.machine, found.words, problems)
        return _showing(found.words, view, "\n".join(str(p) for p in problems))
    clock = Clock(settings.boot)
    try:
        record = Record.open(settings.record, now=clock.now())
    except RecordFault as fault:
        view = closed_record_view(found.machine.name, found.words, fault.why)
        return _showing(found.words, view, str(fault))
    if (now := school_of(settings.record, record.taken_in())) != taken:
        record.close()  # a record that only opening it could bring to order
        return _start(settings, *_checked(now))
    told = _take_in(record, settings.roster, roster, found.content.people.names)
    shop = Shop(found.content, found.machine, _people(record), _software(), not record.unknown)
    shop = replace(_with_wishes(shop, record), has_voice=has_voice())
    return _run(settings, shop, found, record, clock, told)


def _turn(settings: Settings, problem: Problem) -> tuple[bool, int]:
    """The settings' own mistakes come first, by their lines; the others stay as they were."""
    own = bool(settings.file) and problem.place.file == settings.file
    return not own, problem.place.line if own else 0


def _school_taken_in(record: Path) -> tuple[Path | None, tuple[Problem, ...]]:
    """The school's folder that was taken in from a stick last, and what is wrong with it now."""
    try:
        with ReadOnlyRecord(record) as opened:
            return _checked(school_of(record, opened.taken_in()))
    except (RecordFault, OSError):
        return None, ()  # there is no record yet, or opening it will say what is wrong


def _checked(school: Path | None) -> tuple[Path | None, tuple[Problem, ...]]:
    """A school's folder as it was taken in, and what is wrong with it now."""
    if school is None:
        return None, ()
    from kiosk.export import amiss  # the room of downloads is loaded only where it is needed

    wrong = amiss(school.parent)
    advice = "take the package in again with `pillarside take-in`"
    return school, (Problem(Place(str(school)), wrong, "", advice),) if wrong else ()


def _with_wishes(shop: Shop, record: Record) -> Shop:
    """What pupils have chosen and the texts of notes, as the record has them now."""
    spoken, habits = tuple(record.languages().items()), tuple(record.habits().items())
    notes = tuple((n.note, n.text) for n in record.known_notes())
    return replace(shop, languages=spoken, habits=habits, notes=notes)


def _take_in(
    record: Record, file: Path | None, groups: tuple[RosterGroup, ...], names: bool
) -> RosterRead | None:
    """Take in the roster that the kiosk is started with; what to tell the record if it is new.

    A file that an earlier start has taken in is left alone: what came since stands.
    """
    if file is None:
        return None
    digest = sha256(file.read_bytes() + bytes([names])).hexdigest()
    if record.started_with() == digest:
        return None
    groups = groups if names else without_names(groups)
    if record.groups() == resolved(record, groups):
        record.keep_start(digest)
        return None
    return take_in(record, groups, names, "roster", digest)


def _people(record: Record) -> Roster:
    """The pupils with their references, and the adults, as the record has them now."""
    return Roster(record.groups(), record.adults())


def _showing(words: Words, view: View, fault: str) -> Running:
    """A kiosk that only shows why it does not run."""
    return Running(lambda: view, lambda touched: None, lambda: None, words, fault=fault)


def _software() -> str:
    try:
        return version("pillarside")
    except PackageNotFoundError:
        return "0"


def _run(
    settings: Settings,
    shop: Shop,
    found: Starting,
    record: Record,
    clock: Clock,
    told: RosterRead | None,
) -> Running:
    pepper = pepper_for(settings.record)
    parts: list[Loop] = []
    runners = Runners(
        record,
        pepper,
        lambda given: parts[0].post(given),
        Sticks(settings, record.path, lambda given: parts[0].post(given)),
        lambda: _read_people(parts[0], _people(record), record),
        shop.machine.id,
        lambda: clock.now().day,
        lambda found: _keep_looked(parts[0], found),
    )
    loop = Loop(shop, found.words, record, clock, runners, record.restore(), (RecordFault,))
    parts.append(loop)
    issued = _begin(loop, record, pepper, clock, told)
    asked = Asked(settings.record, pepper, loop.post)
    reader = _reader(settings, shop, loop, clock)
    loop.start()
    if reader:
        reader.start()
    runners.tidy(found.kept_for, (p.ref for g in shop.roster.groups for p in g.pupils))
    feeding = Feeding(settings, record.path)
    stop = _stopper(loop, runners, asked, reader, record, clock, feeding)

    def listen(call: Callable[[], None]) -> None:
        loop.on_news = call

    news = {"listen": listen, "restless": lambda: loop.is_restless, "anew": runners.anew.is_set}
    return Running(
        loop.latest, loop.post_and_wait, stop, found.words, **news, loop=loop, issued=issued
    )


def _keep_looked(loop: Loop, found: tuple[Looked, ...]) -> None:
    """What was found of the computer, for the technician's corner and for a warning."""
    loop.shop = replace(loop.shop, computer=found)


def _reader(settings: Settings, shop: Shop, loop: Loop, clock: Clock) -> Reader | None:
    """The contact reader, where the machine has contacts. Without a port they stay unknown."""
    wiring = shop.machine.wiring
    if wiring.reader == "none" or not settings.port:
        return None
    return reader_for(wiring, settings.port, loop.post, clock.us)


def _begin(
    loop: Loop, record: Record, pepper: bytes, clock: Clock, told: RosterRead | None
) -> Issued | None:
    """Record the start, the roster's levels and, at the very first, a technician's PIN.

    Spare codes come with it, so that no order of wrong PINs keeps everybody out.
    """
    shop = loop.shop
    content = record.keep_content(shop.content)
    loop.post(KioskBegan(shop.machine.id, shop.software, record.after, content))
    if told is not None:
        loop.post(told)
        loop.turn(clock.now())
        loop.post(Command({"do": "names_changed"}, lambda answer: None))
    loop.post(LevelsRead(_levels(shop.roster.groups)))
    issued = None
    if not loop.kiosk.adults.has_technician:
        issued = Issued(FIRST_TECHNICIAN, issue_pin(), issue_codes())
        adult = Adult(new_ref(), issued.name, "technician")
        record.keep_adult(adult, hash_pin(issued.pin, pepper))
        record.keep_codes(adult.ref, [hash_code(code, pepper) for code in issued.codes])
        _read_people(loop, replace(shop.roster, adults=record.adults()), record)
        loop.post(AdultIssued(adult.ref, adult.role, "first", codes=len(issued.codes)))
    loop.turn(clock.now())
    return issued


def _levels(groups: tuple[Group, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((p.ref, p.level.word) for g in groups for p in g.pupils)


def _read_people(loop: Loop, roster: Roster, record: Record) -> None:
    """The names and numbers on the screen follow the record; a new number has its level."""
    loop.shop = _with_wishes(replace(loop.shop, roster=roster), record)
    loop.post(LevelsRead(_levels(roster.groups)))


def _stopper(
    loop: Loop,
    runners: Runners,
    asked: Asked,
    reader: Reader | None,
    record: Record,
    clock: Clock,
    feeding: Feeding,
) -> Callable[[], None]:
    def stop() -> None:
        feeding.stop()
        if reader:
            reader.stop()
        asked.stop()
        if loop.stop():  # else nothing is told, and the next start asks what it asks after a cut
            loop.post(KioskEnding())
            loop.turn(clock.now())
        runners.stop()
        record.close()

    return stop
