"""What a report says for the ids and short words of the record, and what it knows of content."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from kiosk.core.assessment import measures_of
from kiosk.core.model import Assessment, Content
from kiosk.core.report import Drill
from kiosk.core.words import Words
from kiosk.export.rows import said_plainly

NO_WORDS = Words("en", {})

ENDINGS = {
    "finished": "finished",
    "left": "left early by the pupil",
    "closed": "closed, nobody there",
    "cut_short": "cut short by a restart or loss of power",
    "ended": "ended by an adult",
}
CHECKS = {
    "pin": "with a PIN",
    "badge": "with a badge",
    "code": "with a spare code",
    "spell": "with one touch, the adult at the drill",
}
RESTARTS = {
    "first": "first start of this record",
    "clean": "after an orderly stop",
    "cut": "after a loss of power or a crash",
}
NOTES = {"near_miss": "near misses", "incident": "incidents", "note": "other notes"}
WAYS = {
    "sensed": "a contact stood for the isolator",
    "said": "people said so: this drill has no such contact",
    "unread": "a contact is there, but there was no reading to go by",
}
RUNS = {"sensed": "a contact saw it run", "said": "people said so"}
PATHS = {
    "fresh": "set-up made from the start",
    "joining": "set-up kept from the one before",
}


@dataclass(frozen=True)
class Told:
    """The words of the school's language and what its content says; both may be missing.

    `groups` are the groups' names by id, `order` the steps' numbers in the written sequence.
    """

    words: Words = NO_WORDS
    assessment: Assessment | None = None
    groups: Mapping[str, str] = field(default_factory=dict)
    order: Mapping[str, int] = field(default_factory=dict)
    hazards: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def step(self, id: str) -> str:
        """A step with its number and title."""
        title = self._word(f"step.{id}.title", id)
        return f"{self.order[id]}. {title}" if id in self.order else title

    def job(self, id: str) -> str:
        """A job by name."""
        return self._word(f"job.{id}", id) if id else "begun before this stretch"

    def bit(self, id: str) -> str:
        """A kind of bit."""
        return self._word(f"bit.{id}", id) if id else "not in this stretch"

    def hazard(self, id: str) -> str:
        """A hazard by name."""
        return self._word(f"hazard.{id}", id) if id else "no hazard named"

    def level(self, word: str) -> str:
        """A training level."""
        return self._word(f"level.{word}", word)

    def input(self, name: str) -> str:
        """A contact by what it tells of."""
        return self._word(f"input.{name}", name)

    def trouble(self, id: str) -> str:
        """A trouble of *Something wrong?*."""
        return self._word(f"trouble.{id}.title", id)

    def interruption(self, why: str) -> str:
        """What interrupted a turn."""
        return self._word(f"interruption.{why}.title", why)

    def out(self, why: str, machine: str = "") -> str:
        """Why a machine is out of use: a reason, or what of a check was not right."""
        checks = (f"pre_use.{machine}.{why}", f"pre_use.{why}", f"control.{why}")
        for key in (f"out.{why}", *checks):
            if self.words.has(key):
                return self.words.say(key)
        return said_plainly(why)

    def machine(self, id: str) -> str:
        """A drill by name."""
        return self._word(f"machine.{id}", id) if id else "drill not named"

    def drill(self, drill: Drill, others: tuple[Drill, ...]) -> str:
        """A drill by name; with its record's number where another record is of the same drill."""
        same = sum(other.machine == drill.machine for other in others) > 1
        name = self.machine(drill.machine)
        return f"{name}, record {drill.log[:8]}" if same else name

    def group(self, id: str) -> str:
        """A group by name."""
        return self.groups.get(id) or said_plainly(id) or "no lesson seen to open"

    def hazards_of(self, step: str) -> tuple[str, ...]:
        """The hazards whose control measures a step carries out, by name."""
        return tuple(self.hazard(id) for id in self.hazards.get(step, ()))

    def _word(self, key: str, id: str) -> str:
        return self.words.maybe(key) or said_plainly(id)


def told_by(content: Content, words: Words, groups: Mapping[str, str]) -> Told:
    """What a report knows with content at hand."""
    steps = content.drilling.steps
    every = (*steps, *(step for each in content.recoveries for step in each.steps))
    against = {
        hazard.id: {measure.id for measure in measures_of(content.assessment, hazard)}
        for hazard in content.assessment.hazards
    }
    return Told(
        words,
        content.assessment,
        groups,
        {step.id: number for number, step in enumerate(steps, 1)},
        {
            step.id: tuple(h for h, measures in against.items() if measures & set(step.controls))
            for step in every
        },
    )
