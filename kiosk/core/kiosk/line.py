"""The line at the drill: who waits, in which order, and for how long about.

Fair: whoever has had fewer turns in this lesson comes first, then whoever came first.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    Entry,
    LeftLine,
    LinedUp,
    PassedOver,
    ReadyInLine,
    SessionEnded,
    SessionStarted,
)
from kiosk.core.units import Duration, Moment
from kiosk.core.values import replace

TURN_S = 120  # before any turn was timed: what a joining pupil's turn should take (tests/bench)
TIMED = 5  # the last so many turns say how long the next ones will take


@dataclass(frozen=True)
class Waiting:
    """One pupil in line. `ready`: when eyes, hair, sleeves and cords were seen to, if they were."""

    pupil: str
    job: str
    hole: int
    ready: Moment | None = None


@dataclass(frozen=True)
class Line:
    """Who waits, the next one first; turns had by each pupil; how long the last turns took."""

    waiting: tuple[Waiting, ...] = ()
    turns: tuple[tuple[str, int], ...] = ()
    taken_s: tuple[int, ...] = ()
    begun: Moment | None = None

    @property
    def next(self) -> Waiting | None:
        """Whose turn it is."""
        return next(iter(self.waiting), None)

    def find(self, pupil: str) -> Waiting | None:
        """The place of a pupil who waits."""
        return next((one for one in self.waiting if one.pupil == pupil), None)

    def wait(self, pupil: str) -> Duration:
        """How long it is about until a pupil's turn: those before, each as the last turns took."""
        before = [one.pupil for one in self.waiting].index(pupil)
        middle = sorted(self.taken_s)[len(self.taken_s) // 2] if self.taken_s else TURN_S
        busy = 1 if self.begun else 0
        return Duration(float((before + busy) * middle))


def advance_line(line: Line, entry: Entry) -> Line:
    """The line after the entry."""
    match entry.event:
        case LinedUp(pupil, job, hole):
            return _lined_up(line, Waiting(pupil, job, hole))
        case ReadyInLine(pupil):
            return _changed(line, pupil, entry.at)
        case LeftLine(pupil):
            return _without(line, pupil)
        case PassedOver(pupil):
            return _passed_over(line, pupil)
        case SessionStarted(pupil):
            return _begun(_without(line, pupil), pupil, entry.at)
        case SessionEnded(how):
            return _ended(line, how, entry.at)
    return line


def _lined_up(line: Line, new: Waiting) -> Line:
    """Behind all who have had no more turns; whoever waits already keeps the place."""
    old = line.find(new.pupil)
    if old:
        now = replace(old, job=new.job, hole=new.hole)
        return replace(line, waiting=tuple(now if w is old else w for w in line.waiting))
    had = dict(line.turns)
    mine = had.get(new.pupil, 0)
    before = tuple(w for w in line.waiting if had.get(w.pupil, 0) <= mine)
    after = tuple(w for w in line.waiting if had.get(w.pupil, 0) > mine)
    return replace(line, waiting=(*before, new, *after))


def _changed(line: Line, pupil: str, ready: Moment) -> Line:
    waiting = tuple(replace(w, ready=ready) if w.pupil == pupil else w for w in line.waiting)
    return replace(line, waiting=waiting)


def _without(line: Line, pupil: str) -> Line:
    return replace(line, waiting=tuple(w for w in line.waiting if w.pupil != pupil))


def _passed_over(line: Line, pupil: str) -> Line:
    """Whoever is called and not there lets one other go first."""
    order = list(line.waiting)
    at = next((n for n, one in enumerate(order) if one.pupil == pupil), len(order))
    order[at : at + 2] = reversed(order[at : at + 2])
    return replace(line, waiting=tuple(order))


def _begun(line: Line, pupil: str, at: Moment) -> Line:
    had = dict(line.turns)
    turns = tuple({**had, pupil: had.get(pupil, 0) + 1}.items())
    return replace(line, turns=turns, begun=at)


def _ended(line: Line, how: str, at: Moment) -> Line:
    """Only turns that were finished say how long a turn takes."""
    passed = at.since(line.begun) if line.begun else None
    taken = (round(passed.s),) if passed and how == "finished" else ()
    return replace(line, begun=None, taken_s=(*line.taken_s, *taken)[-TIMED:])
