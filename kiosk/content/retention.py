"""How long what is kept: `retention.yaml`, by country and class."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from kiosk.content import written
from kiosk.content.written import Node
from kiosk.core.problems import Place, Problem, nearest

NAME = "retention.yaml"
CLASSES = ("events", "incident", "near_miss", "note", "adult_left", "pupil_left")
DAYS = {"day": 1, "week": 7, "month": 31, "year": 366}
SHORTEST_DAYS = 31

Retention = Mapping[str, int]
"""Each class and for how many days it is kept at least."""


def load_retention(base: Path, school: Path | None = None) -> tuple[Retention, tuple[Problem, ...]]:
    """How long each class is kept in the country named, and what is wrong with the file.

    Without a file, or with a mistake in it, nothing is ever taken away: the result is empty.
    """
    folders = [folder for folder in (school, base) if folder and (folder / NAME).is_file()]
    if not folders:
        return {}, ()
    page = written.read_page(folders[0] / NAME, NAME)
    if page.problems or not isinstance(page.node, written.Mapping):
        return {}, page.problems or (_problem(1, "not keys and values", "country, kept"),)
    found, problems = _chosen(page.node)
    return ({} if problems else found), tuple(problems)


def _chosen(node: written.Mapping) -> tuple[dict[str, int], list[Problem]]:
    country, kept = node.get("country"), node.get("kept")
    if not isinstance(country, written.Text) or not isinstance(kept, written.Mapping):
        return {}, [_problem(node.line, "no country or nothing kept", "country, kept")]
    chosen = kept.get(country)
    if not isinstance(chosen, written.Mapping):
        names = [str(name) for name in kept]
        return {}, [_problem(country.line, f"country {country!r}", ", ".join(names))]
    return _read(chosen)


def _read(chosen: written.Mapping) -> tuple[dict[str, int], list[Problem]]:
    found: dict[str, int] = {}
    problems = []
    for name, value in chosen.items():
        days = _days(value)
        if name not in CLASSES:
            told = f"class {str(name)!r}"
            problems.append(_problem(name.line, told, ", ".join(CLASSES), nearest(name, CLASSES)))
        elif days < SHORTEST_DAYS:
            allowed = f"a number of days, weeks, months or years; at least {SHORTEST_DAYS} days"
            problems.append(_problem(name.line, f"{name}: {value}", allowed))
        else:
            found[str(name)] = days
    problems += [
        _problem(chosen.line, f"no {name}", "every class") for name in CLASSES if name not in chosen
    ]
    return found, problems


def _days(value: Node) -> int:
    """The days in `3 years`; 0 for what is no such text."""
    match = re.fullmatch(r"(\d{1,4}) (day|week|month|year)s?", str(value))
    return int(match[1]) * DAYS[match[2]] if match else 0


def _problem(line: int, found: str, allowed: str, advice: str = "") -> Problem:
    return Problem(Place(NAME, line), found, allowed, advice)
