"""The risk assessment as a record to sign: each hazard, and what carries out each measure."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.assessment import CHECK, STEP, carried_out_by, measures_of
from kiosk.core.model import Content, Control, Hazard
from kiosk.core.words import Words
from kiosk.export.sheets.values import Asked, Row, once, title_of


@dataclass(frozen=True)
class Measure:
    """A control measure in words, and what carries it out."""

    text: str
    by: str


@dataclass(frozen=True)
class HazardPart:
    """One hazard with all that the record says of it."""

    name: str
    harm: str
    who: str
    notes: tuple[str, ...]
    measures: tuple[Measure, ...]
    residual: str


@dataclass(frozen=True)
class RiskRecord:
    """The whole record. `checks` is what is looked at now and then, with how often."""

    title: str
    machines: str
    facts: tuple[Row, ...]
    hazards: tuple[HazardPart, ...]
    checks: tuple[Row, ...]
    invented: bool


def risk_record(asked: Asked) -> RiskRecord:
    """The record of all machines: one assessment stands for them."""
    content, words = asked.content, asked.words
    written = content.assessment
    return RiskRecord(
        title=words.say("sheet.assessment"),
        machines=", ".join(words.say(f"machine.{m.id}") for m in content.machines),
        facts=_facts(content, words),
        hazards=tuple(_part(content, words, hazard) for hazard in written.hazards),
        checks=tuple(Row(check.look, check.every) for check in written.installation),
        invented=written.invented,
    )


def _facts(content: Content, words: Words) -> tuple[Row, ...]:
    written = content.assessment
    signed = written.signed or words.say("sheet.not_signed")
    return (
        Row(words.say("sheet.owner"), written.owner),
        Row(words.say("sheet.review"), written.review),
        Row(words.say("sheet.signed"), signed),
        Row(words.say("sheet.eye_protection"), written.eye_protection),
    )


def _part(content: Content, words: Words, hazard: Hazard) -> HazardPart:
    measures = measures_of(content.assessment, hazard)
    return HazardPart(
        name=words.say(f"hazard.{hazard.id}"),
        harm=hazard.harm,
        who=", ".join(hazard.who),
        notes=once((hazard.by_year, hazard.by_need)),
        measures=tuple(_measure(content, words, control) for control in measures),
        residual=words.say(f"sheet.risk.{hazard.residual}"),
    )


def _measure(content: Content, words: Words, control: Control) -> Measure:
    text = words.say(f"control.{control.id}")
    if control.by == STEP:
        return Measure(text, "; ".join(_steps(content, words, control)))
    if control.by == CHECK:
        return Measure(text, words.say("sheet.by_check", what=_every(content, words, control)))
    return Measure(text, words.say("sheet.by_rule"))


def _steps(content: Content, words: Words, control: Control) -> tuple[str, ...]:
    """The drilling steps by their titles; of recoveries, what each is for."""
    parts = {step.id: step.part for step in content.drilling.steps}
    steps = carried_out_by((content.drilling,), control)
    troubles = (r.id for r in content.recoveries if carried_out_by((r,), control))
    return once(
        (
            *(title_of(words, step, parts[step]) for step in steps),
            *(words.say(f"trouble.{trouble}.title") for trouble in troubles),
        )
    )


def _every(content: Content, words: Words, control: Control) -> str:
    """How often it is looked at: what the assessment says, or on each day of use."""
    checks = {check.id: check.every for check in content.assessment.installation}
    return checks.get(control.id) or words.say("sheet.each_day")
