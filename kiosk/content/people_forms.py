"""The forms of `people.yaml` and `questions.yaml`: the school's settings, and the questions."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.content.values import Interval

Texts = tuple[str, ...]


@dataclass(frozen=True)
class PeopleForm:
    """The file `people.yaml`; what a school leaves out stays as shipped."""

    mixed_pad: bool | None = None
    names: bool | None = None
    questions_first: bool | None = None
    level_lasts: Interval | None = None
    level_lapses: Interval | None = None
    watched: dict[str, str] | None = None
    line: int = 0


@dataclass(frozen=True)
class QuestionForm:
    """One question; its id is the key it stands under."""

    ask: str
    right: str
    wrong: Texts
    why: str
    line: int = 0
