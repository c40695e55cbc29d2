"""The shipped machines, materials and bits together: refusals help, and every figure has a source.

A sample of all holes that could be asked; every one with `--full`.
"""

from __future__ import annotations

import re
from pathlib import Path
from random import Random

import pytest

from kiosk.content import load
from kiosk.core.machining import Figure, GrooveChoice, Refused, choose_groove, working_sheet
from kiosk.core.model import Content, Hole, Job, Machine
from kiosk.core.plan.compiling import piece_of
from kiosk.core.plan.figures import Piece, Sums, sums_of
from kiosk.core.plan.trials import PART_WAY, WORKS

FEW = 1500
SIZE = re.compile(r"a ([\d.]+) mm .+")


@pytest.fixture(scope="module")
def content() -> Content:
    loaded = load(Path(__file__).parents[2] / "sequences")
    assert loaded.content is not None, loaded.problems
    return loaded.content


@pytest.fixture(scope="module")
def pieces(content: Content, full: bool) -> list[Piece]:
    asked = [
        (machine, Job("x", "x", material.id, work, (Hole("x", bit.id, size, depth, 1),)))
        for machine in content.machines
        for material in content.materials
        for bit in content.bits
        for work in WORKS
        for size in bit.sizes
        for depth in (None, PART_WAY)
    ]
    chosen = asked if full else Random(4).sample(asked, FEW)
    return [piece for machine, job in chosen if (piece := found(content, machine, job))]


def found(content: Content, machine: Machine, job: Job) -> Piece | None:
    piece = piece_of(content, machine, job, 0)
    return piece if isinstance(piece, Piece) else None


def test_every_refusal_says_what_is_wrong_and_the_nearest_that_works(pieces: list[Piece]) -> None:
    refusals = [each for piece in pieces if isinstance(each := sums_of(piece), Refused)]

    assert len(refusals) > 100
    assert [str(each) for each in refusals if not each.wrong or not each.nearest] == []
    assert [str(each) for each in refusals if "nan" in str(each) or "inf " in str(each)] == []


def test_the_size_that_a_refused_speed_names_has_a_groove(pieces: list[Piece]) -> None:
    tried = 0
    for piece in pieces:
        answer = choose_groove(piece.machine, piece.material, piece.bit, piece.hole.diameter)
        match = SIZE.fullmatch(answer.nearest) if isinstance(answer, Refused) else None
        size = next((s for s in piece.bit.sizes if match and f"{s.mm:g}" == match[1]), None)
        if size is not None:
            tried += 1
            works = choose_groove(piece.machine, piece.material, piece.bit, size)
            assert isinstance(works, GrooveChoice)
    assert tried > 10


def test_every_figure_of_a_hole_that_can_be_drilled_is_whole(pieces: list[Piece]) -> None:
    drilled = 0
    for piece in pieces:
        sums = sums_of(piece)
        if isinstance(sums, Sums):
            drilled += 1
            answers = (*sums.figures, *sheet_of(piece, sums))
            figures = [each for each in answers if isinstance(each, Figure)]
            assert all(f.working and f.source and "\n" not in f.working for f in figures)
            assert not [f for f in figures if "nan" in f.working or " inf" in f.working]
    assert drilled > 100


def sheet_of(piece: Piece, sums: Sums) -> tuple[Figure | Refused, ...]:
    hole, work = piece.hole, piece.job.work
    return working_sheet(
        piece.machine, piece.material, piece.bit, hole.diameter, work, hole.depth, sums.groove
    )


def test_three_machines_differ_in_what_the_sums_ask_of_them(content: Content) -> None:
    machines = content.machines

    assert len(machines) >= 3
    for feature in ("drive", "extraction", "habit", "chuck_capacity", "stroke", "motor"):
        assert len({getattr(machine, feature) for machine in machines}) == 3
    assert {machine.keyed_chuck for machine in machines} == {True, False}
    assert {machine.depth_stop for machine in machines} == {True, False}
    assert {m.pulleys.measured for m in machines if m.pulleys} == {"outside", "effective"}
    assert all(machine.invented for machine in machines)
