"""The whole term: three drills, ten weeks, and what befell each of them."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, replace
from hashlib import sha256
from random import Random

from demo.recorded import Branch
from kiosk.core.events import Entry, LevelKept, RecordRenewed
from kiosk.core.inputs import EraseAsked, PurgeReady
from kiosk.core.kiosk import EMPTY
from kiosk.store.codec import BEFORE_FIRST, encode
from tests.recorded.days import DAY, HOUR, MONDAY_US, Days
from tests.recorded.school import shop_of

WEEKS = 10
GROUPS_OF_THE_WEEK = (("8b", 5), ("9a", 6), ("10t", 6), ("club", 2), ("11x", 2))
SPECIAL_DAYS: dict[int, Callable[[Days], None]] = {
    3: lambda day: day.notes("near_miss", "entanglement"),
    6: lambda day: day.own_use(),
    8: lambda day: day.out_of_use("fault"),
    9: lambda day: day.downloads("week"),
    11: lambda day: day.notes("note", "swarf"),
    13: lambda day: day.downloads("since_last", "full"),
    14: lambda day: day.office(),
    16: lambda day: day.notes("incident", "swarf"),
    19: lambda day: day.out_of_use("locked_off"),
    22: lambda day: day.notes("near_miss", "grabbed_work"),
    25: lambda day: day.downloads("term"),
}
"""What adults do besides on the days of the term, counted from 0 over its days of use."""

BAD_CLOCKS = {
    "drill-1": {},
    "drill-2": dict.fromkeys(range(1, 99), "restored"),
    "drill-3": dict.fromkeys((4, 5), "unset"),
}
PURGED = 150  # lines of drill-1 that were kept long enough
COPIED, PUT_BACK = 12, 17  # days: drill-2's card was copied, and put back to that copy


def log_of(name: str) -> str:
    """A log id that looks like any other and is the same each time."""
    return sha256(f"invented {name}".encode()).hexdigest()[:32]


def hash_at(log: str, entries: list[Entry], seq: int) -> str:
    """The hash of one line of a log."""
    prev = BEFORE_FIRST
    for entry in entries[:seq]:
        prev = encode(log, prev, entry).hash
    return prev


@dataclass
class Term:
    """One drill's term, day by day."""

    drill: Days
    done: int = 0

    def day(self, week: int, weekday: int, groups: tuple[tuple[str, int], ...]) -> None:
        """One day: start, lessons, what else happens, stop or a power cut."""
        drill, at = self.drill, MONDAY_US + (week * 7 + weekday) * DAY
        drill.clock = BAD_CLOCKS[drill.shop.machine.id].get(self.done, "good")
        if drill.record:
            drill.starts(at, "cut" if self.cut else "clean")
        else:
            drill.first_day(at)
        for group, turns in groups:
            drill.lesson(group, turns)
            drill.wait(1200)
        if self.done in SPECIAL_DAYS:
            SPECIAL_DAYS[self.done](drill)
        self.cut = drill.dice.random() < 0.15
        if not self.cut:
            drill.stops()
        self.done += 1

    cut = False

    def cut_in_a_turn(self) -> None:
        """The power goes while a pupil is at it; the kiosk starts again in the same lesson."""
        drill = self.drill
        drill.calm = True
        if drill.opened("9a"):
            drill.start_only(2)
            drill.starts(drill.now.wall_us + HOUR // 60, "cut")
            drill.stands_still()
            drill.turn(4)
        drill.calm = False


def drill_of(machine: str, seed: int) -> Days:
    """A drill before its first day."""
    return Days(shop=shop_of(machine), kiosk=EMPTY, dice=Random(seed))


def days_of(term: Term, days: range) -> None:
    """Three days a week, some groups on each."""
    for number in days:
        week, weekday = number // 3, (0, 2, 4)[number % 3]
        at = number % len(GROUPS_OF_THE_WEEK)
        term.day(week, weekday, (GROUPS_OF_THE_WEEK[at], GROUPS_OF_THE_WEEK[at - 2])[: 1 + at % 2])
        if number % 9 == 4:
            term.cut_in_a_turn()


def drill_1() -> tuple[Branch, ...]:
    """Two downloads; between them old lines were kept long enough and went."""
    term, log = Term(drill_of("drill-1", 11)), log_of("drill-1")
    days_of(term, range(15))
    half = len(term.drill.record)
    head = hash_at(log, term.drill.record, PURGED)
    term.drill.give(EraseAsked("pupil", "11x-3", "asked"))
    term.drill.give(PurgeReady(1, PURGED, head))
    days_of(term, range(15, WEEKS * 3))
    entries = tuple(term.drill.record)
    return (Branch("drill-1", "drill-1", log, entries, ((1, half), (PURGED + 1, len(entries)))),)


def drill_2() -> tuple[Branch, ...]:
    """Its card is copied, goes on, is put back to the copy, and goes on from there."""
    term, log = Term(drill_of("drill-2", 22)), log_of("drill-2")
    days_of(term, range(COPIED))
    copy = deepcopy((term.drill.kiosk, term.drill.record))
    days_of(term, range(COPIED, PUT_BACK))
    before = tuple(term.drill.record)
    term.drill.kiosk, term.drill.record = copy
    same = len(term.drill.record)
    days_of(term, range(PUT_BACK, WEEKS * 3))
    after = tuple(term.drill.record)
    return (
        Branch("drill-2", "drill-2", log, before, ((1, len(before)),)),
        Branch("drill-2-put-back", "drill-2", log, after, ((1, len(after)),), ("drill-2", same)),
    )


def drill_3() -> tuple[Branch, ...]:
    """Its record is damaged in the middle of the term; a new one is begun."""
    term, log = Term(drill_of("drill-3", 33)), log_of("drill-3")
    days_of(term, range(16))
    old = tuple(term.drill.record)
    drill = term.drill
    drill.kiosk, drill.record = replace(drill.kiosk, session=None), []
    drill.tells(RecordRenewed(log, len(old), hash_at(log, list(old), len(old))))
    drill.tells(LevelKept("8b-1", "supervised", drill.shop.machine.family, "plain", 1, 0, 1, "a1"))
    days_of(term, range(16, WEEKS * 3))
    new = tuple(drill.record)
    return (
        Branch("drill-3", "drill-3", log, old, ((1, len(old)),)),
        Branch("drill-3-renewed", "drill-3", log_of("drill-3 renewed"), new, ((1, len(new)),)),
    )


def term() -> tuple[Branch, ...]:
    """All branches of all logs."""
    return (*drill_1(), *drill_2(), *drill_3())
