"""How a job and its holes are written."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.kiosk.made import PREFIX
from kiosk.core.kiosk.pupil_jobs import drillable
from kiosk.core.model import Hole, Job, Pupil
from kiosk.core.plan.wording import hole_words
from kiosk.core.view.scene import Scene
from kiosk.core.view.shape import Button
from kiosk.core.words import Words


def job_label(scene: Scene, job: Job, hole: Hole, suffix: str = "") -> str:
    """A job's name, and below it one kind of its holes; `suffix` is a text with `{what}`."""
    what = hole_words(scene.words, job, hole)
    return f"{job_name(scene, job)}\n{scene.say(suffix, what=what) if suffix else what}"


def as_piloted(scene: Scene, pupil: Pupil | None, job: Job, hole: int, button: Button) -> Button:
    """A hole's button as it stands for a pupil: not to be touched while its pilot is missing."""
    if pupil is None or drillable(scene.kiosk, pupil.ref, job, hole):
        return button
    label = f"{button.label}\n{scene.say('job.pilot_first')}"
    return replace(button, label=label, live=False)


def job_name(scene: Scene, job: Job) -> str:
    """The job's name in the language of the screen."""
    return name_of_job(scene.words, job)


def name_of_job(words: Words, job: Job) -> str:
    """The job's name in a language; one made at the screen goes by its material and number."""
    if job.id.startswith(PREFIX):
        material = words.say(f"material.{job.material}")
        return words.say("job.made", number=job.id.removeprefix(PREFIX), material=material)
    return words.say(f"job.{job.id}")
