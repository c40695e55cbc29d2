"""Downloads of many drills taken in side by side, by as many processes as there are cores.

What may bear on each other stays together and in its order: downloads of one log, and those of
one drill by its name. Each download is still one transaction of one connection.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor, wait
from itertools import chain
from multiprocessing import get_context
from typing import TYPE_CHECKING, NamedTuple

from kiosk.cli.gathered import Gathered
from kiosk.store.collected import CollectFault, Database, Outcome, Taking

if TYPE_CHECKING:
    from multiprocessing.sharedctypes import Synchronized

WORTH = 20_000
"""Lines that pay for another process's start."""

PORTIONS = 8
"""Portions for each process: small enough that none is left waiting for another for long."""

LOOK_S = 0.1

Progress = Callable[[int], None]


def taken(
    database: Database, found: list[Gathered], site: str, progress: Progress
) -> Iterator[Outcome]:
    """Take every download in; what came of each, lot by lot.

    Raises CollectFault; what was taken in until then stands and has been told.
    """
    lots, lines = lots_of(found), sum(max(0, one.of.count) for one in found)
    hands = min(os.cpu_count() or 1, len(lots), lines // WORTH)
    if hands < 2:
        yield from _each(database, found, site, progress)
    else:
        yield from _shared(database, list(_portions(lots, hands * PORTIONS)), hands, site, progress)


def lots_of(found: list[Gathered]) -> list[list[Gathered]]:
    """What may bear on each other together, in its order: of one log, or of drills of one name."""
    lots: list[tuple[set[tuple[str, str]], list[int]]] = []
    for at, one in enumerate(found):
        names, places = {("log", one.of.log), ("machine", one.of.machine)}, [at]
        for other in [other for other in lots if names & other[0]]:
            lots.remove(other)
            names, places = names | other[0], places + other[1]
        lots.append((names, places))
    return [[found[at] for at in sorted(places)] for _, places in lots]


def _portions(lots: list[list[Gathered]], count: int) -> Iterator[list[Gathered]]:
    """Whole lots, put together to about so many portions of like size."""
    least = sum(one.of.count for lot in lots for one in lot) / count
    portion: list[Gathered] = []
    for lot in lots:
        portion += lot
        if sum(one.of.count for one in portion) >= least:
            yield portion
            portion = []
    if portion:
        yield portion


def _each(
    database: Database, found: Iterable[Gathered], site: str, progress: Progress
) -> Iterator[Outcome]:
    with database.session() as connection:
        taking = Taking(connection, site, progress)
        for one in found:
            yield taking.refuse(one.of, one.wrong) if one.wrong else taking.take(one.of, one.lines)


# --- more than one process ------------------------------------------------------------------------


def _shared(
    database: Database,
    portions: list[list[Gathered]],
    hands: int,
    site: str,
    progress: Progress,
) -> Iterator[Outcome]:
    """What the processes made of their portions; the first fault is raised once all have ended."""
    context = get_context("spawn")
    done: Synchronized[int] = context.Value("q", 0)
    said = (database.url.render_as_string(hide_password=False), site, done)
    with ProcessPoolExecutor(hands, context, _begin, said) as pool:
        futures = [pool.submit(_portion, portion) for portion in portions]
        _watch(futures, done, progress)
        pool.shutdown(cancel_futures=True)
    made = [future.result() for future in futures if not future.cancelled()]
    yield from chain.from_iterable(one.outcomes for one in made)
    for fault in filter(None, (one.fault for one in made)):
        raise fault


def _watch(futures: list[Future[_Made]], done: Synchronized[int], progress: Progress) -> None:
    """Tell of progress until all is done or one has met a fault."""
    waiting, before = set(futures), 0
    while waiting and not any(future.done() and future.result().fault for future in futures):
        waiting = wait(waiting, LOOK_S).not_done
        now = done.value
        progress(now - before)
        before = now


class _Made(NamedTuple):
    """What came of a portion, as far as it got."""

    outcomes: list[Outcome]
    fault: CollectFault | None


class _Hand(NamedTuple):
    """What a process works with."""

    database: Database
    site: str
    progress: Progress


_hands: list[_Hand] = []  # one in each process of the pool, none elsewhere


def _begin(address: str, site: str, done: Synchronized[int]) -> None:
    """Make a new process ready; it ends with the command that began it, not by itself."""

    def progress(lines: int) -> None:
        with done.get_lock():
            done.value += lines

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _hands.append(_Hand(Database(address), site, progress))


def _portion(found: list[Gathered]) -> _Made:
    """Take one portion in; each download of it stands for itself."""
    hand, outcomes = _hands[0], list[Outcome]()
    try:
        for outcome in _each(hand.database, found, hand.site, hand.progress):
            outcomes.append(outcome)
    except CollectFault as fault:
        return _Made(outcomes, fault)
    return _Made(outcomes, None)
