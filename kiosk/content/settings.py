"""The settings of one kiosk: one YAML file, every key of it optional."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import Any

from kiosk.content.settled import amiss
from kiosk.content.structure import structure
from kiosk.content.written import EMPTY_ADVICE, Mapping, Page, Text, read_page
from kiosk.core.problems import Place, Problem

PATHS = ("school", "record", "roster", "download_to")


class Panel(Enum):
    """The displays whose sizes are known."""

    SEVEN = "7inch"
    TEN = "10inch"


@dataclass(frozen=True)
class SettingsForm:
    """What may be settled; None for what the file leaves to its default."""

    machine: str | None = None
    school: str | None = None
    record: str | None = None
    roster: str | None = None
    port: str | None = None
    panel: Panel | None = None
    full_screen: bool | None = None
    language: str | None = None
    large_text: bool | None = None
    left_hand: bool | None = None
    download_to: str | None = None
    feed: str | None = None
    feed_names: bool | None = None
    feed_notes: bool | None = None
    line: int = 0


def read_settings(path: Path) -> tuple[dict[str, Any], tuple[Problem, ...]]:
    """What the file settles, by name, with paths as `Path`; and every mistake in it, by lines.

    A path that does not begin with / is counted from the file's own folder. A text knows its
    line, for what is found out about it later. What is wrong is not settled.
    """
    name = str(path.absolute())
    if not path.is_file():
        return {}, (Problem(Place(name), "no such file", advice="give the settings' file"),)
    page = read_page(path, name)
    if page.node is None and page.problems[0].advice == EMPTY_ADVICE:
        return {}, ()
    if not isinstance(page.node, Mapping):
        return {}, structure(page, SettingsForm)[1]
    problems = (*page.problems, *structure(Page(name, page.node, ()), SettingsForm)[1])
    form = _right(page.node, name)
    wrong = tuple(amiss(path, {k: v for k, v in form.items() if isinstance(v, Text)}))
    bad = {problem.found.partition(":")[0] for problem in wrong}
    settled = {key: _placed(path, key, v) for key, v in form.items() if key not in bad}
    return settled, tuple(sorted((*problems, *wrong), key=lambda problem: problem.place.line))


def _right(node: Mapping, name: str) -> dict[str, Any]:
    """The values that are written as they may be, each looked at by itself."""
    found: dict[str, Any] = {}
    for key, value in node.items():
        alone = Mapping({key: value})
        alone.line = key.line
        form, _ = structure(Page(name, alone, ()), SettingsForm)
        if form is not None:
            found[str(key)] = getattr(form, str(key))
    return found


def _placed(path: Path, name: str, value: Any) -> Any:
    if name in PATHS:
        return path.parent / str(value)
    return value.value if isinstance(value, Panel) else value
