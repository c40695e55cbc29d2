"""How a job and its holes are written."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.kiosk.levels import level_now
from kiosk.core.kiosk.made import PREFIX
from kiosk.core.kiosk.pupil_jobs import drillable
from kiosk.core.model import Hole, Job, Pupil
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.plan.wording import hole_words
from kiosk.core.view.scene import Scene
from kiosk.core.view.shape import Button
from kiosk.core.words import Words


def job_label(scene: Scene, job: Job, hole: Hole, suffix: str = "") -> str:
    """A job's name, and below it one kind of its holes; `suffix` is a text with `{what}`."""
    what = hole_words(scene.words, job, hole)
    return f"{job_name(scene, job)}\n{scene.say(suffix, what=what) if suffix else what}"


def as_it_stands(scene: Scene, pupil: Pupil | None, job: Job, hole: int, button: Button) -> Button:
    """A hole's button as it stands for a pupil: where it can't be drilled now, why not."""
    why = "" if pupil is None else _why_not(scene, pupil, job, hole)
    if not why:
        return button
    return replace(button, label=f"{button.label}\n{scene.say(f'job.{why}')}", live=False)


def _why_not(scene: Scene, pupil: Pupil, job: Job, hole: int) -> str:
    """Its pilot is missing, or this drill can't make it at the pupil's level; else nothing."""
    if not drillable(scene.kiosk, pupil.ref, job, hole):
        return "pilot_first"
    return "" if plan_of(scene, pupil, job, hole) else "not_here"


def plan_of(scene: Scene, pupil: Pupil, job: Job, hole: int) -> Plan | None:
    """The plan for a hole at the pupil's level now, or None where this drill can't make it."""
    level = level_now(scene.shop, scene.kiosk, pupil, job.holes[hole].bit, scene.now)
    plan = compile_plan(scene.shop.content, scene.shop.machine, job, hole, level)
    return plan if isinstance(plan, Plan) else None


def job_name(scene: Scene, job: Job) -> str:
    """The job's name in the language of the screen."""
    return name_of_job(scene.words, job)


def name_of_job(words: Words, job: Job) -> str:
    """The job's name in a language; one made at the screen goes by its material and number."""
    if job.id.startswith(PREFIX):
        material = words.say(f"material.{job.material}")
        return words.say("job.made", number=job.id.removeprefix(PREFIX), material=material)
    return words.say(f"job.{job.id}")
