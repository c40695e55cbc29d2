"""The screens on which a teacher makes a job: a question each, then what the sums propose."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.job_acts import MOST_SAID
from kiosk.core.kiosk.made import PILOT_NAME
from kiosk.core.kiosk.making import (
    HOLE,
    PIECE,
    Making,
    answers,
    job_as_made,
    made_events,
    problems_of,
)
from kiosk.core.kiosk.piloting import piloted_choices
from kiosk.core.machining.vice import holding_way
from kiosk.core.model import Job
from kiosk.core.plan.wording import hole_words
from kiosk.core.units import Length
from kiosk.core.view.jobs import job_label, job_name
from kiosk.core.view.scene import Scene, choice, head, to_page
from kiosk.core.view.shape import Button, View

QUESTIONS = ("group", "material", "shape", "thickness", "width", "length")
HOLE_QUESTIONS = ("size", "depth", "count")


def jobs_made_view(scene: Scene) -> View:
    """The jobs made at the screen, and a new one."""
    made = scene.kiosk.made.jobs
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("make.title"),
        lines=() if made else (scene.say("make.none"),),
        choices=tuple(
            choice(f"{job_name(scene, m.job)}\n{_group(scene, m.group)}", Act("job_made", m.job.id))
            for m in made
        ),
        buttons=(to_page(scene, "menu"), Button(scene.say("make.new"), Act("make"), "adult")),
    )


def _group(scene: Scene, id: str) -> str:
    found = scene.shop.roster.group(id)
    return found.name if found else id


def pilots_view(scene: Scene) -> View:
    """Pilots that were drilled elsewhere and an adult has seen: of which holes, in whose work."""
    about = scene.kiosk.desk.about
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("pilots.whose" if about else "pilots.which"),
        lines=scene.lines("pilots.say"),
        choices=_whose(scene, about) if about else _piloted(scene),
        buttons=(to_page(scene, "pilots" if about else "menu"),),
    )


def _piloted(scene: Scene) -> tuple[Button, ...]:
    return tuple(
        choice(job_label(scene, job, hole), Act("pilots", f"{job.id} {index}"))
        for job, index, hole in piloted_choices(scene.shop, scene.kiosk)
    )


def _whose(scene: Scene, about: str) -> tuple[Button, ...]:
    lesson = scene.kiosk.lesson
    group = scene.shop.roster.group(lesson.group) if lesson else None
    return tuple(
        choice(f"{p.number}\n{p.name}".strip(), Act("pilots_seen", f"{about} {p.number}"))
        for p in (group.pupils if group else ())
    )


def make_view(scene: Scene) -> View:
    """The next question about the piece of work or about a hole in it."""
    making = Making.of(scene.kiosk.desk.about)
    at = len(making.said)
    question = QUESTIONS[at] if at < PIECE else HOLE_QUESTIONS[(at - PIECE) % HOLE]
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"make.{question}"),
        choices=tuple(
            choice(_answer(scene, question, a), Act("make", f"{making.about} {a}".strip()))
            for a in answers(scene.shop, making)
        ),
        buttons=(_one_back(scene, making),),
    )


def _one_back(scene: Scene, making: Making) -> Button:
    """Back to the last question; a round bar was asked for its thickness only."""
    said = making.said
    left = said[:-2] if len(said) == PIECE - 1 and said[2] == "round_bar" else said[:-1]
    return to_page(scene, "make", " ".join(left)) if left else to_page(scene, "jobs_made")


def _answer(scene: Scene, question: str, answer: str) -> str:
    match question:
        case "group":
            return _group(scene, answer)
        case "material" | "shape":
            return scene.say(f"{question}.{answer}")
        case "size":
            bit, um = answer.split(":")
            return scene.words.number(Length.from_um(int(um))) + "\n" + scene.say(f"bit.{bit}")
        case "count":
            return answer
    if answer == "0":
        return scene.say("make.through")
    return scene.words.number(Length.from_um(int(answer)))


def made_view(scene: Scene) -> View:
    """What the sums propose for the job: bits, pilots, holding; or why it can't be made here."""
    making = Making.of(scene.kiosk.desk.about)
    job = job_as_made(made_events(scene.shop, scene.kiosk, making, ""))
    problems = problems_of(scene.shop, job)
    more = len(making.said) < MOST_SAID and not problems
    keep = Button(scene.say("make.keep"), Act("make_keep", making.about), "adult", not problems)
    another = Button(scene.say("make.more"), Act("make", f"{making.about} +"), live=more)
    return View(
        screen="menu",
        head=head(scene),
        title=_piece(scene, job),
        lines=tuple(map(str, problems[:2])) if problems else _proposed(scene, job),
        buttons=(to_page(scene, "jobs_made"), another, keep),
    )


def _piece(scene: Scene, job: Job) -> str:
    work = job.work
    return scene.say(
        "make.piece",
        material=scene.say(f"material.{job.material}"),
        shape=scene.say(f"shape.{work.shape.replace(' ', '_')}"),
        width=work.width,
        thickness=work.thickness,
        length=work.length,
    )


def _proposed(scene: Scene, job: Job) -> tuple[str, ...]:
    """Each kind of hole in the order it is drilled, with its bit; then how the work is held."""
    way = scene.say(f"way.{holding_way(scene.shop.machine, job.work)}")
    return (*_holes(scene, job), scene.say("make.held", way=way))


def _holes(scene: Scene, job: Job) -> tuple[str, ...]:
    return tuple(
        scene.say(
            "make.pilot_line" if hole.id.startswith(PILOT_NAME) else "make.hole_line",
            what=hole_words(scene.words, job, hole),
            bit=scene.say(f"bit.{hole.bit}"),
        )
        for hole in job.holes
    )


def job_made_view(scene: Scene) -> View:
    """One job made: its holes, and that it can be taken away."""
    made = scene.kiosk.made.find(scene.kiosk.desk.about)
    assert made is not None
    drop = Button(scene.say("make.drop"), Act("job_drop", made.job.id))
    return View(
        screen="menu",
        head=head(scene),
        title=f"{job_name(scene, made.job)}, {_group(scene, made.group)}",
        lines=(_piece(scene, made.job), *_proposed(scene, made.job)),
        buttons=(to_page(scene, "jobs_made"), drop),
    )
