"""The commissioning sheet: what a competent person fits, reads off and signs before first use."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from kiosk.core.machining.belts import plate_doubts, speed_figures
from kiosk.core.model import ContactPair, Machine
from kiosk.core.plan.wording import pre_use_line
from kiosk.core.words import Words
from kiosk.export.sheets.values import Asked, Row


@dataclass(frozen=True)
class FittingSheet:
    """The whole sheet. `signs` are lines with a box to tick and a place to sign."""

    title: str
    machine: str
    facts: tuple[Row, ...]
    speeds: tuple[Row, ...]
    doubts: tuple[str, ...]
    contacts: tuple[Row, ...]
    seen: tuple[Row, ...]
    pre_use: tuple[str, ...]
    checks: tuple[Row, ...]
    invented: bool


def fitting_sheet(asked: Asked) -> FittingSheet:
    """The sheet of one machine, with what `commission` has seen where it has been run."""
    words, machine = asked.words, asked.the_machine()
    installation = asked.content.assessment.installation
    return FittingSheet(
        title=words.say("sheet.commissioning"),
        machine=words.say(f"machine.{machine.id}"),
        facts=_facts(machine, words),
        speeds=_speeds(machine),
        doubts=_doubts(machine),
        contacts=_contacts(machine, words),
        seen=_seen(asked.seen, words),
        pre_use=tuple(pre_use_line(words, machine.id, item.id) for item in machine.pre_use),
        checks=tuple(Row(check.look, check.every) for check in installation),
        invented=machine.invented,
    )


def _facts(machine: Machine, words: Words) -> tuple[Row, ...]:
    rows = (
        ("chuck", words.number(machine.chuck_capacity)),
        ("stroke", words.number(machine.stroke)),
        ("throat", words.number(machine.throat)),
        ("motor", words.number(machine.motor)),
        ("run_down", words.number(machine.run_down)),
    )
    return tuple(Row(words.say(f"sheet.fact.{name}"), value) for name, value in rows)


def _speeds(machine: Machine) -> tuple[Row, ...]:
    """Each speed on the plate, and beside it what the pulleys make of it."""
    if machine.pulleys is None:
        return tuple(Row(f"{speed.rpm:.0f} rpm", "") for speed in machine.speeds)
    worked = speed_figures(machine.pulleys, machine.positions or None)
    pairs = zip(machine.speeds, worked, strict=False)
    return tuple(Row(f"{speed.rpm:.0f} rpm", figure.working) for speed, figure in pairs)


def _doubts(machine: Machine) -> tuple[str, ...]:
    if machine.pulleys is None:
        return ()
    return plate_doubts(machine.speeds, machine.pulleys, machine.positions or None)


def _contacts(machine: Machine, words: Words) -> tuple[Row, ...]:
    if machine.wiring is None:
        return ()
    inputs = machine.wiring.inputs
    return tuple(Row(words.say(f"input.{name}"), _pair(pair, words)) for name, pair in inputs)


def _pair(pair: ContactPair, words: Words) -> str:
    found = []
    if pair.make is not None:
        found.append(words.say("sheet.make", n=pair.make))
    if pair.on_break is not None:
        found.append(words.say("sheet.break", n=pair.on_break))
    return ", ".join(found)


def _seen(seen: Mapping[str, Any], words: Words) -> tuple[Row, ...]:
    """What was seen at commissioning: each input in each state, with its contacts' levels."""
    levels = {True: words.say("sheet.closed"), False: words.say("sheet.open")}
    return tuple(
        Row(
            f"{words.say('input.' + each['input'])}: {words.say('isolator.' + each['state'])}",
            ", ".join(f"{number} {levels[bool(level)]}" for number, level in each["levels"]),
        )
        for each in seen.get("seen", ())
    )
