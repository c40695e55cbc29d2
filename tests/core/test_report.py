"""What a report counts, folded from entries."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields, is_dataclass

from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.events import (
    ClockStepped,
    Downloaded,
    Entry,
    Event,
    HoleDrilled,
    Interrupted,
    KioskStarted,
    LessonOpened,
    Noted,
    NotRight,
    OkGiven,
    PreUseFailed,
    PreUsePassed,
    ReadingChanged,
    RecordRenewed,
    RunWithoutOkSeen,
    SessionEnded,
    SessionStarted,
    TakenOutOfUse,
    TroubleNamed,
)
from kiosk.core.report import (
    ChainFault,
    ClockRemark,
    Drill,
    Log,
    Report,
    corrected,
    report,
)
from kiosk.core.units import Moment
from tests.recording import plan_of, started

TAG = plan_of("key_tag")
BLOCK = plan_of("pen_block")
PLANS = {TAG.digest: TAG, BLOCK.digest: BLOCK}


def report_of(entries: Iterable[Entry]) -> Report:
    return report((Log(entries),))


def counted(*events: Event, quality: int = 2) -> Report:
    return report_of(
        Entry(
            n,
            Moment("b", n, 1000 + n, quality),
            event,
            PLANS.get(event.plan) if isinstance(event, SessionStarted) else None,
        )
        for n, event in enumerate(events, 11)
    )


def drill(found: Report) -> Drill:
    return found.drills[0]


def reading(name: str, value: str, at_start: int = 0) -> ReadingChanged:
    return ReadingChanged(name, value, "settled", at_start)


def test_nothing_recorded_counts_nothing() -> None:
    found = report_of(())

    assert (found.entries, found.drilled, found.ranks, found.steps) == (0, 0, {}, ())
    assert report(()) == Report(lapses=120, set_ups=(("fresh", None), ("joining", None)))


def test_it_says_which_stretch_it_is_of() -> None:
    found = counted(PreUsePassed("a1"), LessonOpened("a1", "g", (), 60))

    assert (drill(found).first, drill(found).last, found.entries) == (11, 12, 2)
    assert (drill(found).first_wall_us, drill(found).last_wall_us) == (1011, 1012)


def test_holes_are_counted_by_job_and_bit_the_most_frequent_first() -> None:
    found = counted(
        started(TAG),
        HoleDrilled(1, "said"),
        SessionEnded("finished"),
        started(BLOCK),
        HoleDrilled(1, "sensed"),
        HoleDrilled(2, "sensed"),
        SessionEnded("left"),
    )

    assert found.holes == (
        ("pen_block", BLOCK.set_up.bit, 2),
        ("key_tag", TAG.set_up.bit, 1),
    )
    assert (found.drilled, found.counts("run")) == (3, (("sensed", 2), ("said", 1)))
    assert found.total("sessions") == 2
    assert found.counts("endings") == (("finished", 1), ("left", 1))


def test_a_hole_of_a_session_begun_before_the_stretch_has_no_job() -> None:
    found = counted(HoleDrilled(2, "said"))

    assert found.holes == (("", "", 1),)


def test_a_hole_after_the_end_of_a_session_is_not_counted_to_it() -> None:
    found = counted(started(TAG), SessionEnded("left"), HoleDrilled(1, "said"))

    assert found.holes == (("", "", 1),)


def test_oks_not_rights_interruptions_and_troubles_are_counted_by_word() -> None:
    found = counted(
        OkGiven("a1", "pin", 1),
        OkGiven("a1", "spell", 2),
        OkGiven("a2", "spell", 3),
        NotRight("guard_down"),
        Interrupted("isolator_on"),
        Interrupted("isolator_on"),
        Interrupted("wrong"),
        TroubleNamed("bit_broken"),
        RunWithoutOkSeen("starter"),
    )

    assert found.counts("checks") == (("spell", 2), ("pin", 1))
    assert found.counts("not_right") == (("guard_down", 1),)
    assert found.counts("interruptions") == (("isolator_on", 2), ("wrong", 1))
    assert found.counts("troubles") == (("bit_broken", 1),)
    assert found.counts("runs_without_ok") == (("starter", 1),)


def test_what_an_adult_did_at_the_machine_is_counted() -> None:
    found = counted(
        PreUsePassed("a1"),
        PreUseFailed("a1", "guard"),
        TakenOutOfUse("faulty", "a1"),
        Noted("a1", "n1", "near_miss", "swarf", "d"),
        Noted("a1", "n2", "incident", "swarf", "d"),
        Noted("a1", "n3", "near_miss", "hair", "d"),
        LessonOpened("a1", "g", (), 60),
        Downloaded("week", 1, 2, "h"),
    )

    assert (found.total("pre_use_passed"), found.counts("pre_use_failed")) == (1, (("guard", 1),))
    assert found.counts("out_of_use") == (("faulty", 1),)
    assert found.counts("notes") == (("near_miss", 2), ("incident", 1))
    assert (found.total("lessons"), dict(found.ranks["office"])["download", ""]) == (1, 1)


def test_a_start_is_the_starter_going_from_off_to_on() -> None:
    found = counted(
        reading("starter", "off", 1),
        reading("starter", "on"),
        reading("starter", "off"),
        reading("starter", "unknown"),
        reading("starter", "on"),
        reading("starter", "off"),
        reading("starter", "on"),
    )

    assert drill(found).starts == 2


def test_of_starter_and_spindle_only_the_starter_counts_starts() -> None:
    found = counted(
        reading("starter", "off", 1),
        reading("spindle", "off", 1),
        reading("starter", "on"),
        reading("spindle", "on"),
    )

    assert drill(found).starts == 1


def test_a_spindle_contact_alone_counts_starts_too() -> None:
    found = counted(reading("spindle", "off", 1), reading("spindle", "on"))

    assert drill(found).starts == 1


def test_without_a_contact_that_tells_starts_are_not_known() -> None:
    found = counted(reading("isolator", "off", 1), reading("isolator", "on"))

    assert drill(found).starts is None


def test_a_restart_between_off_and_on_is_no_start() -> None:
    found = counted(
        reading("starter", "off", 1),
        KioskStarted("drill-1", "0.1.0", "cut"),
        reading("starter", "on", 1),
    )

    assert drill(found).starts == 0


def test_a_reading_is_lost_once_until_it_comes_back() -> None:
    found = counted(
        reading("isolator", "unknown", 1),
        reading("isolator", "off"),
        reading("isolator", "unknown"),
        reading("isolator", "fault"),
        reading("isolator", "on"),
        reading("isolator", "fault"),
    )

    assert found.ranks["readings_lost"] == ((("isolator", "settled"), 2),)


def test_the_clock_is_remarked_on_with_the_entry_it_happened_at() -> None:
    found = counted(
        KioskStarted("drill-1", "0.1.0", "cut"), ClockStepped(-3_600_000_000, 2), quality=0
    )

    assert drill(found).clock == (
        ClockRemark(11, "not_set"),
        ClockRemark(12, "stepped", -3_600_000_000),
    )


def test_restarts_are_counted_by_how_the_run_before_ended() -> None:
    found = counted(
        KioskStarted("drill-1", "0.1.0", "first"),
        KioskStarted("drill-1", "0.1.0", "cut"),
        KioskStarted("drill-1", "0.1.0", "cut"),
        RecordRenewed("log", 5, "hash"),
    )

    assert found.counts("restarts") == (("cut", 2), ("first", 1))
    assert found.total("renewals") == 1
    assert drill(found).faults == (ChainFault("reset", 1, 1),)


def test_no_figure_can_tell_one_pupil_or_adult_from_another() -> None:
    one = counted(started(TAG, "p1"), HoleDrilled(1, "said"), OkGiven("a1", "pin", 1))
    other = counted(started(TAG, "p2"), HoleDrilled(1, "said"), OkGiven("a2", "pin", 1))

    assert one == other
    assert "p1" not in words_in(one)
    assert "a1" not in words_in(one)


def words_in(value: object) -> set[str]:
    if is_dataclass(value):
        return set().union(*(words_in(getattr(value, f.name)) for f in fields(value)))
    if isinstance(value, tuple):
        return set().union(*map(words_in, value))
    return {value} if isinstance(value, str) else set()


def test_once_the_clock_is_synchronised_the_times_before_it_in_that_boot_are_corrected() -> None:
    """A clock without a battery begins where it stopped, and jumps when it is set."""
    early = Entry(1, Moment("b1", 10, 500, 1), KioskStarted("drill-1", "0", "cut"))
    step = Entry(2, Moment("b1", 60, 9_060, 2), ClockStepped(8_510, 2))
    other = Entry(3, Moment("b2", 5, 600, 1), KioskStarted("drill-1", "0", "cut"))

    counts = report_of((early, step, other))
    offsets = dict(counts.offsets)

    assert corrected(early.at, offsets) == 9_010
    assert corrected(step.at, offsets) is None  # its own clock is right
    assert corrected(other.at, offsets) is None  # nothing is known of that boot
    assert (drill(counts).first_wall_us, drill(counts).last_wall_us) == (9_010, 600)


@given(st.lists(st.tuples(st.sampled_from("abc"), st.integers(0, 10**9)), min_size=1))
def test_corrected_times_of_one_boot_keep_the_order_of_its_time_since_boot(
    moments: list[tuple[str, int]],
) -> None:
    entries = [
        Entry(n, Moment(boot, us, us + 77, 2 if n % 3 == 0 else 1), ClockStepped(1, 1))
        for n, (boot, us) in enumerate(moments, 1)
    ]
    offsets = dict(report_of(entries).offsets)

    for entry in entries:
        better = corrected(entry.at, offsets)
        assert better is None or better == entry.at.us + 77
