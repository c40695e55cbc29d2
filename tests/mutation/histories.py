"""Histories of a lesson as it should go, and each with one thing wrong, for the judge.

For every rule there must be a history to which no other rule objects: without that rule nobody
would see what went wrong. Wrong histories are made from right ones: an event that comes where it
should not, or a step that made sure of less than it says.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import product

from kiosk.core.events import Entry, Event, SessionStarted
from kiosk.core.kiosk import advance, decide
from kiosk.core.model import Fact
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.rules import Here, Judge, Past
from kiosk.core.walk.beginning import begun
from kiosk.core.walk.grounds import Ground
from kiosk.core.walk.spots import NOW, later
from tests.mutation.arenas import way_to
from tests.mutation.corpus import events_of, ways_before


@dataclass(frozen=True)
class Told:
    """One event of a history, the step that stood before it, and whether its input ends with it."""

    entry: Entry
    here: Here
    ends: bool


@dataclass(frozen=True)
class Wrong:
    """What was done to a history, and the rules that object to it."""

    what: str
    rules: frozenset[str]
    said: str


def history(ground: Ground, start: str) -> tuple[Told, ...]:
    """All events of a lesson from the kiosk's first start to a place."""
    heard: list[Told] = []
    kiosk, now = begun(ground, ()).spot.kiosk, NOW
    for what in way_to(start, ground):
        now = later(now, 1.0)
        decided = decide(ground.shop, kiosk, what, now)
        for number, event in enumerate(decided.events, start=1):
            entry = Entry(int(event.recorded), now, event, decided.plan)
            here = kiosk.session.step if kiosk.session and not kiosk.session.halt else None
            heard.append(Told(entry, here, number == len(decided.events)))
            kiosk = advance(kiosk, entry)
    return tuple(heard)


def opening(ground: Ground) -> Past:
    """What the judge remembers of the kiosk's first start."""
    return begun(ground, ()).spot.past


def objections(judge: Judge, past: Past, told: Iterable[Told]) -> Iterator[tuple[Past, Wrong]]:
    """The memory before each event, and what the judge says of it."""
    for one in told:
        before = past
        past, broken = judge.judge(past, one.entry, one.here)
        if one.ends:
            past, late = judge.rested(past)
            broken += late
        said = "; ".join(str(b) for b in broken)
        yield before, Wrong("", frozenset(b.rule.id for b in broken), said)


def objected(judge: Judge, past: Past, told: tuple[Told, ...], what: str) -> Wrong:
    """The first objection to a history; none if it is right."""
    found = (wrong for _, wrong in objections(judge, past, told) if wrong.rules)
    return replace(next(found, Wrong("", frozenset(), "")), what=what)


# --- one thing wrong -----------------------------------------------------------------------------


def less_sure(judge: Judge, past: Past, told: tuple[Told, ...]) -> Iterator[Wrong]:
    """The history where no step makes sure of one fact; and where one event was left out."""
    for fact in Fact:
        unsure = tuple(_unsure(one, fact) for one in told)
        if unsure != told:
            yield objected(judge, past, unsure, f"no step makes sure of {fact.value}")
    for number, one in enumerate(told):
        rest = told[:number] + told[number + 1 :]
        yield objected(judge, past, rest, f"{type(one.entry.event).__name__} is left out")


def out_of_place(
    judge: Judge, past: Past, told: tuple[Told, ...], ground: Ground
) -> Iterator[Wrong]:
    """At the end of a history: an event that should not be, after something that may be."""
    trouble, plan = ground.shop.content.recoveries[0].id, ground.plan
    for one in told:
        past = _after(judge, past, one)
    last = told[-1]
    for before in ways_before(trouble):
        then, right = past, True
        for event in before:
            then, broken = judge.judge(then, _entry(last, event, plan), None)
            right = right and not broken
        for event, seconds in product(events_of(plan, trouble) if right else (), LATER):
            alone = Told(_entry(last, event, plan, seconds), _here(told), True)
            after = ", ".join(type(e).__name__ for e in before) or type(last.entry.event).__name__
            yield objected(judge, then, (alone,), f"{event} after {after}")


LATER = (0.0, 900.0, 54_000.0)


def _after(judge: Judge, past: Past, told: Told) -> Past:
    past, _ = judge.judge(past, told.entry, told.here)
    return judge.rested(past)[0] if told.ends else past


def _entry(last: Told, event: Event, plan: Plan, seconds: float = 0.0) -> Entry:
    begins = isinstance(event, SessionStarted)
    return Entry(1, later(last.entry.at, seconds), event, plan if begins else None)


def _here(told: tuple[Told, ...]) -> Here:
    return told[-1].here


def _unsure(told: Told, fact: Fact) -> Told:
    plan = told.entry.plan
    if plan is None:
        return told
    return replace(told, entry=replace(told.entry, plan=_without(plan, fact)))


def _without(plan: Plan, fact: Fact) -> Plan:
    """The plan whose steps do not make sure of a fact."""
    return replace(
        plan,
        fresh=tuple(_step(s, fact) for s in plan.fresh),
        joining=tuple(_step(s, fact) for s in plan.joining),
        further=tuple(_step(s, fact) for s in plan.further),
    )


def _step(step: PlanStep, fact: Fact) -> PlanStep:
    return replace(step, makes=tuple(made for made in step.makes if made is not fact))
