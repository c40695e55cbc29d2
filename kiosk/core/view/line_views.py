"""The screens for the line at the drill: number, job, getting ready, and who is next."""

from __future__ import annotations

from math import ceil

from kiosk.core.inputs import Choose, OpenPage, PickPupil
from kiosk.core.kiosk.line import Line
from kiosk.core.kiosk.line_acts import in_line, is_ready, may_line_up
from kiosk.core.kiosk.pupil_jobs import hole_choices
from kiosk.core.model import Hole, Job, Pupil
from kiosk.core.view.jobs import as_it_stands, job_label
from kiosk.core.view.scene import Scene, choice, head, leave
from kiosk.core.view.shape import Button, Picture, View


def line_of(scene: Scene) -> Line:
    """The line of the lesson; an empty one where none is open."""
    return scene.kiosk.lesson.line if scene.kiosk.lesson else Line()


def line_view(scene: Scene) -> View:
    """Who wants to stand in line; those who do are marked."""
    lesson, waiting = scene.kiosk.lesson, line_of(scene).waiting
    group = scene.shop.roster.group(lesson.group) if lesson else None
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("line.title"),
        lines=_told(scene),
        choices=tuple(
            _number(scene, p, any(w.pupil == p.ref for w in waiting))
            for p in (group.pupils if group else ())
        ),
        buttons=(leave(scene),),
    )


def _number(scene: Scene, pupil: Pupil, waits: bool) -> Button:
    live = in_line(scene.shop, scene.kiosk, str(pupil.number), scene.now) is not None
    touch = Choose("line", str(pupil.number))
    if waits:
        return Button(scene.say("form.picked", job=pupil.number), touch, "picked", live)
    return Button(str(pupil.number), touch, "number", live)


def _told(scene: Scene) -> tuple[str, ...]:
    """The line as it stands, the next one first."""
    waiting = line_of(scene).waiting
    if not waiting:
        return (scene.say("line.nobody"),)
    numbers = ", ".join(scene.number_of(w.pupil) for w in waiting)
    return (scene.say("line.order", numbers=numbers),)


def line_job_view(scene: Scene) -> View:
    """What the pupil in line makes."""
    pupil = in_line(scene.shop, scene.kiosk, scene.kiosk.desk.about, scene.now)
    return View(
        screen="job",
        head=head(scene),
        title=scene.say("job.title", number=scene.kiosk.desk.about),
        choices=tuple(
            _line_job(scene, pupil, job, index, hole)
            for job, index, hole in hole_choices(scene.shop, scene.kiosk)
        ),
        buttons=(leave(scene),),
    )


def _line_job(scene: Scene, pupil: Pupil | None, job: Job, index: int, hole: Hole) -> Button:
    button = choice(job_label(scene, job, hole), Choose("line_job", f"{job.id} {index}"))
    return as_it_stands(scene, pupil, job, index, button)


def line_ready_view(scene: Scene) -> View:
    """A place in line: about how long it is, and what can be seen to meanwhile."""
    number = scene.kiosk.desk.about
    pupil = in_line(scene.shop, scene.kiosk, number, scene.now)
    place = line_of(scene).find(pupil.ref) if pupil else None
    values = {"eye_protection": scene.shop.content.assessment.eye_protection}
    left = Button(scene.say("button.line_leave"), Choose("line_leave", number))
    done = Button(scene.say("step.ready_again.see"), Choose("line_ready", number), "main")
    ready = is_ready(place, scene.now)
    return View(
        screen="already_set",
        head=head(scene),
        title=_wait_title(scene, pupil) if pupil and place else "",
        lines=scene.lines("line.ready" if ready else "step.ready_again.say", **values),
        picture=Picture("goggles"),
        buttons=(leave(scene), left) if ready else (leave(scene), left, done),
    )


def _wait_title(scene: Scene, pupil: Pupil) -> str:
    minutes = ceil(line_of(scene).wait(pupil.ref).s / 60)
    if minutes == 0:
        return scene.say("line.next", number=pupil.number)
    wait = scene.say("wait.minutes", n=minutes)
    return scene.say("line.wait", number=pupil.number, wait=wait)


# --- on other screens ----------------------------------------------------------------------------


def line_up(scene: Scene) -> tuple[Button, ...]:
    """The button that opens the line, where it is open."""
    if not may_line_up(scene.shop, scene.kiosk, scene.now):
        return ()
    return (Button(scene.say("button.line_up"), OpenPage("line")),)


def next_in_line(scene: Scene) -> tuple[Button, ...]:
    """The one touch by which the next pupil in line begins; nothing while nobody waits."""
    next_one = line_of(scene).next
    number = scene.number_of(next_one.pupil) if next_one else ""
    if not number.isdigit():
        return ()
    label = scene.say("button.begin", number=number)
    return (Button(label, PickPupil(int(number)), "main"),)


def waiting_view(scene: Scene, view: View) -> View | None:
    """The open lesson while pupils wait: the next one begins, or lets one other go first."""
    begin, line = next_in_line(scene), line_of(scene)
    if not begin or line.next is None:
        return None
    number = scene.number_of(line.next.pupil)
    absent = choice(scene.say("button.line_pass", number=number), Choose("line_pass", number))
    up = tuple(choice(button.label, button.touch) for button in line_up(scene))
    return View(
        screen="idle",
        head=view.head,
        title=scene.say("line.next", number=number),
        lines=(*_told(scene), *view.lines),
        choices=(*up, absent),
        buttons=(*view.buttons, *begin),
    )
