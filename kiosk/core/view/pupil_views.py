"""The screens a pupil works through: job, steps, drilling, finished."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    Leave,
    LeavePage,
    NotDrilled,
    OpenPage,
    PickJob,
    SeenRight,
    SpellOk,
    Still,
    StillThere,
)
from kiosk.core.kiosk.adult_acts import at_the_drill
from kiosk.core.kiosk.asks import (
    hands_off,
    is_running,
    is_running_down,
    kept_fits,
    pupil_numbered,
    run_down_left,
)
from kiosk.core.kiosk.pupil_jobs import hole_choices
from kiosk.core.model import Hole, Job, Pupil
from kiosk.core.plan.shape import PlanStep
from kiosk.core.session import Session, step_back
from kiosk.core.view.adult_check import rail_of, stays_beside
from kiosk.core.view.asides import step_asides, word_aside
from kiosk.core.view.jobs import as_it_stands, job_label, plan_of
from kiosk.core.view.language_views import language_buttons
from kiosk.core.view.line_views import line_up, next_in_line
from kiosk.core.view.scene import Scene, adult, back, choice, head, leave
from kiosk.core.view.shape import Aside, Band, Button, Picture, View


def job_view(scene: Scene) -> View:
    """What the pupil makes: the lesson's jobs, before all what is set up now."""
    pupil = _who(scene)
    made = hole_choices(scene.shop, scene.kiosk)
    ready = [_is_set_up(scene, pupil, job, index) for job, index, _ in made]
    choices = [_job_choice(scene, pupil, *one, so) for one, so in zip(made, ready, strict=True)]
    return View(
        screen="job",
        head=head(scene),
        title=scene.say("job.title", number=scene.kiosk.desk.about),
        choices=tuple(choices[at] for at in sorted(range(len(made)), key=lambda at: not ready[at])),
        buttons=(leave(scene), *_questions(scene), *language_buttons(scene)),
    )


def _who(scene: Scene) -> Pupil | None:
    """Whose number was touched."""
    number = scene.kiosk.desk.about
    return pupil_numbered(scene.shop, scene.kiosk, int(number)) if number.isdigit() else None


def _questions(scene: Scene) -> tuple[Button, ...]:
    """The questions before you drill, as long as the pupil has not answered them all."""
    number, pupil = scene.kiosk.desk.about, _who(scene)
    answered = pupil is None or pupil.ref in scene.kiosk.pupils.answered
    if answered or not scene.shop.content.people.questions:
        return ()
    return (Button(scene.say("button.questions"), OpenPage("questions", number)),)


def _job_choice(
    scene: Scene, pupil: Pupil | None, job: Job, index: int, hole: Hole, ready: bool
) -> Button:
    suffix = "job.set_up_now" if ready else ""
    button = choice(job_label(scene, job, hole, suffix), PickJob(job.id, index))
    return as_it_stands(scene, pupil, job, index, button)


def _is_set_up(scene: Scene, pupil: Pupil | None, job: Job, index: int) -> bool:
    if pupil is None or scene.kiosk.machine.set_up is None:
        return False
    plan = plan_of(scene, pupil, job, index)
    return plan is not None and kept_fits(scene.kiosk, plan, scene.now)


# --- steps ---------------------------------------------------------------------------------------


def step_view(scene: Scene, session: Session) -> View:
    """One thing to do and see. The button says what is seen when it is right."""
    step = session.step
    if step.who == "adult":
        return _adults_step(scene, session, step)
    return _step(scene, session, step)


def _adults_step(scene: Scene, session: Session, step: PlanStep) -> View:
    """The adult's part in the school's language, what the pupil should know in the pupil's."""
    view = _step(scene.for_adults, session, step)
    band = Band("adult", scene.say("band.adult_step"))
    language = scene.for_adults.words.language
    return replace(view, head=head(scene), band=band, flash=True, language=language)


def _step(scene: Scene, session: Session, step: PlanStep) -> View:
    values = scene.step_values(step)
    waits = hands_off(scene.shop, scene.kiosk, session, step)
    note = scene.words.maybe(f"step.{step.id}.note", **values)
    if waits or session.redo:
        note = scene.say(f"wait.{waits}" if waits else "step.redo")
    return View(
        screen="already_set" if step.part == "look" else "step",
        head=head(scene),
        title=scene.say(f"step.{step.id}.title", **values),
        lines=() if session.asked else scene.lines(f"step.{step.id}.say", **values),
        note=scene.say("step.still_there") if session.asked else note,
        picture=scene.step_picture(step),
        buttons=_step_buttons(scene, session, step, live=not waits),
        rail=rail_of(session),
        asides=_step_asides(scene, session, step),
    )


