"""What a pupil of the lesson can make: each job with each of its kinds of hole."""

from __future__ import annotations

from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import Hole, Job


def hole_choices(shop: Shop, kiosk: Kiosk) -> tuple[tuple[Job, int, Hole], ...]:
    """The lesson's jobs with each of their kinds of hole, numbered from 0."""
    names = kiosk.lesson.jobs if kiosk.lesson else ()
    jobs = [job for name in names if (job := shop.content.job(name))]
    return tuple((job, i, hole) for job in jobs for i, hole in enumerate(job.holes))
