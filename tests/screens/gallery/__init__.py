"""Invented views, one or more for every screen name, with the longest words to be expected.

All people, jobs and numbers here are made up.
"""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.view import View
from tests.screens.gallery import adults, halts, idle, people, session


def views() -> dict[str, View]:
    """Every sample view by its own name, numbered from 1."""
    of = (idle, adults, people, session, halts)
    found = {name: view for one in of for name, view in one.VIEWS.items()}
    return {name: replace(view, number=at) for at, (name, view) in enumerate(found.items(), 1)}
