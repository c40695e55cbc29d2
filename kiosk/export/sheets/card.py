"""The lesson card: one job on one machine, to be carried to the bench."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.model import Work
from kiosk.core.plan.wording import hole_words, named
from kiosk.core.view import Picture
from kiosk.core.view.jobs import name_of_job
from kiosk.core.words import Words
from kiosk.export.sheets.values import Asked, Drawn, NoSheet, Row, drawn, title_of
from kiosk.export.sheets.ways import BEGINNER, Shown, looked_for, pictures_of, plans_of, steps_of

DRAWINGS = ("mark", "clamps", "depth", "tape", "belts", "dial")
SIZE = (58.0, 43.0)  # mm


@dataclass(frozen=True)
class CardStep:
    """A step with its number, its title and what to do."""

    number: int
    title: str
    say: tuple[str, ...]


@dataclass(frozen=True)
class CardHole:
    """One kind of hole of the job."""

    title: str
    facts: tuple[Row, ...]
    pictures: tuple[Drawn, ...]
    steps: tuple[CardStep, ...]
    look_for: tuple[str, ...]


@dataclass(frozen=True)
class LessonCard:
    """The whole card. `left_out` says which holes this machine can't drill."""

    title: str
    job: str
    machine: str
    facts: tuple[Row, ...]
    holes: tuple[CardHole, ...]
    left_out: int
    invented: bool


def lesson_card(asked: Asked) -> LessonCard:
    """The card of a job on a machine. Raises NoSheet where none of its holes can be drilled."""
    words, machine, job = asked.words, asked.the_machine(), asked.the_job()
    plans = plans_of(asked.content, machine, (job,))
    if not plans:
        raise NoSheet(f"no hole of {job.id} can be drilled on {machine.id}")
    material = words.say(f"material.{job.material}")
    return LessonCard(
        title=words.say("sheet.card"),
        job=name_of_job(words, job),
        machine=words.say(f"machine.{machine.id}"),
        facts=(
            Row(words.say("sheet.material"), material),
            Row(words.say("sheet.work"), _size(job.work, words)),
            Row(words.say("sheet.level"), words.say(f"level.{BEGINNER.name.lower()}")),
        ),
        holes=tuple(_hole(shown, words) for shown in plans),
        left_out=len(job.holes) - len(plans),
        invented=job.invented or machine.invented,
    )


def _size(work: Work, words: Words) -> str:
    sides = (work.width, work.thickness, work.length)
    return " × ".join(words.number(side) for side in sides)


def _hole(shown: Shown, words: Words) -> CardHole:
    pictures = pictures_of((shown,), DRAWINGS)
    return CardHole(
        title=hole_words(words, shown.job, shown.job.holes[shown.plan.hole]),
        facts=_facts(shown, words),
        pictures=tuple(_drawn(step, picture, shown, words) for step, picture in pictures),
        steps=_steps(shown, words),
        look_for=looked_for(shown.plan, words),
    )


def _facts(shown: Shown, words: Words) -> tuple[Row, ...]:
    values = named(dict(shown.plan.values), words)
    rows = [
        Row(words.say("sheet.bit"), words.say(f"bit.{shown.plan.set_up.bit}")),
        Row(words.say("sheet.setting"), str(values["setting"])),
        Row(words.say("sheet.speed"), words.number(values["speed"])),
        Row(words.say("sheet.holding"), str(values["way"])),
    ]
    if shown.plan.set_up.stop is not None:
        rows.append(Row(words.say("sheet.stop"), words.number(shown.plan.set_up.stop)))
    return tuple(rows)


def _drawn(step: str, picture: Picture, shown: Shown, words: Words) -> Drawn:
    return drawn(picture, words.say(f"step.{step}.title"), words, SIZE)


def _steps(shown: Shown, words: Words) -> tuple[CardStep, ...]:
    values = {**named(dict(shown.plan.values), words), "hole": 1, "holes": shown.plan.holes}
    return tuple(
        CardStep(
            number,
            title_of(words, step.id, step.part),
            tuple(words.say(f"step.{step.id}.say", **values).split("\n")),
        )
        for number, step in enumerate(steps_of(shown), start=1)
    )
