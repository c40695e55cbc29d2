"""Contact evaluation over random traces: what must hold whatever the contacts do."""

from __future__ import annotations

from dataclasses import dataclass

from hypothesis import example, given, settings
from hypothesis import strategies as st

from kiosk.core.contacts import Change, Sample, at_start, evaluate, next_deadline, passed, says
from kiosk.core.model import ContactPair, ContactTimes, Reading, Wiring
from kiosk.core.units import Duration

TIMES = ContactTimes()
INPUTS = (
    ("isolator", ContactPair(0, 1)),
    ("starter", ContactPair(make=2)),
    ("guard", ContactPair(on_break=3)),
)
WIRING = Wiring("modbus", inputs=INPUTS)
LOSSES = ("no_port", "no_permission", "in_use", "no_lines", "silent", "bad_answer", "unplugged")


@dataclass(frozen=True)
class Step:
    """A sample, or None where only time goes by; `us` since boot."""

    us: int
    sample: Sample | None


steps = st.lists(
    st.tuples(
        st.sampled_from((1_000, 20_000, 50_000, 200_000, 499_999, 500_001, 1_100_000, 2_500_000)),
        st.one_of(
            st.none(),
            st.sampled_from(LOSSES),
            st.tuples(*[st.booleans()] * 4),
            # contacts that stay as they are, so that traces settle often enough
            st.just((False, True, False, True)),
            st.just((True, False, True, False)),
        ),
        st.integers(1, 6),
    ),
    max_size=40,
)


def trace(drawn: list) -> list[Step]:
    us, found = 0, []
    for gap, what, times in drawn:
        for _ in range(times):
            us += gap
            found.append(Step(us, _sample(us, what)))
    return found


def _sample(us: int, what: object) -> Sample | None:
    if what is None:
        return None
    if isinstance(what, str):
        return Sample(us, lost=what)
    return Sample(us, tuple(enumerate(what)))


def play(found: list[Step], wiring: Wiring = WIRING):
    """Each step with the contacts and the changes after it."""
    contacts = at_start(wiring, 0)
    for step in found:
        if step.sample is None:
            contacts, changes = passed(contacts, wiring, step.us)
        else:
            contacts, changes = evaluate(contacts, wiring, step.sample)
        yield step, contacts, changes


def agreeing(before: list[Step], name: str, reading: Reading) -> bool:
    """Whether the newest samples agree on `reading`: enough of them, long enough, without gap."""
    newest: list[Sample] = []
    for step in reversed([s for s in before if s.sample]):
        if step.sample.lost or says(name, dict(INPUTS)[name], dict(step.sample.levels)) != reading:
            break
        if newest and newest[-1].us - step.us > TIMES.gap.us:
            break
        newest.append(step.sample)
    long = bool(newest) and newest[0].us - newest[-1].us >= TIMES.debounce.us
    return len(newest) >= TIMES.samples and long


@given(steps)
@settings(max_examples=300, deadline=None)
def test_on_and_off_are_told_only_after_enough_fresh_samples_that_agree(drawn):
    found = trace(drawn)

    for number, (_, _, changes) in enumerate(play(found)):
        for change in changes:
            if change.reading in (Reading.ON, Reading.OFF):
                assert agreeing(found[: number + 1], change.input, change.reading)


@given(steps)
@example([(20_000, (False, True, False, True), 4), (500_001, (True, False, True, False), 4)])
@settings(max_examples=300, deadline=None)
def test_the_isolator_reads_off_only_while_its_contacts_said_so_within_the_stale_time(drawn):
    said_off = None

    for step, contacts, _ in play(trace(drawn)):
        if step.sample and dict(step.sample.levels).get(1) and not step.sample.levels[0][1]:
            said_off = step.us
        if contacts.reading("isolator") is Reading.OFF:
            assert said_off is not None
            assert step.us - said_off < TIMES.stale.us


