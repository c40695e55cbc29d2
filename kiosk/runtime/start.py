"""The composition root: puts content, record, people, contacts and the loop together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from importlib.metadata import PackageNotFoundError, version
from typing import NamedTuple

from hardware.reader import Reader, reader_for
from kiosk.clock import Clock
from kiosk.content import Loaded, load
from kiosk.content.retention import Retention, load_retention
from kiosk.core.inputs import AdultIssued, KioskBegan, KioskEnding, LevelsRead, RosterRead, Touched
from kiosk.core.kiosk import Shop
from kiosk.core.model import Adult, Group, Machine, Roster
from kiosk.core.problems import Place, Problem, nearest
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
from kiosk.runtime.loop import Loop
from kiosk.runtime.settings import Settings
from kiosk.runtime.voice import has_voice
from kiosk.store import Record, RecordFault

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
    technician was issued at this start, if it was the first.
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


def start(settings: Settings) -> Running:
    """Start a kiosk. Mistakes in the content or a closed record give a kiosk that says so."""
    loaded = load(settings.sequences, settings.school, settings.language)
    machine, problems = _machine(loaded, settings.machine)
    roster, roster_problems = read_roster(settings.roster) if settings.roster else ((), ())
    _, retention_problems = load_retention(settings.sequences, settings.school)
    said = _language_problems(settings, loaded.words)
    problems = (*settings.problems, *problems, *roster_problems, *retention_problems, *said)
    if problems or machine is None or loaded.content is None:
        view = content_fault_view(settings.machine, loaded.words, problems)
        return _showing(loaded.words, view, "\n".join(str(p) for p in problems))
    clock = Clock(settings.boot)
    try:
        record = Record.open(settings.record, now=clock.now())
    except RecordFault as fault:
        view = closed_record_view(machine.name, loaded.words, fault.why)
        return _showing(loaded.words, view, str(fault))
    told = _take_in(record, roster, loaded.content.people.names)
    people = partial(_people, record)
    shop = Shop(loaded.content, machine, people(), _software(), not record.unknown)
    shop = replace(_with_wishes(shop, record), has_voice=has_voice())
    return _run(settings, shop, loaded.words, record, clock, people, told)


def _with_wishes(shop: Shop, record: Record) -> Shop:
    """The languages and habits that pupils have chosen, as the record has them now."""
    spoken, habits = tuple(record.languages().items()), tuple(record.habits().items())
    return replace(shop, languages=spoken, habits=habits)


def _take_in(record: Record, groups: tuple[RosterGroup, ...], names: bool) -> RosterRead | None:
    """Take in the roster that the kiosk is started with; what to tell the record if it is new."""
    if not groups:
        return None
    groups = groups if names else without_names(groups)
    if record.groups() == resolved(record, groups):
        return None
    return take_in(record, groups, names, "roster")


def _people(record: Record) -> Roster:
    """The pupils with their references, and the adults, as the record has them now."""
    return Roster(record.groups(), record.adults())


def _machine(loaded: Loaded, id: str) -> tuple[Machine | None, tuple[Problem, ...]]:
    if loaded.content is None:
        return None, loaded.problems
    machine = loaded.content.machine(id)
    if machine is not None:
        return machine, loaded.problems
    names = [m.id for m in loaded.content.machines]
    found = Problem(Place("--machine"), repr(id), ", ".join(names), nearest(id, names))
    return None, (*loaded.problems, found)


def _language_problems(settings: Settings, words: Words) -> tuple[Problem, ...]:
    """A language that has no file would be shown in English."""
    names = sorted(words.others)
    if settings.language in names:
        return ()
    advice = nearest(settings.language, names)
    return (Problem(Place("--language"), repr(settings.language), ", ".join(names), advice),)


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
    words: Words,
    record: Record,
    clock: Clock,
    people: Callable[[], Roster],
    told: RosterRead | None,
) -> Running:
    pepper = pepper_for(settings.record)
    parts: list[Loop] = []
    runners = Runners(
        record,
        pepper,
        lambda given: parts[0].post(given),
        settings.download_to,
        lambda: _read_people(parts[0], people(), record),
        shop.machine.id,
        lambda: clock.now().day,
    )
    loop = Loop(shop, words, record, clock, runners, record.restore(), (RecordFault,))
    parts.append(loop)
    issued = _begin(loop, record, pepper, clock, told)
    asked = Asked(settings.record, pepper, loop.post)
    reader = _reader(settings, shop, loop, clock)
    loop.start()
    if reader:
        reader.start()
    runners.tidy(_kept_for(settings), (p.ref for g in shop.roster.groups for p in g.pupils))
    stop = _stopper(loop, runners, asked, reader, record, clock)

    def listen(call: Callable[[], None]) -> None:
        loop.on_news = call

    news = {"listen": listen, "restless": lambda: loop.is_restless}
    return Running(loop.latest, loop.post_and_wait, stop, words, **news, loop=loop, issued=issued)


def _kept_for(settings: Settings) -> Retention:
    """How long what is kept; a file with mistakes has been refused before."""
    return load_retention(settings.sequences, settings.school)[0]


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
) -> Callable[[], None]:
    def stop() -> None:
        if reader:
            reader.stop()
        asked.stop()
        loop.stop()
        loop.post(KioskEnding())
        loop.turn(clock.now())
        runners.stop()
        record.close()

    return stop
