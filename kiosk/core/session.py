"""One pupil's use of the machine, folded from its events.

It stands at a step of its plan; a `Halt` lies over it while something is wrong. Nothing decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    OF_THE_LINE,
    CheckAsked,
    DrillingShown,
    Entry,
    Event,
    HoleDrilled,
    Interrupted,
    InterruptionCleared,
    MistakeCleared,
    NotRight,
    OkGiven,
    ReadingChanged,
    RecoveryStepDone,
    RunDownSeen,
    SaidAllowed,
    SessionEnded,
    SessionStarted,
    StepDone,
    SteppedBack,
    StillAsked,
    StillThereAsked,
    StillThereSaid,
    TroubleNamed,
    TroubleSeen,
)
from kiosk.core.model import Fact, Needs
from kiosk.core.plan.going_back import SET_UP_PARTS, is_mended, mending_step, place_back
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.units import Moment
from kiosk.core.values import replace

RUN_INPUTS = ("starter", "spindle")
_NOT_THE_PUPIL = (ReadingChanged, RunDownSeen, StillThereAsked, *OF_THE_LINE)


@dataclass(frozen=True)
class Halt:
    """What halted the session: `why` a short word, then the trouble named and its step."""

    why: str
    trouble: str = ""
    at: int = 0

    @property
    def is_unnamed(self) -> bool:
        """Whether *Something wrong?* was touched and nobody has said yet what it is."""
        return self.why == "wrong" and not self.trouble


@dataclass(frozen=True)
class Session:
    """Where one pupil stands.

    `path` and `at` point at a step of the plan. `done` counts drilled holes. `changed`: the
    pupil has touched the set-up since the last OK. `checked`: an adult has given the OK in this
    session and nothing voided it. `asked`: *Still there?* is shown. `spindle` is what its contact
    has shown since the OK: nothing yet, `turning`, or `still` after the stop. `is_off`: the
    isolator was turned off and no start came since. `redo`: at the adult check this step was not
    right; `mending`: it is put right in front of the check. `stood`: the adult who has just done
    the step before this one, an adult's too.
    """

    number: int
    pupil: str
    level: str
    job: str
    hole: int
    plan: Plan
    way: str
    path: str
    at: int
    touched: Moment
    allowed: bool = True
    is_off: bool = False
    done: int = 0
    changed: bool = False
    checked: bool = False
    run_seen: bool = False
    off_since: Moment | None = None
    spindle: str = ""
    trouble: str = ""
    still_asked: bool = False
    halt: Halt | None = None
    asked: bool = False
    redo: bool = False
    mending: bool = False
    stood: str = ""

    @property
    def step(self) -> PlanStep:
        """The step the session stands at; put right in front of the check, or of its path."""
        if self.mending:
            return mending_step(self.plan)
        return self.plan.path(self.path)[self.at]

    @property
    def is_drilling(self) -> bool:
        """Whether the drilling screen stands and the drill may be turning."""
        return self.halt is None and self.step.part == "drill"

    @property
    def is_waiting_for_adult(self) -> bool:
        """Whether the adult check is asked for."""
        return self.halt is None and self.step.part == "check"


def start_session(entry: Entry, event: SessionStarted) -> Session:
    """The session that begins with `event`; the entry carries its plan."""
    assert entry.plan is not None, "the start of a session comes with its plan"
    return Session(
        number=entry.seq,
        pupil=event.pupil,
        level=event.level,
        job=event.job,
        hole=event.hole,
        plan=entry.plan,
        way=event.way,
        path=event.path,
        at=0,
        touched=entry.at,
        allowed=event.way != "unread",
    )


def advance_session(session: Session, entry: Entry) -> Session | None:
    """The session after the entry; None once it has ended."""
    if isinstance(entry.event, SessionEnded):
        return None
    after = _advance_steps(session, entry.event)
    after = _advance_drilling(after, entry)
    after = _advance_halt(after, entry.event)
    if entry.seq and not isinstance(entry.event, _NOT_THE_PUPIL):
        after = replace(after, touched=entry.at, asked=False, stood=_stood(entry.event, after.step))
    return after


def _stood(event: Event, here: PlanStep) -> str:
    """The adult who did a step and stands at the next one, which is an adult's as well."""
    by = event.by if isinstance(event, StepDone) else ""
    return by if here.who == "adult" and by not in ("pupil", "line") else ""


def _advance_steps(session: Session, event: Event) -> Session:
    match event:
        case StepDone():
            return _done(session)
        case SteppedBack(step):
            return replace(session, at=place_of(session, step))
        case NotRight(step):
            return _back_to(session, step)
        case SaidAllowed():
            return replace(session, allowed=True, way="said")
        case StillThereAsked():
            return replace(session, asked=True)
        case StillThereSaid() | CheckAsked():
            return replace(session, asked=False)
    return session


