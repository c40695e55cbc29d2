"""What a report holds: counts by name, with nothing of a person in them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from kiosk.core.kiosk.care import CheckState
from kiosk.core.report.clock import ClockRemark, Offsets
from kiosk.core.report.small import UseRow
from kiosk.core.report.tally import Counts, Ranks

SLOW_S = 60  # a step that took longer than this is worth a look at its wording


@dataclass(frozen=True)
class Times:
    """How long something took, `times` times: in the middle, and how often over `SLOW_S`.

    `middle_s` is the median in whole seconds; the lower one of two.
    """

    times: int
    middle_s: int
    slow: int

    @property
    def slow_share(self) -> float:
        """The share that was slow, from 0 to 1."""
        return self.slow / self.times if self.times else 0.0


@dataclass(frozen=True)
class StepRow:
    """A step: its times (None where too few pupils did it), how often it was gone back to and
    how often it was not right at the adult check.
    """

    step: str
    times: Times | None
    back: int
    not_right: int


@dataclass(frozen=True)
class NoteRow:
    """Near misses, incidents and other notes on a hazard, and the day of the last of them.

    `open` counts those not followed up to their end; `due`: the hazard is marked for review.
    """

    hazard: str
    near_misses: int
    incidents: int
    others: int
    last_day: str
    open: int = 0
    due: bool = False


@dataclass(frozen=True)
class ChainFault:
    """What is amiss with a log: `broken` at a line, a `gap` of lines, a `fork` (the same numbers
    twice: a card was put back to an older copy), `reset` (a damaged record was set aside).
    """

    what: str
    first: int
    last: int


@dataclass(frozen=True)
class Drill:
    """One kiosk's log. `starts`, `run_s` and `run_downs` are None where no contact knows them.

    `run_downs` are in tenths of a second. `begins` is the first line still kept. `unlooked` are
    days of use on which no check of the day was passed, but none whose beginning the log does not
    hold; `days` the days of use. `out` is why it is out of use at the end, or empty. `checks` are
    installation checks as last made.
    """

    machine: str
    log: str
    first: int
    last: int
    first_wall_us: int
    last_wall_us: int
    entries: int
    lessons: int
    sessions: int
    holes: int
    starts: int | None
    run_s: int | None
    run_downs: Times | None
    days: int
    unlooked: int
    out: str
    begins: int
    checks: tuple[CheckState, ...]
    faults: tuple[ChainFault, ...]
    clock: tuple[ClockRemark, ...]
    offsets: Offsets


@dataclass(frozen=True)
class Report:
    """The whole report. What has a name here is counted over all drills together.

    Use over time is by `span`: by `day`, `week` (named by its Monday), `month` or `year`, the
    finest that leaves few enough rows. Of `grants` each row is a level with how often it was
    granted after watching, came from a roster, ended, and lapsed; None where too few pupils stand
    behind it. `pupils` is how many different ones drilled, None where they are too few to tell.
    """

    drills: tuple[Drill, ...] = ()
    lapses: int = 0
    span: str = "day"
    use_by_span: tuple[UseRow, ...] = ()
    use_by_group: tuple[UseRow, ...] = ()
    use_by_level: tuple[UseRow, ...] = ()
    holes: tuple[tuple[str, str, int], ...] = ()
    set_ups: tuple[tuple[str, Times | None], ...] = ()
    queue: Times | None = None
    steps: tuple[StepRow, ...] = ()
    notes_by_hazard: tuple[NoteRow, ...] = ()
    grants: tuple[tuple[str, tuple[int, int, int, int] | None], ...] = ()
    pupils: int | None = None
    ranks: Mapping[str, Ranks] = field(default_factory=dict)

    def counts(self, of: str) -> Counts:
        """Words with how often each came, the most frequent first."""
        return tuple((words[0], count) for words, count in self.ranks.get(of, ()))

    def total(self, of: str) -> int:
        """How many of these there were in all."""
        return sum(count for _, count in self.ranks.get(of, ()))

    @property
    def offsets(self) -> Offsets:
        """Of all boots whose clock was once synchronised."""
        return tuple(offset for drill in self.drills for offset in drill.offsets)

    @property
    def entries(self) -> int:
        """All entries of all logs."""
        return sum(drill.entries for drill in self.drills)

    @property
    def drilled(self) -> int:
        """All holes together."""
        return sum(count for _, _, count in self.holes)
