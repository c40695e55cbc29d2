"""The form for an accident or a near miss on paper, for when the kiosk can't be asked."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.export.sheets.values import Asked


@dataclass(frozen=True)
class AccidentForm:
    """The whole form: what is asked, with room to write, and the hazards to tick."""

    title: str
    machines: tuple[str, ...]
    first: tuple[str, ...]
    hazards: tuple[str, ...]
    short: tuple[str, ...]
    long: tuple[str, ...]
    last: tuple[str, ...]
    invented: bool = False


def accident_form(asked: Asked) -> AccidentForm:
    """The form of all machines; no name stands on it unless the school's own rules ask for one."""
    content, words = asked.content, asked.words
    return AccidentForm(
        title=words.say("sheet.accident"),
        machines=tuple(words.say(f"machine.{m.id}") for m in content.machines),
        first=tuple(words.say("sheet.accident_first").split("\n")),
        hazards=tuple(words.say(f"hazard.{h.id}") for h in content.assessment.hazards),
        short=tuple(words.say("sheet.accident_short").split("\n")),
        long=tuple(words.say("sheet.accident_long").split("\n")),
        last=tuple(words.say("sheet.accident_last").split("\n")),
    )
