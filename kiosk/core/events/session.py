"""What happens in one pupil's use of the machine."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events.base import Event


@dataclass(frozen=True)
class SessionStarted(Event):
    """A pupil began. `plan` is the digest of the compiled plan, kept apart, write-once.

    `path` is `fresh` or `joining`; a joining session relies on the set-up checked in entry
    `set_up` of the record (0 for none). `way` is `sensed` (a reading stands for the isolator),
    `said` (this machine has no such contact) or `unread` (it has one, but no reading to go by:
    an adult must allow going on by looking, and from then on it is `said`).
    """

    pupil: str
    level: str
    job: str
    hole: int
    plan: str
    path: str
    set_up: int
    way: str


@dataclass(frozen=True)
class SaidAllowed(Event):
    """With no reading to go by, an adult allowed the session to go on by looking."""

    adult: str


@dataclass(frozen=True)
class StepDone(Event):
    """The step's sign was seen to be right. `by` is `pupil` or an adult."""

    step: str
    by: str


@dataclass(frozen=True)
class SteppedBack(Event):
    """The pupil went back to `step` to do it again."""

    step: str


@dataclass(frozen=True)
class CheckAsked(Event):
    """The work is ready; an adult must look before the next start."""

    hole: int


@dataclass(frozen=True)
class OkGiven(Event):
    """The adult gave the OK to start. `by` is `pin` or `spell`."""

    adult: str
    by: str
    hole: int


@dataclass(frozen=True)
class NotRight(Event):
    """At the adult check something was not right; the session goes back to `step`."""

    step: str


@dataclass(frozen=True)
class DrillingShown(Event):
    """The drilling screen came up for hole `hole`. `ok` tells on what.

    `check`, `earlier`, or `again` after *not drilled*.
    """

    hole: int
    ok: str


@dataclass(frozen=True)
class TroubleSeen(Event):
    """Something happened while the drill may have been turning: one line was added."""

    why: str


@dataclass(frozen=True)
class StillAsked(Event):
    """The pupil touched, but no run had been seen since the OK: asked once more."""

    hole: int


@dataclass(frozen=True)
class HoleDrilled(Event):
    """Stopped and still, hole done. `run` is `sensed` (a contact saw it run) or `said`."""

    hole: int
    run: str


@dataclass(frozen=True)
class Interrupted(Event):
    """The session was halted. `why` is a short word, for instance `isolator_on`."""

    why: str


@dataclass(frozen=True)
class TroubleNamed(Event):
    """A picture was touched on *Something wrong?*: its recovery sequence begins."""

    trouble: str


@dataclass(frozen=True)
class RecoveryStepDone(Event):
    """A recovery step's sign was seen; `by` *nobody*: its isolator could not be turned off."""

    step: str
    by: str


@dataclass(frozen=True)
class MistakeCleared(Event):
    """*Something wrong?* had been touched by mistake, nothing was running."""


@dataclass(frozen=True)
class InterruptionCleared(Event):
    """An adult looked and decided. `choice`: `again` (set up again), `look` (go on by looking)."""

    adult: str
    choice: str


@dataclass(frozen=True)
class StillThereAsked(Event):
    """Nobody touched for a minute: the screen asks."""


@dataclass(frozen=True)
class StillThereSaid(Event):
    """Somebody answered."""


@dataclass(frozen=True)
class SessionEnded(Event):
    """The session is over. `how`: `finished`, `left`, `closed`, `cut_short`, `ended`."""

    how: str


@dataclass(frozen=True)
class StillConfirmed(Event):
    """After a restart someone saw the drill still. `by` is `said` or `sensed`."""

    by: str
