"""Events to bytes and back."""

from __future__ import annotations

import json
from dataclasses import fields
from typing import Any, get_type_hints

import pytest
import rfc8785
from hypothesis import given, settings
from hypothesis import strategies as st

from kiosk.core.events import RECORDED_KINDS, Entry, Event, PageOpened, StepDone
from kiosk.core.plan.shape import canonical
from kiosk.core.units import Moment
from kiosk.store import codec
from kiosk.store.codec import (
    BEFORE_FIRST,
    NotALine,
    UnknownKind,
    decode,
    encode,
    event_of,
    is_known,
)

LARGEST = 2**53 - 1  # the largest whole number of canonical JSON (RFC 8785, from RFC 7493)
texts = st.text(st.characters(exclude_categories=("Cs",)), max_size=20)
numbers = st.integers(-LARGEST, LARGEST)


def values(hint: Any) -> st.SearchStrategy[Any]:
    if hint is int:
        return numbers
    return texts if hint is str else st.lists(texts, max_size=4).map(tuple)


def events_of(kind: type[Event]) -> st.SearchStrategy[Event]:
    hints = get_type_hints(kind)
    return st.builds(kind, **{f.name: values(hints[f.name]) for f in fields(kind)})


any_event = st.one_of(*(events_of(kind) for kind in RECORDED_KINDS.values()))
moments = st.builds(Moment, texts, numbers, numbers, st.sampled_from((0, 1, 2)))


@pytest.mark.parametrize("kind", RECORDED_KINDS.values(), ids=RECORDED_KINDS)
@settings(max_examples=25)
@given(data=st.data())
def test_every_recorded_kind_comes_back_as_it_was(kind: type[Event], data: st.DataObject) -> None:
    entry = Entry(7, data.draw(moments), data.draw(events_of(kind)))

    line = encode("log1", BEFORE_FIRST, entry)

    assert decode(line.bytes) == (line, entry)


@given(any_event, moments)
def test_the_bytes_are_canonical_json_of_the_whole_envelope(event: Event, at: Moment) -> None:
    line = encode("log1", BEFORE_FIRST, Entry(1, at, event))

    said = json.loads(line.bytes)

    assert rfc8785.dumps(said) == line.bytes
    assert list(said) == sorted(codec.ENVELOPE)


plain = st.recursive(
    numbers | texts,
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text(st.characters(max_codepoint=127), max_size=6), inner, max_size=4)
    ),
)


@given(plain)
def test_the_cores_canonical_bytes_are_those_of_the_published_standard(value: Any) -> None:
    ours = canonical(value)

    theirs = rfc8785.dumps(value)

    assert ours == theirs  # RFC 8785, through its own library


def test_a_kind_from_a_newer_version_is_carried_and_known_as_unknown() -> None:
    line = encode("log1", BEFORE_FIRST, Entry(1, Moment("b", 1, 1), StepDone("eyes", "pupil")))
    newer = line.bytes.replace(b'"kind":"step_done"', b'"kind":"belt_seen"')

    found, entry = decode(newer)

    assert entry.event == UnknownKind("belt_seen", 1, '{"by": "pupil", "step": "eyes"}')
    assert found.bytes == newer
    assert not is_known("belt_seen", 1)


def test_a_higher_version_of_a_known_kind_is_carried_too() -> None:
    body = {"step": "eyes", "by": "pupil", "where": "left"}

    event = event_of("step_done", 2, body)

    assert isinstance(event, UnknownKind)
    assert not is_known("step_done", 2)


def test_an_old_version_passes_through_its_upcaster(monkeypatch: pytest.MonkeyPatch) -> None:
    def second(body: dict[str, Any]) -> dict[str, Any]:
        return {**body, "by": "pupil"}

    monkeypatch.setattr(codec, "UPCASTERS", {("step_done", 0): second})

    event = event_of("step_done", 0, {"step": "eyes"})

    assert event == StepDone("eyes", "pupil")


def test_a_body_that_does_not_fit_its_kind_is_carried_not_guessed() -> None:
    event = event_of("step_done", 1, {"step": 5, "by": "pupil"})

    assert isinstance(event, UnknownKind)


def test_a_move_is_never_recorded() -> None:
    entry = Entry(1, Moment("b", 1, 1), PageOpened("jobs"))

    with pytest.raises(ValueError, match="page_opened is not a recorded kind"):
        encode("log1", BEFORE_FIRST, entry)


@pytest.mark.parametrize(
    ("found", "why"),
    [
        (b"{", "not JSON"),
        (b"[]", "not the fields"),
        (b'{"seq":1}', "not the fields"),
    ],
)
def test_bytes_that_are_no_line_say_why(found: bytes, why: str) -> None:
    with pytest.raises(NotALine, match=why):
        decode(found)


def test_a_line_that_is_not_canonical_is_refused() -> None:
    line = encode("log1", BEFORE_FIRST, Entry(1, Moment("b", 1, 1), StepDone("eyes", "pupil")))

    with pytest.raises(NotALine, match="canonical"):
        decode(line.bytes.replace(b'"seq":1', b'"seq": 1'))
