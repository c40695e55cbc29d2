"""The adult check: what the adult looks for before the OK, and which of it is not right."""

from __future__ import annotations

from kiosk.core.inputs import EndSpell, Leave, OpenPage, PickNotRight, SpellOk
from kiosk.core.model import Reading
from kiosk.core.plan.shape import PlanStep
from kiosk.core.session import Session
from kiosk.core.view.asides import worked_asides
from kiosk.core.view.scene import Scene, adult, choice, head, leave
from kiosk.core.view.shape import Band, Button, Rail, View


def rail_of(session: Session) -> Rail:
    """How far along its way a turn is."""
    return Rail(session.at + 1, len(session.plan.path(session.path)))


def check_lines(scene: Scene, session: Session) -> tuple[tuple[str, str], ...]:
    """What the adult looks for: (step, line), at most seven."""
    steps = {step.id: step for step in _looked_for(session)}
    found = []
    for id in session.plan.look_for:
        values = scene.step_values(steps[id]) if id in steps else {}
        found.append((id, scene.say(f"step.{id}.check", **values)))
    return tuple(found[:7])


def _looked_for(session: Session) -> tuple[PlanStep, ...]:
    """The steps whose lines the adult reads, each once."""
    paths = (session.plan.path(path) for path in ("fresh", "joining", "further"))
    steps = {s.id: s for path in paths for s in path if s.id in session.plan.look_for}
    return tuple(steps.values())


def check_view(scene: Scene, session: Session) -> View:
    """The pupil stays put; the adult looks at the machine, not at boxes to tick."""
    pupils, scene = scene, scene.for_adults
    spell = scene.kiosk.lesson.spell if scene.kiosk.lesson else None
    not_right = Button(scene.say("button.not_right"), OpenPage("not_right"))
    buttons: tuple[Button, ...] = (not_right, adult(scene, "ok", "button.adult_ok"))
    if spell:
        label = scene.say("button.spell_ok", name=scene.adult_name(spell.adult))
        end = Button(scene.say("button.end_spell"), EndSpell())
        buttons = (not_right, end, Button(label, SpellOk(), "adult"))
    number = scene.number_of(session.pupil)
    title = "check.title_beside" if stays_beside(session) else "check.title"
    return View(
        screen="adult_check",
        head=head(pupils),
        band=Band("adult", pupils.say("band.adult_check")),
        title=scene.say(title, number=number, level=scene.level(session.level)),
        lines=tuple(line for _, line in check_lines(scene, session)),
        note=scene.say("check.guard_up") if _guard_reads_up(scene) else "",
        buttons=buttons,
        rail=rail_of(session),
        flash=True,
        asides=worked_asides(scene, session, _looked_for(session)),
        language=scene.words.language,
    )


def stays_beside(session: Session) -> bool:
    """Whether the adult stays beside the pupil for this hole."""
    return dict(session.plan.values).get("at_drill") == "beside"


def _guard_reads_up(scene: Scene) -> bool:
    """Whether the guard has a contact here that says *up*; said to the adult, and no more."""
    wired = scene.shop.machine.wiring.has("guard")
    return wired and scene.kiosk.machine.reading("guard") is Reading.OFF


def not_right_view(scene: Scene, session: Session) -> View:
    """Which of the lines is not right."""
    lines = check_lines(scene, session)
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("not_right.title"),
        choices=(
            *(choice(line, PickNotRight(step)) for step, line in lines),
            choice(scene.say("not_right.pupil"), Leave()),
        ),
        buttons=(leave(scene),),
    )