def _done(session: Session) -> Session:
    step = session.step
    changed = session.changed or bool(SET_UP_PARTS & set(step.touches))
    off = session.is_off or Fact.ISOLATOR_OFF in step.makes
    last = len(session.plan.path(session.path)) - 1
    at = session.at if session.mending else min(session.at + 1, last)
    return replace(session, at=at, changed=changed, is_off=off, redo=False, mending=False)


def _back_to(session: Session, step: str) -> Session:
    if is_mended(session.plan, step):
        return replace(session, mending=True, redo=True)
    path, at = place_back(session.plan, session.path, session.at, step, session.is_off)
    return replace(session, path=path, at=at, redo=True)


def _advance_drilling(session: Session, entry: Entry) -> Session:
    match entry.event:
        case OkGiven():
            return replace(session, checked=True, changed=False)
        case DrillingShown():
            at = _place_of_part(session, "drill")
            again = replace(session, at=at, run_seen=False, off_since=None, still_asked=False)
            return replace(again, spindle="", is_off=False)
        case TroubleSeen(why):
            return replace(session, trouble=_graver(session.trouble, why))
        case StillAsked():
            return replace(session, still_asked=True)
        case ReadingChanged(name, reading) if name in RUN_INPUTS and session.is_drilling:
            return _saw_run(_saw_spindle(session, name, reading), reading, entry.at)
        case HoleDrilled():
            return _after_hole(session)
    return session


def _graver(before: str, why: str) -> str:
    """*Something wrong?* may be a slip; what a contact says is not, and stands over it."""
    return why if before in ("", "wrong") else before


def _saw_run(session: Session, reading: str, at: Moment) -> Session:
    if reading == "on":
        return replace(session, run_seen=True, off_since=None, still_asked=False)
    return replace(session, off_since=at if reading == "off" else None)


def _saw_spindle(session: Session, name: str, reading: str) -> Session:
    """Still counts only after turning, and only if the starter went off before it."""
    turning = session.spindle == "turning"
    if name == "starter":
        return session if turning else replace(session, spindle="")
    if reading == "off":
        return replace(session, spindle="still" if turning else session.spindle)
    return replace(session, spindle="turning" if reading == "on" else "")


def _after_hole(session: Session) -> Session:
    done = session.done + 1
    path = "further" if done < session.plan.holes else "clear"
    return replace(
        session, done=done, path=path, at=0, trouble="", still_asked=False, run_seen=False
    )


def _advance_halt(session: Session, event: Event) -> Session:
    match event:
        case Interrupted(why):
            halt = Halt(why) if session.halt is None or session.halt.is_unnamed else session.halt
            return replace(session, halt=halt, trouble="", checked=False)
        case TroubleNamed(trouble):
            why = session.halt.why if session.halt else "wrong"
            return replace(session, halt=Halt(why, trouble), trouble="", checked=False)
        case RecoveryStepDone() if session.halt:
            return replace(session, halt=replace(session.halt, at=session.halt.at + 1))
        case MistakeCleared():
            return _before_start(replace(session, halt=None, trouble=""))
        case InterruptionCleared(_, choice):
            way = "said" if choice == "look" or session.way == "unread" else session.way
            return _again(replace(session, halt=None, way=way, allowed=True))
    return session


def _before_start(session: Session) -> Session:
    """An OK that was interrupted is asked for again."""
    if session.step.part != "drill":
        return session
    return replace(session, at=_place_of_part(session, "check"))


def _again(session: Session) -> Session:
    """From the start of the set-up; with every hole drilled only the clearing up is left.

    A pupil who was not ready yet starts with getting ready. Nobody knows whether the isolator was
    turned on meanwhile.
    """
    ready = session.step.part == "ready"
    session = replace(session, run_seen=False, is_off=False, mending=False)
    if session.done >= session.plan.holes:
        return replace(session, path="clear", at=0)
    at = 0 if ready else session.plan.first_set_up
    return replace(session, path="fresh", at=at, changed=True)


def place_of(session: Session, step: str) -> int:
    """The index of a step in the session's path; where it stands if the path lacks it."""
    ids = [s.id for s in session.plan.path(session.path)]
    return ids.index(step) if step in ids else session.at


def _place_of_part(session: Session, part: str) -> int:
    parts = [s.part for s in session.plan.path(session.path)]
    return parts.index(part) if part in parts else session.at


def step_back(session: Session) -> PlanStep | None:
    """The step that a pupil may go back to.

    Not into an adult's step, so not from the drilling screen to the check before it, and not hands
    in where the isolator may be on again.
    """
    if session.at == 0 or session.mending:
        return None
    before = session.plan.path(session.path)[session.at - 1]
    hands_in = before.needs is Needs.ISOLATOR_OFF and not session.is_off
    return None if before.who == "adult" or hands_in else before
