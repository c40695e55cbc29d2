"""The walk: each contact is seen in each state before it is accepted.

A pair whose wires are exchanged reads like the opposite state. Only someone who turns the handle
and looks can find that, so the walk says which way to turn it and holds the levels against it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Protocol

from kiosk.core.model import ContactPair, Wiring
from kiosk.runtime.commissioning.sheet import Seen
from kiosk.runtime.commissioning.watching import Watcher

ASKED = {
    ("isolator", "off"): "Turn the isolator to O.",
    ("isolator", "on"): "Turn the isolator to I.",
    ("starter", "off"): "Leave the drill stopped: red stop pressed, spindle still.",
    ("starter", "on"): "Chuck empty, guard down, nobody near: start the drill. Let it run.",
    ("starter", "stop"): "Press the red stop. Wait until the spindle is still.",
    ("spindle", "on"): "Let the drill run.",
    ("spindle", "off"): "Press the red stop. Wait until the spindle is still.",
    ("guard", "off"): "Drill still: swing the guard right up.",
    ("guard", "on"): "Swing the guard right down.",
    ("extraction", "off"): "Switch the extraction off.",
    ("extraction", "on"): "Switch the extraction on.",
}
KEYS = "Enter: it is so now   x: exchange its numbers   l: leave it out   q: stop, write nothing"


class Person(Protocol):
    """Who is walked through: told, asked, and shown levels that move."""

    def say(self, text: str) -> None: ...

    def ask(self, question: str, usual: str) -> str: ...

    def watch(self, request: str, look: Callable[[], str]) -> str: ...


class Stopped(Exception):
    """The technician stopped; nothing is written."""


@dataclass(frozen=True)
class Walked:
    """What came of the walk. The wiring has the accepted inputs only."""

    wiring: Wiring
    seen: tuple[Seen, ...] = ()
    left_out: tuple[str, ...] = ()
    run_down_ms: int | None = None


def walk(wiring: Wiring, watcher: Watcher, person: Person) -> Walked:
    """Every input in each of its states. Raises `Stopped`."""
    walked = Walked(replace(wiring, inputs=()))
    for name, pair in wiring.inputs:
        accepted = _walk_input(name, pair, _states(name, wiring), watcher, person)
        if accepted is None:
            walked = replace(walked, left_out=(*walked.left_out, name))
            continue
        pair, seen = accepted
        inputs = (*walked.wiring.inputs, (name, pair))
        walked = replace(walked, wiring=replace(wiring, inputs=inputs), seen=(*walked.seen, *seen))
    return replace(walked, run_down_ms=_run_down_ms(walked.wiring, watcher))


def _states(name: str, wiring: Wiring) -> tuple[str, ...]:
    """The states in which an input is looked at; a running drill is stopped at the end."""
    if name == "spindle":
        return ("on", "off") if wiring.has("starter") else ("off", "on", "off")
    if name == "starter" and not wiring.has("spindle"):
        return ("off", "on", "stop")
    return ("off", "on")


def _walk_input(
    name: str, pair: ContactPair, states: tuple[str, ...], watcher: Watcher, person: Person
) -> tuple[ContactPair, tuple[Seen, ...]] | None:
    """The input's contacts once each state was seen; None if it is left out."""
    seen: list[Seen] = []
    while len(seen) < len(states):
        state = states[len(seen)]
        typed = person.watch(f"{name}: {ASKED[name, state]}", watcher.shown).strip().lower()
        if typed == "q":
            raise Stopped
        if typed == "l":
            return None
        if typed == "x":
            pair, seen = ContactPair(pair.on_break, pair.make), []
            person.say(f"{name} is now {described(pair)}. From the beginning:")
            continue
        levels = watcher.settled()
        wrong = watcher.shown() if levels is None else mismatch(pair, state == "on", levels)
        if levels is None or wrong:
            person.say(f"Not accepted: {wrong or 'the levels still move.'}")
            continue
        seen.append(Seen(name, "on" if state == "on" else "off", _of(pair, levels)))
        person.say(f"Seen: {name} {seen[-1].state}.")
    return pair, tuple(seen)


def _of(pair: ContactPair, levels: dict[int, bool]) -> tuple[tuple[int, bool], ...]:
    numbers = sorted(n for n in (pair.make, pair.on_break) if n is not None)
    return tuple((n, levels[n]) for n in numbers)


def mismatch(pair: ContactPair, on: bool, levels: dict[int, bool]) -> str:
    """What is wrong with the levels in a state that a person has seen; empty if nothing is."""
    expected = {pair.make: on, pair.on_break: not on}
    wired = {number: level for number, level in expected.items() if number is not None}
    missing = [str(number) for number in wired if number not in levels]
    if missing:
        return f"the box shows no input {', '.join(missing)}."
    found = {number: levels[number] for number in wired}
    if found == wired:
        return ""
    return _explained(wired, found)


def _explained(wired: dict[int, bool], found: dict[int, bool]) -> str:
    shown = ", ".join(f"{n} is {'closed' if up else 'open'}" for n, up in sorted(found.items()))
    if all(found[n] is not wired[n] for n in wired):
        if len(wired) == 2:
            return f"{shown}: the two wires are exchanged. Change them, or press x."
        return f"{shown}: the wrong way round, a wire off, or another number. Or press x."
    if any(found.values()):
        return f"{shown}: both at once. A short, or a wrong number."
    return f"{shown}: neither. A wire is off, or a wrong number."


def described(pair: ContactPair) -> str:
    """A pair in words."""
    parts = {"closes at": pair.make, "opens at": pair.on_break}
    return ", ".join(f"{words} input {n}" for words, n in parts.items() if n is not None)


def _run_down_ms(wiring: Wiring, watcher: Watcher) -> int | None:
    """How long the spindle ran on after the starter, where both have contacts."""
    pairs = dict(wiring.inputs)
    if not {"starter", "spindle"} <= pairs.keys():
        return None
    stopped, still = (_moved(pairs[name], watcher) for name in ("starter", "spindle"))
    if stopped is None or still is None or still <= stopped:
        return None
    return round((still - stopped) / 1000)


def _moved(pair: ContactPair, watcher: Watcher) -> int | None:
    number = pair.make if pair.make is not None else pair.on_break
    return None if number is None else watcher.moved_us(number)