@given(steps)
@settings(max_examples=300, deadline=None)
def test_while_the_contacts_disagree_the_last_reading_is_kept_for_the_discrepancy_time_at_most(
    drawn,
):
    apart = None

    for step, contacts, _ in play(trace(drawn)):
        if step.sample and step.sample.levels:
            disagree = step.sample.levels[0][1] == step.sample.levels[1][1]
            apart = (apart or step.us) if disagree else None
        if apart is not None and step.us - apart >= TIMES.discrepancy.us:
            assert contacts.reading("isolator") not in (Reading.ON, Reading.OFF)


@given(steps)
@settings(max_examples=300, deadline=None)
def test_a_fault_gives_way_to_on_or_off_only_when_settled(drawn):
    told: dict[str, Change] = {}

    for _, _, changes in play(trace(drawn)):
        for change in changes:
            if change.reading in (Reading.ON, Reading.OFF):
                assert change.why == "settled"
            if change.reading is Reading.FAULT:
                assert (change.input, change.why) == ("isolator", "discrepancy")
            told[change.input] = change


@given(steps)
@settings(max_examples=300, deadline=None)
def test_the_first_change_of_an_input_and_only_it_is_found_at_start(drawn):
    changes = [change for _, _, changes in play(trace(drawn)) for change in changes]

    for name, _ in INPUTS:
        marks = [change.at_start for change in changes if change.input == name]
        assert marks == [True] * min(len(marks), 1) + [False] * (len(marks) - 1)


@given(steps)
@settings(max_examples=300, deadline=None)
def test_what_is_told_is_what_stands(drawn):
    told = {name: Reading.UNKNOWN for name, _ in INPUTS}

    for _, contacts, changes in play(trace(drawn)):
        told |= {change.input: change.reading for change in changes}
        assert {one.input: one.reading for one in contacts.inputs} == told


@given(steps)
@settings(max_examples=300, deadline=None)
def test_when_a_deadline_has_passed_it_is_not_asked_for_again(drawn):
    for _, contacts, _ in play(trace(drawn)):
        due = next_deadline(contacts, WIRING)
        if due is not None:
            after, changes = passed(contacts, WIRING, due)
            later = next_deadline(after, WIRING)

            assert changes
            assert later is None or later > due


@given(steps, st.integers(1, 5))
@settings(max_examples=300, deadline=None)
def test_no_minute_tells_more_changes_than_the_cap_and_one_for_chatter(drawn, cap):
    wiring = Wiring("modbus", inputs=INPUTS, times=ContactTimes(chatter_per_min=cap))
    told = [
        (step.us, change)
        for step, _, changes in play(trace(drawn), wiring)
        for change in changes
        if change.input == "isolator"
    ]

    for us, _ in told:
        minute = [change for at, change in told if us <= at < us + 60_000_000]
        assert len(minute) <= cap + 1
        assert sum(change.why != "chatter" for change in minute) <= cap


durations = st.sampled_from((-1.0, 0.0, 0.05, 1.0, 1e9)).map(Duration)
numbers = st.one_of(st.none(), st.integers(-1, 4))
anything = st.one_of(
    st.builds(
        Sample,
        st.integers(-(2**53), 2**53),
        st.lists(st.tuples(st.integers(-1, 5), st.booleans())).map(tuple),
        st.sampled_from(("", *LOSSES, "a word of its own")),
    ),
    st.integers(-(2**53), 2**53),
)


@given(
    st.lists(st.tuples(st.sampled_from(("isolator", "starter", "")),
                       st.builds(ContactPair, numbers, numbers)), max_size=3),
    st.builds(ContactTimes, durations, st.integers(-1, 4), durations, durations, durations,
              st.integers(-1, 3)),
    st.lists(anything, max_size=30),
)  # fmt: skip
@settings(max_examples=300, deadline=None)
def test_nothing_that_comes_in_raises_an_exception(inputs, times, found):
    wiring = Wiring("modbus", inputs=tuple(inputs), times=times)
    contacts = at_start(wiring, 0)

    for one in found:
        if isinstance(one, Sample):
            contacts, _ = evaluate(contacts, wiring, one)
        else:
            contacts, _ = passed(contacts, wiring, one)
        next_deadline(contacts, wiring)

    assert len(contacts.inputs) == len(inputs)
