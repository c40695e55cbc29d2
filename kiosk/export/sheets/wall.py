"""The sheet on the wall by the drill: the order of work, the speeds, and work with no kiosk."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.model import BitKind, Content
from kiosk.core.view import Picture
from kiosk.core.view.jobs import name_of_job
from kiosk.core.words import Words
from kiosk.export.sheets.chart import ChartTable, chart_tables
from kiosk.export.sheets.values import Asked, Drawn, NoSheet, Row, drawn
from kiosk.export.sheets.ways import Shown, looked_for, order_of, pictures_of, plans_of

DRAWINGS = (
    *("goggles", "hair", "clothes", "isolator", "plug_out", "belts", "dial"),
    *("fit_bit", "grip", "key_hook", "clamps", "guard"),
)
SIZE = (54.0, 40.0)  # mm
WHERE_SIZE = (84.0, 58.0)  # mm
BLANK_ROWS = 10
COMMON_BITS = 3  # on A4; an A3 sheet has room for all


@dataclass(frozen=True)
class WallSheet:
    """The whole sheet. `how` says how a cell of the chart is read; `down` is for no kiosk."""

    title: str
    machine: str
    where: Drawn
    order: tuple[Row, ...]
    pictures: tuple[Drawn, ...]
    look_for: tuple[str, ...]
    example: str
    charts: tuple[ChartTable, ...]
    how: str
    troubles: tuple[Row, ...]
    down: tuple[str, ...]
    columns: tuple[str, ...]
    blank: int
    invented: bool


def wall_sheet(asked: Asked) -> WallSheet:
    """The sheet of one machine. Raises NoSheet where no job at all can be drilled on it."""
    content, words, machine = asked.content, asked.words, asked.the_machine()
    plans = plans_of(content, machine, content.jobs)
    if not plans:
        raise NoSheet(f"no job of the content can be drilled on {machine.id}")
    first = plans[0]
    return WallSheet(
        title=words.say("sheet.wall"),
        machine=words.say(f"machine.{machine.id}"),
        where=drawn(Picture("stops"), words.say("sheet.stops"), words, WHERE_SIZE),
        order=order_of(content, plans, words),
        pictures=_pictures(plans, words),
        look_for=looked_for(first.plan, words),
        example=_example(first, words),
        charts=chart_tables(content, machine, _bits(content, plans, asked.paper), words),
        how=words.say(f"sheet.how.{machine.drive.replace(' ', '_')}"),
        troubles=tuple(_trouble(each.id, words) for each in content.recoveries),
        down=tuple(words.say("sheet.down").split("\n")),
        columns=tuple(words.say("sheet.columns").split("\n")),
        blank=BLANK_ROWS,
        invented=machine.invented,
    )


def _pictures(plans: tuple[Shown, ...], words: Words) -> tuple[Drawn, ...]:
    found = pictures_of(plans, DRAWINGS)
    return tuple(drawn(p, words.say(f"step.{step}.title"), words, SIZE) for step, p in found)


def _example(shown: Shown, words: Words) -> str:
    job = name_of_job(words, shown.job)
    bit = words.say(f"bit.{shown.plan.set_up.bit}")
    return words.say("sheet.example", job=job, diameter=shown.plan.set_up.diameter, bit=bit)


def _bits(content: Content, plans: tuple[Shown, ...], paper: str) -> tuple[BitKind, ...]:
    """On A3 every kind of bit; on A4 those of the school's jobs, the most used first."""
    if paper == "A3":
        return content.bits
    used = [each.plan.set_up.bit for each in plans]
    by_use = sorted(set(used), key=lambda bit: (-used.count(bit), bit))
    return tuple(b for b in content.bits if b.id in by_use[:COMMON_BITS])


def _trouble(id: str, words: Words) -> Row:
    now = words.say(f"trouble.{id}.now").replace("\n", " ")
    return Row(words.say(f"trouble.{id}.title"), now)
