"""What has happened so far, as far as the rules care: the judge's own memory.

It is folded from events alone and shares no code with `kiosk.core.kiosk`: what the reducer
believes is not asked. Moments and the plan are *tale*; the rest is finite.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any, TypeAlias

from kiosk.core.model import Fact, Part
from kiosk.core.plan.shape import Plan, PlanStep, SetUp
from kiosk.core.units import Moment
from kiosk.core.values import replace

Here: TypeAlias = "PlanStep | None"
RUN_INPUTS = ("starter", "spindle")

READY = frozenset({Fact.EYES, Fact.HAIR, Fact.CLOTHES, Fact.NO_GLOVES})
AT_THE_WORK = frozenset(
    {
        Fact.ISOLATOR_OFF,
        Fact.MARKED,
        Fact.HELD,
        Fact.PUSHED,
        Fact.ON_MARK,
        Fact.TRIAL_STROKE,
        Fact.GUARD_DOWN,
    }
)
NOT_ASKED = frozenset({Fact.STOPS_POINTED_AT, Fact.SPINDLE_STILL, Fact.SET_UP_SEEN})
SET_UP = frozenset({Part.BIT, Part.CHUCK, Part.BELT, Part.TABLE, Part.STOP})

SET_UP_FACTS = frozenset(
    {
        Fact.BIT_FITTED,
        Fact.BIT_TRUE,
        Fact.KEY_OUT,
        Fact.SPEED_SET,
        Fact.BELT_COVER_SHUT,
        Fact.TABLE_SET,
        Fact.DEPTH_SET,
    }
)

# What is no longer sure once hands were at a part.
UNMADE: dict[Part, frozenset[Fact]] = {
    Part.BIT: frozenset({Fact.BIT_TRUE, Fact.KEY_OUT, Fact.TRIAL_STROKE, Fact.GUARD_DOWN}),
    Part.CHUCK: frozenset({Fact.BIT_TRUE, Fact.KEY_OUT, Fact.TRIAL_STROKE, Fact.GUARD_DOWN}),
    Part.BELT: frozenset({Fact.BELT_COVER_SHUT, Fact.SPEED_SET}),
    Part.TABLE: frozenset({Fact.TABLE_SET, Fact.ON_MARK, Fact.TRIAL_STROKE}),
    Part.STOP: frozenset({Fact.DEPTH_SET, Fact.TRIAL_STROKE}),
    Part.GUARD: frozenset({Fact.GUARD_DOWN}),
    Part.HOLDING: frozenset({Fact.PUSHED, Fact.TRIAL_STROKE, Fact.GUARD_DOWN}),
    Part.WORK: frozenset(
        {Fact.HELD, Fact.PUSHED, Fact.ON_MARK, Fact.TRIAL_STROKE, Fact.GUARD_DOWN}
    ),
}


@dataclass(frozen=True)
class House:
    """What the judge knows of the machine: inputs wired, run-down, spells, recoveries.

    `pilots` has job, hole and its pilot, by number from 0, of every hole that has one. `stopping`
    are the installation checks that keep the drill out of use while they are not right. `quiet`
    has the timetable of silent hours: from and up to which second of UTC.
    """

    inputs: tuple[str, ...] = ("isolator", "starter")
    run_down_s: float = 0.0
    spell_allowed: bool = True
    recoveries: tuple[tuple[str, tuple[PlanStep, ...]], ...] = ()
    pilots: tuple[tuple[str, int, int], ...] = ()
    stopping: frozenset[str] = frozenset()
    quiet: tuple[tuple[int, int], ...] = ()

    def recovery(self, trouble: str) -> tuple[PlanStep, ...]:
        """The recovery steps of a trouble."""
        return dict(self.recoveries).get(trouble, ())


@dataclass(frozen=True)
class Try:
    """A PIN tried: whose, what for, and whether the screen it was for still stood."""

    adult: str
    purpose: str
    stands: bool = True


@dataclass(frozen=True)
class Turn:
    """One pupil's session as its events told it.

    `ok`: `next` (given for the next start), `session` (given earlier in this session and
    nothing changed since), or empty. `halted`: why, or empty. `lost`: a reading that this
    session went by is lost and no adult has taken it over. `stood`: the adult whose step was the
    last thing done, at `stood_at`.
    """

    plan: Plan
    way: str
    pupil: str = ""
    facts: frozenset[Fact] = frozenset()
    done: int = 0
    ok: str = ""
    drilling: bool = False
    run_seen: bool = False
    off_at: Moment | None = None
    troubled: bool = False
    halted: str = ""
    trouble: str = ""
    recovered: int = 0
    ran: bool = False
    lost: bool = False
    stood: str = ""
    stood_at: Moment | None = None

    @property
    def is_slip(self) -> bool:
        """Whether *Something wrong?* was touched and nothing more has happened."""
        return self.halted == "wrong" and not self.trouble

    @property
    def may_go_on(self) -> bool:
        """Whether no adult need come: nothing is halted, or it can be taken back."""
        return not self.halted or self.is_slip


@dataclass(frozen=True)
class Past:
    """All that the rules remember.

    `kept` is the set-up that an OK stands for, last used at `used`. `unsure`: after a cut
    nobody has seen the drill still yet. `passed`: whose PIN has just been right. `owed`: what
    the next event must be.
    """

    isolator: str = "lost"
    running: tuple[str, ...] = ()  # run inputs that read on
    resting: tuple[str, ...] = ()  # run inputs that read off
    is_open: bool = False
    confirmed: bool = False
    stopped: bool = False
    opened: Moment | None = None
    length_s: int = 0
    out_of_use: str = ""  # who may return it: `technician`, `deputy`, `teacher`, `own`
    out_by: str = ""  # who has locked it off
    deputy: str = ""
    silent: bool = False
    overruled_s: int = 0  # silent hours that end here go by a wrong clock, an adult says
    own_use: bool = False
    pre_use: Moment | None = None
    unsure: bool = False
    trouble: str = ""  # named with no session open
    recovered: int = 0
    kept: SetUp | None = None
    used: Moment | None = None
    spell: str = ""
    spell_last: Moment | None = None
    signed: str = ""
    tried: Try | None = None
    passed: Try | None = None
    just_ok: str = ""  # the adult whose OK by PIN was the last event
    cleared: bool = False  # the last event ended an interruption
    technicians: tuple[str, ...] = ()
    roles: tuple[tuple[str, str], ...] = ()  # adults in use, each with a role
    until: tuple[tuple[str, str, int], ...] = ()  # adult, machine, last day
    machine: str = ""
    levels: tuple[tuple[str, str], ...] = ()  # every level that a pupil was ever given
    beside: tuple[str, ...] = ()
    wrong: tuple[tuple[str, int, Moment], ...] = ()  # adult, tries since the last right one, last
    tighter: tuple[str, ...] = ()  # what the lesson's adult asks for beyond the school's rules
    ready: tuple[tuple[str, Moment], ...] = ()  # pupil in line, when eyes and hair were seen to
    failed: frozenset[str] = frozenset()  # installation checks last entered as not right
    made: tuple[tuple[str, str], ...] = ()  # holes of jobs made at the screen: job, name
    piloted: tuple[tuple[str, str, int], ...] = ()  # pilots not used yet: pupil, job, hole
    owed: str = ""
    turn: Turn | None = None

    @property
    def is_drilling(self) -> bool:
        """Whether the drilling screen stands."""
        return self.turn is not None and self.turn.drilling and not self.turn.halted


def unmade(facts: frozenset[Fact], touched: tuple[Part, ...]) -> frozenset[Fact]:
    """The facts still sure after hands were at these parts."""
    for part in touched:
        facts = facts - UNMADE[part]
    return facts


def made_by(step: PlanStep, plan: Plan) -> frozenset[Fact]:
    """What a step makes sure of, as far as a rule asks for it with this plan.

    A kept set-up that was looked at is sure in all its parts.
    """
    key = (plan.digest, step.id, step.makes)
    found = _MADE.get(key)
    if found is None:
        made = frozenset(step.makes)
        made = made | SET_UP_FACTS if Fact.SET_UP_SEEN in made else made
        found = _MADE[key] = made - not_asked(plan)
    return found


_MADE: dict[tuple[str, str, tuple[Fact, ...]], frozenset[Fact]] = {}


@lru_cache(maxsize=512)
def _not_asked(part_way: bool, keyed: bool, dusty: bool) -> frozenset[Fact]:
    facts = {Fact.DEPTH_SET: part_way, Fact.KEY_OUT: keyed, Fact.DUST_CONTROLLED: dusty}
    return NOT_ASKED | {fact for fact, asked in facts.items() if not asked}


def not_asked(plan: Plan) -> frozenset[Fact]:
    """The facts that no rule asks for with this plan."""
    values = dict(plan.values)
    keyed, dusty = values.get("chuck") == "keyed", values.get("dust") == "yes"
    return _not_asked(plan.set_up.stop is not None, keyed, dusty)


def step_called(plan: Plan, step: str) -> PlanStep | None:
    """The step of a plan by its id."""
    paths = (plan.fresh, plan.joining, plan.further, plan.clear)
    return next((s for path in paths for s in path if s.id == step), None)


def in_turn(past: Past, **changes: Any) -> Past:
    """The memory with the session's part changed; as it is while no session is open."""
    return replace(past, turn=replace(past.turn, **changes)) if past.turn else past


def made_stale(past: Past) -> Past:
    """The screen that a PIN was typed for is gone: what was looked at is no longer so."""
    return replace(past, tried=replace(past.tried, stands=False)) if past.tried else past


def at_rest(past: Past) -> Past:
    """The memory with nothing *just now* in it."""
    passing = past.passed or past.just_ok or past.cleared or past.owed
    return replace(past, passed=None, just_ok="", cleared=False, owed="") if passing else past
