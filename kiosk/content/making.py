"""From the forms as written to the values of `core.model`, and the texts they bring along."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from kiosk.content.forms import (
    BitForm,
    ContactsForm,
    CuttingForm,
    DialForm,
    JobForm,
    MachineForm,
    MaterialForm,
    PulleysForm,
    RecoveryForm,
    StepForm,
)
from kiosk.content.risk import when_of
from kiosk.core.machining.belts import dial_speeds, positions_of, speeds_of
from kiosk.core.model import (
    BitKind,
    CheckItem,
    ContactPair,
    ContactTimes,
    Cutting,
    Hole,
    Job,
    Machine,
    Material,
    Pulley,
    Pulleys,
    Reach,
    Sequence,
    SpeedBand,
    Step,
    Wiring,
)
from kiosk.core.units import SpindleSpeed

TextPairs = Iterator[tuple[str, str]]


def machine_of(id: str, form: MachineForm, file: str) -> Machine:
    """The machine as written in its file."""
    pulleys = _pulleys(form.pulleys) if form.pulleys else None
    drive, positions, speeds = _drive(form, pulleys)
    return Machine(
        id=id,
        name=str(form.name),
        invented=form.invented,
        speeds=speeds,
        pulleys=pulleys,
        chuck_capacity=form.chuck,
        keyed_chuck=form.keyed,
        stroke=form.stroke,
        throat=form.throat,
        motor=form.motor,
        depth_stop=form.depth_stop,
        extraction=str(form.extraction),
        habit=form.isolator,
        run_down=form.run_down,
        wiring=_wiring(form.contacts),
        pre_use=tuple(CheckItem(str(k), str(v)) for k, v in form.pre_use.items()),
        holding=_plain(form.holding),
        spell_allowed=form.spell,
        alike=str(form.alike or ""),
        file=file,
        drive=drive,
        positions=positions,
        motor_speed=form.motor_speed or (pulleys.motor_speed if pulleys else None),
        table_nearest=form.table.nearest if form.table else None,
        table_furthest=form.table.furthest if form.table else None,
        vice_bed=form.vice_bed,
        belt_slip=form.belt_slip,
    )


Drive: TypeAlias = tuple[str, tuple[tuple[int, int], ...], tuple[SpindleSpeed, ...]]


def _drive(form: MachineForm, pulleys: Pulleys | None) -> Drive:
    """How speed is changed, the belts' positions where there are two, and the speeds."""
    if form.dial:
        return "dial", (), _marks(form.dial)
    if form.plate:
        positions = tuple((row.motor_belt, row.spindle_belt) for row in form.plate)
        return "two belts", positions, tuple(row.speed for row in form.plate)
    speeds = form.speeds or _speeds(pulleys)
    if pulleys and pulleys.idler and speeds:
        return "two belts", _positions(pulleys), speeds
    return "one belt", (), speeds


def _positions(pulleys: Pulleys) -> tuple[tuple[int, int], ...]:
    try:
        return positions_of(pulleys)
    except ValueError:  # `drives` says what is wrong with them
        return ()


def _marks(dial: DialForm) -> tuple[SpindleSpeed, ...]:
    try:
        return dial_speeds(dial.slowest, dial.fastest, dial.step)
    except ValueError:  # `drives` says what is wrong with it
        return ()


def _speeds(pulleys: Pulleys | None) -> tuple[SpindleSpeed, ...]:
    """Whole turns a minute from the pulleys, where no plate is given."""
    if pulleys is None:
        return ()
    try:
        return tuple(SpindleSpeed(float(round(s.rpm))) for s in speeds_of(pulleys))
    except ValueError:  # `drives` says what is wrong with them
        return ()


def _pulleys(form: PulleysForm) -> Pulleys:
    return Pulleys(
        motor_speed=form.motor_speed,
        motor=Pulley(form.motor),
        spindle=Pulley(form.spindle),
        measured=str(form.measured),
        correction=form.correction,
        idler=Pulley(form.idler) if form.idler else None,
    )


