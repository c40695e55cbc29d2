"""From the forms as written to the values of `core.model`, and the texts they bring along."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kiosk.content.forms import (
    AssessmentForm,
    BitForm,
    ContactsForm,
    HazardForm,
    JobForm,
    MachineForm,
    MaterialForm,
    PulleysForm,
    RecoveryForm,
    StepForm,
)
from kiosk.core.machining.belts import speeds_of
from kiosk.core.model import (
    Assessment,
    BitKind,
    CheckItem,
    ContactPair,
    ContactTimes,
    Control,
    Hazard,
    Hole,
    Job,
    Machine,
    Material,
    Pulley,
    Pulleys,
    Sequence,
    SpeedBand,
    Step,
    When,
    Wiring,
)
from kiosk.core.units import SpindleSpeed

TextPairs = Iterator[tuple[str, str]]


def machine_of(id: str, form: MachineForm, file: str) -> Machine:
    """The machine as written in its file."""
    pulleys = _pulleys(form.pulleys) if form.pulleys else None
    return Machine(
        id=id,
        name=str(form.name),
        invented=form.invented,
        speeds=form.speeds or _speeds(pulleys),
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
        file=file,
    )


def _speeds(pulleys: Pulleys | None) -> tuple[SpindleSpeed, ...]:
    """Whole turns a minute from the pulleys, where no plate is given."""
    if pulleys is None or len(pulleys.motor.grooves) != len(pulleys.spindle.grooves):
        return ()
    return tuple(SpindleSpeed(float(round(s.rpm))) for s in speeds_of(pulleys))


def _pulleys(form: PulleysForm) -> Pulleys:
    motor, spindle = Pulley(form.motor), Pulley(form.spindle)
    return Pulleys(form.motor_speed, motor, spindle, str(form.measured), form.correction)


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
    )


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
    )


def job_of(id: str, form: JobForm, file: str) -> Job:
    """The job as written in its file."""
    holes = (Hole(str(h.id), str(h.bit), h.diameter, h.depth, h.count) for h in form.holes)
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
        when=_when(form.when),
        unless=_when(form.unless),
        looked_for=form.check is not None,
        line=form.line,
    )


def _when(form: Mapping[str, tuple[str, ...]] | None) -> When:
    return When(tuple((str(k), _plain(v)) for k, v in (form or {}).items()))


def assessment_of(form: AssessmentForm, file: str) -> Assessment:
    """The risk assessment as written in its file."""
    hazards = tuple(_hazard(str(id), hazard) for id, hazard in form.hazards.items())
    eye = str(form.eye_protection)
    return Assessment(hazards, str(form.owner), str(form.review), eye, form.invented, file)


def _hazard(id: str, form: HazardForm) -> Hazard:
    controls = tuple(
        Control(str(k), str(c.text), str(c.by), c.line) for k, c in form.controls.items()
    )
    who, residual = _plain(form.who), str(form.residual)
    return Hazard(id, str(form.name), str(form.harm), who, controls, residual, form.line)


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


def assessment_texts(assessment: Assessment) -> TextPairs:
    """The names of hazards and the texts of their control measures."""
    for hazard in assessment.hazards:
        yield f"hazard.{hazard.id}", hazard.name
        for control in hazard.controls:
            yield f"control.{control.id}", control.text


def machine_texts(machine: Machine) -> TextPairs:
    """The machine's name and the lines of its pre-use check."""
    yield f"machine.{machine.id}", machine.name
    for item in machine.pre_use:
        yield f"pre_use.{item.id}", item.line
