"""What the contacts say: samples in, readings out, by one pure function.

`hardware` posts a `Sample` for each poll or loss; the runtime feeds it here and hands every
`Change` to `decide`.

A make contact is closed while the thing is on, a break contact while it is off. A pair whose
two ends were exchanged reads exactly like the opposite state: no evaluation can tell, so
commissioning must see both states before a pair is believed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from kiosk.core.model import ContactPair, ContactTimes, Reading, Wiring

OPEN_MEANS_OFF = ("starter", "spindle", "guard", "extraction")
"""Inputs for information only: their single make contact, open, is taken as *off*.

Such a contact is unsupervised: a wire that came off looks the same. The isolator's is never
taken so.
"""

PASSING_LOSSES = ("silent", "bad_answer", "refused")
"""Losses of one poll, borne until the stale time; every other loss is *unknown* at once."""

PORT_LOSSES = ("no_port", "no_permission", "in_use", "no_lines", "unplugged")
"""Losses of the port itself. A reading that is unknown for one reason is told anew for another
if either is the port's, so that what is said of a port is what is wrong with it now."""

MINUTE_US = 60_000_000


@dataclass(frozen=True)
class Sample:
    """What one poll brought: the level of each discrete input by number, or why there is none.

    `us` is the time since boot in microseconds, taken by the reader when the answer was whole.
    `lost` is empty for a good answer, else a short word: `no_port`, `no_permission`, `in_use`,
    `no_lines`, `silent`, `bad_answer`, `refused`, `unplugged`.
    """

    us: int
    levels: tuple[tuple[int, bool], ...] = ()
    lost: str = ""


@dataclass(frozen=True)
class Change:
    """A new reading of one input.

    `why` is `settled`, `discrepancy`, `stale`, `chatter` or the loss that a sample named.
    `at_start` marks the first one ever told: a state that was found, not something that happened.
    """

    input: str
    reading: Reading
    why: str
    at_start: bool = False


@dataclass(frozen=True)
class Watched:
    """One input as followed so far; all times are microseconds since boot.

    The run of equal samples is `said`, `count` and `since_us`; `said` is FAULT while the two
    contacts of a pair disagree and None while nothing is said. `apart_us` is when they began to
    disagree, `unsettled_us` when samples last stopped being settled, `backed_us` when one last said
    what the reading is, `held_us` the end of a hold for chatter. `lost` is the last loss, since
    `lost_us`; `why` was told with the reading.
    """

    input: str
    fresh_us: int
    reading: Reading = Reading.UNKNOWN
    told: bool = False
    said: Reading | None = None
    count: int = 0
    since_us: int = 0
    backed_us: int = 0
    apart_us: int | None = None
    unsettled_us: int | None = None
    held_us: int | None = None
    lost: str = ""
    lost_us: int = 0
    why: str = ""
    changes: tuple[int, ...] = ()


@dataclass(frozen=True)
class Contacts:
    """Every wired input as followed so far."""

    inputs: tuple[Watched, ...] = ()

    def reading(self, name: str) -> Reading:
        """The reading of the input called `name`; unknown if it isn't wired."""
        return next((w.reading for w in self.inputs if w.input == name), Reading.UNKNOWN)


_Turn = tuple[Reading, str]
_Turned = tuple[Watched, tuple[Change, ...]]


def at_start(wiring: Wiring, us: int) -> Contacts:
    """Every input unknown and nothing told yet, at `us` microseconds since boot."""
    return Contacts(tuple(Watched(name, us) for name, _ in wiring.inputs))


def evaluate(
    contacts: Contacts, wiring: Wiring, sample: Sample
) -> tuple[Contacts, tuple[Change, ...]]:
    """Take in one sample: the contacts as they now stand and the readings that changed.

    A reading settles after `times.samples` equal samples in a row over at least
    `times.debounce`; a gap or a lost sample starts the row again. A sample that isn't newer than
    the last is passed over.
    """
    contacts, changes = passed(contacts, wiring, sample.us)
    pairs = dict(wiring.inputs)
    turned = [
        _take_in(one, pairs.get(one.input, ContactPair()), sample, wiring.times)
        for one in contacts.inputs
    ]
    return _gather(turned, changes)


def passed(contacts: Contacts, wiring: Wiring, us: int) -> tuple[Contacts, tuple[Change, ...]]:
    """Time has gone by to `us` without a sample: readings that may not be kept are let go."""
    turned = [_let_go(one, us, wiring.times) for one in contacts.inputs]
    return _gather(turned, ())


def next_deadline(contacts: Contacts, wiring: Wiring) -> int | None:
    """When `passed` must next be asked (microseconds since boot); None if nothing can lapse."""
    due = [us for one in contacts.inputs for us in _deadlines(one, wiring.times)]
    return min(due, default=None)


def says(name: str, pair: ContactPair, levels: dict[int, bool]) -> Reading | None:
    """What one set of levels says of an input, before any settling.

    FAULT: the two contacts of a pair disagree (both closed or both open). None: a contact's
    level is missing. One contact alone shows one state; its other one is unknown, but for the
    inputs of `OPEN_MEANS_OFF`.
    """
    wired = [number for number in (pair.make, pair.on_break) if number is not None]
    if any(number not in levels for number in wired):
        return None
    make = None if pair.make is None else levels[pair.make]
    on_break = None if pair.on_break is None else levels[pair.on_break]
    if make is not None and on_break is not None:
        return _pair_says(make, on_break)
    if make:
        return Reading.ON
    if on_break or (make is False and name in OPEN_MEANS_OFF):
        return Reading.OFF
    return Reading.UNKNOWN


def _pair_says(make: bool, on_break: bool) -> Reading:
    if make == on_break:
        return Reading.FAULT
    return Reading.ON if make else Reading.OFF