def _step_asides(scene: Scene, session: Session, step: PlanStep) -> tuple[Aside, ...]:
    """Why, how its numbers were worked out, its shop words; nothing beside *Are you here?*."""
    if session.asked:
        return ()
    words = word_aside(scene, scene.lines(f"step.{step.id}.say", **scene.step_values(step)))
    return (*step_asides(scene, session, step), *((words,) if words else ()))


def _step_buttons(scene: Scene, session: Session, step: PlanStep, live: bool) -> tuple[Button, ...]:
    if session.asked:
        return (Button(scene.say("button.still_there"), StillThere(), "main"),)
    see = scene.say(f"step.{step.id}.see", **scene.step_values(step))
    first = (*_way_back(scene, session), *line_up(scene))
    if step.who != "adult":
        return (*first, Button(see, SeenRight(step.id), "main", live))
    return (*first, *_adults_buttons(scene, live))


def _adults_buttons(scene: Scene, live: bool) -> tuple[Button, ...]:
    """One touch of the adult who is at the drill anyway; who is there only by chance may change."""
    by_pin, name = adult(scene, "step"), at_the_drill(scene.kiosk, scene.now)
    if not name:
        return (by_pin,)
    label = scene.say("button.spell_step", name=scene.adult_name(name))
    others = () if scene.kiosk.lesson and scene.kiosk.lesson.spell else (replace(by_pin, look=""),)
    return (*others, Button(label, SpellOk(), "adult", live))


def _way_back(scene: Scene, session: Session) -> tuple[Button, ...]:
    """Back one step; from the very first one, back to the numbers. Never behind an adult's step."""
    if session.at > 0:
        return (back(scene),) if step_back(session) else ()
    new = session.done == 0 and session.path in ("fresh", "joining")
    if not new:
        return ()
    return (Button(scene.say("button.not_me"), Leave()), *language_buttons(scene))


# --- drilling ------------------------------------------------------------------------------------


def drilling_view(scene: Scene, session: Session) -> View:
    """Stands from the OK until stopped and still: nothing to touch before that."""
    step = session.step
    values = scene.step_values(step)
    trouble = Band("stop", scene.say("band.lift_clear")) if session.trouble else None
    return View(
        screen="drilling",
        head=head(scene),
        band=trouble,
        title=scene.say(f"step.{step.id}.title", **values),
        lines=scene.lines("drilling.trouble" if trouble else f"step.{step.id}.say", **values),
        note=_drilling_note(scene, session),
        picture=scene.step_picture(step),
        buttons=_drilling_buttons(scene, session),
        rail=rail_of(session),
    )


def _drilling_note(scene: Scene, session: Session) -> str:
    if session.still_asked:
        return scene.say("drilling.no_run_seen")
    if session.asked:
        return scene.say("drilling.still_there")
    spell = scene.kiosk.lesson.spell if scene.kiosk.lesson else None
    if spell:
        return scene.say("drilling.spell", name=scene.adult_name(spell.adult))
    return scene.say("drilling.beside") if stays_beside(session) else ""


def _drilling_buttons(scene: Scene, session: Session) -> tuple[Button, ...]:
    """While it runs down the one button says so, and nothing else on the screen moves."""
    left = run_down_left(scene.shop, session, scene.now).s
    live = not is_running(scene.shop, scene.kiosk) and left == 0
    if session.still_asked:
        yes = Button(scene.say("button.drilled"), Still(), "main", live)
        return (Button(scene.say("button.not_drilled"), NotDrilled()), yes)
    waits = left > 0 or is_running_down(scene.shop, scene.kiosk)
    label = scene.say("drilling.run_down" if waits else "button.still")
    return (Button(label, Still(), "still", live),)


def finished_view(scene: Scene) -> View:
    """The session is over; the next number may be touched."""
    how = scene.kiosk.desk.about
    return View(
        screen="finished",
        head=head(scene),
        title=scene.say(f"finished.{how}.title"),
        lines=scene.lines(f"finished.{how}.say"),
        picture=Picture("feet"),
        buttons=_after_turn(scene),
    )


def _after_turn(scene: Scene) -> tuple[Button, ...]:
    """The next one in line begins with one touch; without a line the numbers come up again."""
    begin = next_in_line(scene)
    if begin:
        return (leave(scene), *line_up(scene), *begin)
    return (*line_up(scene), Button(scene.say("button.next_person"), LeavePage(), "main"))