def _wiring(form: ContactsForm | None) -> Wiring:
    if form is None:
        return Wiring()
    pairs = ((str(n), ContactPair(c.make, c.on_break)) for n, c in (form.inputs or {}).items())
    given = {k: v for k, v in vars(form.times).items() if k != "line"}
    return Wiring(
        reader=str(form.reader),
        unit=form.unit,
        baud=int(form.baud),
        inputs=tuple(pairs),
        times=ContactTimes(**given),
        function=int(form.function),
        parity=str(form.parity),
    )


def material_of(id: str, form: MaterialForm) -> Material:
    """The material as written in `materials.yaml`."""
    bands = (
        SpeedBand(str(b.bit), b.low.m_per_min, b.high.m_per_min, str(b.source)) for b in form.bands
    )
    return Material(
        id=id,
        name=str(form.name),
        family=str(form.family),
        bands=tuple(bands),
        marking=str(form.marking),
        swarf=str(form.swarf),
        dust=form.dust,
        fluid=str(form.fluid),
        brittle=form.brittle,
        lift_every=form.lift_every,
        feed_share=form.feed_share,
        cutting=_cutting(form.cutting) if form.cutting else None,
        fluid_kind=str(form.fluid_kind),
        heat=str(form.heat),
        dust_class=str(form.dust_class),
    )


def _cutting(form: CuttingForm) -> Cutting:
    return Cutting(form.pressure, form.exponent, form.friction, str(form.source), form.thrust)


def bit_of(id: str, form: BitForm) -> BitKind:
    """The kind of bit as written in `bits.yaml`."""
    return BitKind(
        id=id,
        name=str(form.name),
        smallest=form.smallest,
        largest=form.largest,
        point=form.point,
        top_speed=form.top_speed,
        floor_speed=form.floor_speed,
        sizes=form.sizes,
        families=_plain(form.families),
        adult_beside=form.adult_beside,
        feed=tuple((row.up_to, row.feed) for row in form.feed),
        source=str(form.source),
        shank=form.shank,
        lead=form.lead,
        through_only=form.through_only,
        chisel_edge=form.chisel_edge,
        cuts=str(form.cuts),
        thickest=form.thickest,
        reach=tuple(Reach(row.up_to, row.length, row.flute) for row in form.reach),
    )


def job_of(id: str, form: JobForm, file: str) -> Job:
    """The job as written in its file."""
    holes = (
        Hole(str(h.id), str(h.bit), h.diameter, h.depth, h.count, str(h.after or ""))
        for h in form.holes
    )
    name, material = str(form.name), str(form.material)
    return Job(id, name, material, form.work, tuple(holes), form.invented, file)


def sequence_of(id: str, kind: str, forms: tuple[StepForm, ...], file: str) -> Sequence:
    """The written steps as a sequence."""
    return Sequence(id, kind, tuple(_step(form) for form in forms), file)


def _step(form: StepForm) -> Step:
    return Step(
        id=str(form.id),
        part=str(form.part),
        at=_plain(form.at),
        picture=str(form.picture),
        who=str(form.who),
        needs=form.needs,
        touches=form.touches,
        makes=form.makes,
        controls=_plain(form.controls),
        levels=form.levels,
        when=when_of(form.when),
        unless=when_of(form.unless),
        looked_for=form.check is not None,
        line=form.line,
        file=str(getattr(form.id, "file", "")),
    )


def _plain(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(str(t) for t in texts)


def step_texts(forms: tuple[StepForm, ...]) -> TextPairs:
    """The texts of steps by their key in the words of the language."""
    for form in forms:
        yield f"step.{form.id}.title", str(form.title)
        yield f"step.{form.id}.say", "\n".join(form.say)
        yield f"step.{form.id}.see", str(form.see)
        for name in ("note", "why", "check"):
            if text := getattr(form, name):
                yield f"step.{form.id}.{name}", str(text)


def recovery_texts(trouble: str, form: RecoveryForm) -> TextPairs:
    """The texts of a recovery and its steps."""
    yield f"trouble.{trouble}.title", str(form.title)
    yield f"trouble.{trouble}.now", "\n".join(form.now)
    yield from step_texts(form.steps)


def machine_texts(machine: Machine) -> TextPairs:
    """The machine's name and the lines of its pre-use check."""
    yield f"machine.{machine.id}", machine.name
    for item in machine.pre_use:
        yield f"pre_use.{item.id}", item.line
        yield f"pre_use.{machine.id}.{item.id}", item.line
