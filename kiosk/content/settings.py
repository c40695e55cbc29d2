"""The settings of one kiosk: one YAML file, every key of it optional."""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import Enum
from pathlib import Path
from typing import Any

from kiosk.content.structure import structure
from kiosk.content.written import read_page
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
    """What the file settles, by name, with paths as `Path`; and every mistake in it.

    A path that does not begin with / is counted from the file's own folder.
    """
    if not path.is_file():
        return {}, (Problem(Place(str(path)), "no such file", advice="give the settings' file"),)
    page = read_page(path, path.name)
    if page.node is None and not page.problems:
        return {}, ()
    form, problems = structure(page, SettingsForm)
    if form is None:
        return {}, problems
    found = {f.name: getattr(form, f.name) for f in fields(form) if f.name != "line"}
    settled = {name: value for name, value in found.items() if value is not None}
    return {name: _placed(path, name, value) for name, value in settled.items()}, ()


def _placed(path: Path, name: str, value: Any) -> Any:
    if name in PATHS:
        return path.parent / str(value)
    if isinstance(value, Panel):
        return value.value
    return value if isinstance(value, bool) else str(value)