def _take_in(one: Watched, pair: ContactPair, sample: Sample, times: ContactTimes) -> _Turned:
    said = None if sample.lost else says(one.input, pair, dict(sample.levels))
    if said is None:
        return _lose(one, sample.lost or "bad_answer", max(sample.us, one.fresh_us), times)
    if sample.us < one.fresh_us or (sample.us == one.fresh_us and one.count):
        return one, ()
    one = _count(one, said, sample.us, times)
    turn = _settled(one, times)
    if turn is None:
        return _let_go(one, sample.us, times)
    return _turn(replace(one, unsettled_us=None, lost=""), turn, sample.us, times)


def _count(one: Watched, said: Reading, us: int, times: ContactTimes) -> Watched:
    apart = us if one.apart_us is None else one.apart_us
    unsettled = us if one.unsettled_us is None else one.unsettled_us
    joins = one.said is said and us - one.fresh_us <= times.gap.us
    return replace(
        one,
        said=said,
        fresh_us=us,
        count=min(one.count + 1, max(times.samples, 1)) if joins else 1,
        since_us=one.since_us if joins else us,
        backed_us=us if said is one.reading else one.backed_us,
        apart_us=apart if said is Reading.FAULT else None,
        unsettled_us=unsettled,
    )


def _settled(one: Watched, times: ContactTimes) -> _Turn | None:
    """What the run of equal samples has settled on, if it is long enough both ways."""
    if one.count < times.samples or one.fresh_us - one.since_us < times.debounce.us:
        return None
    if one.said is Reading.FAULT:
        lasted = one.fresh_us - (one.apart_us or 0)
        return (Reading.FAULT, "discrepancy") if lasted >= times.discrepancy.us else None
    return None if one.said is None else (one.said, "settled")


def _lose(one: Watched, word: str, us: int, times: ContactTimes) -> _Turned:
    since = one.lost_us if word == one.lost else us
    one = replace(one, said=None, count=0, lost=word, lost_us=since)
    if word in PASSING_LOSSES:
        return one, ()
    gone = replace(one, apart_us=None, unsettled_us=None)
    return _turn(gone, (Reading.UNKNOWN, word), us, times)


def _let_go(one: Watched, us: int, times: ContactTimes) -> _Turned:
    turn = _overdue(one, us, times)
    if us - one.fresh_us >= times.stale.us:
        one = replace(one, said=None, count=0, apart_us=None, unsettled_us=None)
    return (one, ()) if turn is None else _turn(one, turn, us, times)


def _overdue(one: Watched, us: int, times: ContactTimes) -> _Turn | None:
    """What an input must become because a time has run out on it."""
    quiet = us - one.fresh_us
    if quiet >= times.stale.us:
        return Reading.UNKNOWN, one.lost or "stale"
    if one.reading is Reading.FAULT:
        return None
    if one.apart_us is not None and us - one.apart_us >= times.discrepancy.us:
        known = quiet <= times.gap.us and one.count >= times.samples
        return (Reading.FAULT, "discrepancy") if known else (Reading.UNKNOWN, one.lost or "stale")
    if us >= min(_keep_until(one, times), default=us + 1):
        return Reading.UNKNOWN, one.lost or ("stale" if quiet > times.gap.us else "chatter")
    return None


def _keep_until(one: Watched, times: ContactTimes) -> tuple[int, ...]:
    """How long a reading may be kept that the samples don't bear out.

    Samples may come without settling for one slow hand and the settling after it; a reading that
    no sample has said for the stale time is let go even if samples came.
    """
    due = []
    if one.unsettled_us is not None:
        due.append(one.unsettled_us + times.discrepancy.us + times.gap.us + times.debounce.us)
    if one.reading is not Reading.UNKNOWN:
        due.append(one.backed_us + times.stale.us)
    return tuple(due)


def _turn(one: Watched, turn: _Turn, us: int, times: ContactTimes) -> _Turned:
    reading, why = turn
    if one.held_us is not None and us < one.held_us:
        return one, ()
    if reading is one.reading and one.told and not _is_news(one, why, us, times):
        return replace(one, held_us=None), ()
    recent = tuple(at for at in one.changes if us - at < MINUTE_US)
    held = us + MINUTE_US if len(recent) >= times.chatter_per_min and one.told else None
    if held is not None:
        reading, why, recent = Reading.UNKNOWN, "chatter", ()
    change = Change(one.input, reading, why, at_start=not one.told)
    one = replace(one, reading=reading, told=True, why=why, backed_us=us, held_us=held)
    return replace(one, changes=(*recent, us)), (change,)


def _is_news(one: Watched, why: str, us: int, times: ContactTimes) -> bool:
    """Whether a reading that stays unknown is so for another reason, the port's before or now."""
    if one.reading is not Reading.UNKNOWN or why == one.why:
        return False
    lasting = us - one.lost_us >= times.stale.us
    return why in PORT_LOSSES or (why in PASSING_LOSSES and one.why in PORT_LOSSES and lasting)


def _deadlines(one: Watched, times: ContactTimes) -> tuple[int, ...]:
    if one.told and one.reading is Reading.UNKNOWN:
        return ()
    due = [one.fresh_us + times.stale.us]
    if one.reading is not Reading.FAULT:
        if one.apart_us is not None:
            due.append(one.apart_us + times.discrepancy.us)
        due += _keep_until(one, times)
    return tuple(due)


def _gather(
    turned: list[_Turned], before: tuple[Change, ...]
) -> tuple[Contacts, tuple[Change, ...]]:
    inputs = tuple(one for one, _ in turned)
    return Contacts(inputs), before + tuple(c for _, changes in turned for c in changes)
