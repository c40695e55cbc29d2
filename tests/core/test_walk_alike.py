"""States with one key behave alike, whatever their tale: other places, other times, other ways."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from functools import cache
from itertools import islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kiosk.core.inputs import DeadlinePassed, NameTrouble, ReadingIs, SeenRight, SomethingWrong
from kiosk.core.kiosk import next_deadline
from kiosk.core.kiosk.asks import run_down_left
from kiosk.core.kiosk.desk import Desk
from kiosk.core.model import Level, Needs, Reading
from kiosk.core.values import replace
from kiosk.core.view import show
from kiosk.core.walk.beginning import begun
from kiosk.core.walk.giving import Done, answer_left, attempt, give, settle
from kiosk.core.walk.grounds import Ground, ground_for
from kiosk.core.walk.keys import Key, key_of
from kiosk.core.walk.likeness import key_at, likeness, tried_at
from kiosk.core.walk.renewing import with_no_wait, with_readings
from kiosk.core.walk.screens import touches_of
from kiosk.core.walk.spots import NOW, Spot, later, region_of
from kiosk.core.walk.tries import Try, tries
from kiosk.core.walk.walking import NEVER, SILENT, Node, Walk, dealt_with
from tests.core.story import CONTENT, WORDS
from tests.mutation.arenas import shape_on, way_to

STATES = 500  # dealt with, from the first step with hands in; more make it slower and no stricter


@cache
def ground(machine: str = "drill-1") -> Ground:
    return ground_for(CONTENT, shape_on(CONTENT, WORDS, machine, Level.SUPERVISED))


@cache
def walked() -> tuple[Walk, tuple[Node, ...]]:
    """A walk cut short, and the states at which it took over what it had found elsewhere."""
    begun_at = way_to("hands", ground())
    walk = Walk((ground(),), office=False, first=begun_at)
    numbers = list(islice(dealt_with(walk), STATES))
    nodes = [walk.nodes[n] for n in numbers]
    return walk, tuple(n for n in nodes if _is_taken_over(walk, n))


def _is_taken_over(walk: Walk, node: Node) -> bool:
    alike = likeness(node.ground, node.key)
    return alike is not None and walk.found[alike].place != node.key[1]


def leads_to(at: Ground, spot: Spot, tried: Try) -> Key:
    """The key of the state that a try leads to; empty if nothing follows."""
    done = attempt(at, spot, tried)
    assert not done.broken
    if not done.events:
        return ()
    region = settle(at, done, spot)
    return key_of(at, done.spot, region)


def tried_out(at: Ground, spot: Spot) -> list[tuple[Try, Key]]:
    shown = touches_of(show(at.shop, spot.kiosk, SILENT, NOW))
    return [(tried, leads_to(at, spot, tried)) for tried in tries(at, spot, shown, office=False)]


@settings(max_examples=40, derandomize=True)
@given(which=st.integers(0, 10_000))
def test_what_is_taken_over_from_another_place_is_what_is_found_there(which: int) -> None:
    walk, nodes = walked()
    node = nodes[which % len(nodes)]
    alike = likeness(node.ground, node.key)
    assert alike is not None
    found = walk.found[alike]

    over = [
        key_at(found, way, node.ground, node.key)
        if way.to
        else leads_to(node.ground, node.spot, tried_at(found, way.tried, node.ground, node.key[1]))
        for way in found.ways
    ]

    there = [key for _, key in tried_out(node.ground, node.spot) if key]
    assert Counter(over) == Counter(there)


# --- other troubles ------------------------------------------------------------------------------


def troubled(at: Ground, trouble: str, done: int) -> Done:
    """A turn halted for a trouble, after some of its recovery steps."""
    off = ReadingIs("isolator", Reading.OFF, "settled")
    tale = begun(at, (*way_to("hands", at), SomethingWrong(), NameTrouble(trouble), off))
    for step in at.judge.house.recovery(trouble)[:done]:
        give(at, tale, SeenRight(step.id))
    return tale


def same_left(off: bool) -> list[tuple[str, int]]:
    """Troubles and steps done of which only adults' steps are left; they count as one.

    Apart from those whose adult needs the isolator off.
    """
    troubles = dict(ground().judge.house.recoveries)
    mine = {t: sum(step.who != "adult" for step in steps) for t, steps in troubles.items()}
    return [
        (t, done)
        for t, done in mine.items()
        if off == any(s.needs is Needs.ISOLATOR_OFF for s in troubles[t][done:])
    ]


@pytest.mark.parametrize("off", [True, False])
def test_troubles_with_the_same_left_of_their_recovery_are_one_state(off: bool) -> None:
    at = ground()
    first, *others = (stands_for(troubled(at, *which), at) for which in same_left(off))

    assert len(others) >= 1
    for spot in others:
        assert key_of(at, spot, "halt") == key_of(at, first, "halt")
        assert [key for _, key in tried_out(at, spot)] == [key for _, key in tried_out(at, first)]


# --- other times, counts and ids -----------------------------------------------------------------


def passing(done: Done, at: Ground, seconds: float) -> None:
    """Time passes; what falls due meanwhile is handed in, as the loop does."""
    end = later(done.now, seconds)
    while (due := next_deadline(at.shop, done.spot.kiosk, done.now)) and due.us <= end.us:
        done.now = later(done.now, max(0.0, (due.us - done.now.us) / 1_000_000))
        give(at, done, DeadlinePassed(due.kind))
    done.now = end


def goes(done: Done, at: Ground, tried: Try) -> Done:
    """What comes of a try from a state as it really came about."""
    if tried.before:
        before = goes(done, at, tried.before)
        done = Done(before.spot, before.now)
    for step in tried.steps:
        done.now = later(done.now, step.after_s, step.boot)
        give(at, done, step.given)
    return done


def key_from(done: Done, at: Ground, tried: Try) -> Key:
    after = goes(Done(done.spot, done.now), at, tried)
    assert not after.broken, after.broken
    if not after.events:
        return ()
    region = settle(at, after, NEVER)
    return key_of(at, after.spot, region)


def stands_for(done: Done, at: Ground) -> Spot:
    """The state that the walk keeps for all like this one."""
    copy = Done(done.spot, done.now)
    settle(at, copy, NEVER)
    return copy.spot


def runs_down_within(done: Done, at: Ground, tried: Try) -> bool:
    """Whether the spindle's time to run down ends during a try: that end is a try of its own."""
    session = done.spot.kiosk.session
    if session is None or session.off_since is None:
        return False
    left = run_down_left(at.shop, session, done.now).s
    return 0 < left <= sum(step.after_s for step in tried.whole)


def read(key: Key, before: Done) -> Key:
    """After a halt the walk goes on from one place for all that led there, and less is sure.

    At the drilling screen it forgets the path; where it is taken back, it tries every one.
    """
    if region_of(before.spot.kiosk) == "halt":
        return key[:1] + key[3:]
    session = before.spot.kiosk.session
    if session and session.step.part == "drill" and key[:1] == ("step",):
        _, (number, path, at, done), *rest = key
        return (number, done, ground().plan.path(path)[at].part, *rest)
    return key


def without_adult(done: Done) -> Done:
    """The same state before an adult was asked for."""
    kiosk = replace(done.spot.kiosk, desk=Desk())
    kiosk = replace(kiosk, adults=replace(kiosk.adults, trying=None))
    past = replace(done.spot.past, tried=None, signed="")
    return Done(Spot(kiosk, past), done.now)


def is_slip_at_an_adult(done: Done) -> bool:
    """Whether *Something wrong?* is not named, and an adult was asked for meanwhile.

    The walk forgets the place there. What takes the slip back, or only sends the adult away, leads
    where it leads before the adult was asked for; there the walk remembers the place.
    """
    halt = done.spot.kiosk.session.halt if done.spot.kiosk.session else None
    return halt is not None and halt.is_unnamed and region_of(done.spot.kiosk) == "halt"


CHOICES = st.lists(st.tuples(st.integers(0, 10_000), st.floats(0.1, 7.0)), max_size=10)
STARTS = st.sampled_from(("lesson", "hands", "check", "drilling", "hole", "wrong"))


def told(start: str, chosen: list[tuple[int, float]], at: Ground) -> Done:
    """A lesson led to a place, and on from there by sensible ways, with some time before each."""
    tale = begun(at, way_to(start, at))
    for number, seconds in chosen:
        passing(tale, at, seconds)
        shown = touches_of(show(at.shop, tale.spot.kiosk, SILENT, tale.now))
        ways = [t for t in tries(at, tale.spot, shown, office=False) if t.sensible]
        goes(tale, at, ways[number % len(ways)])
    passing(tale, at, 0.0)
    answer_left(at, tale)
    return tale


def leads_alike(tale: Done, at: Ground, tried: Try, key: Key) -> bool:
    """Whether a try leads where the walk says, or where the walk knows it from elsewhere."""
    there = key_from(tale, at, tried)
    if read(there, tale) == read(key, tale):
        return True
    back = is_slip_at_an_adult(tale) and there[:1] == ("step",)
    return back and there == key_from(without_adult(tale), at, tried)


def test_equal_keys_with_different_tales_behave_alike(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    heard: list[str] = []

    @settings(max_examples=3000 if full else 60)
    @given(chosen=CHOICES, start=STARTS)
    def behave_alike(chosen: list[tuple[int, float]], start: str) -> None:
        at = ground()
        tale = told(start, chosen, at)
        heard.append(start)
        kept = stands_for(tale, at)
        usual = {name: reading for name, reading, _ in kept.kiosk.machine.readings}
        tale.spot = with_readings(tale.spot, usual)  # where one counts, the walk tries with each
        tale.spot = with_no_wait(tale.spot)  # a wait counts tries; the walk goes into it in one try

        for tried, key in tried_out(at, kept):
            if not runs_down_within(tale, at, tried):
                assert leads_alike(tale, at, tried, key), tried

    behave_alike()

    sum_up(f"equal keys: {len(heard)} lessons, each tried as the state that stands for it")
