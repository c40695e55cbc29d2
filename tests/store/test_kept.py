"""People and notes: kept apart from the chain, and erasable."""

from __future__ import annotations

import json
import re
import sqlite3
import unicodedata
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kiosk.core.events import Erased, Noted
from kiosk.core.model import Adult
from kiosk.store import Record
from kiosk.store.erasable import TURNING, cleaned, note_digest
from tests.recording import Playing

ALEX = Adult("a1", "Alex Invented", "technician")
TEXT = "The guard was left up by somebody invented."


def test_an_adult_is_kept_changed_and_forgotten(playing: Playing) -> None:
    record = playing.record
    record.keep_adult(ALEX, "hash 1")
    record.keep_adult(Adult("a2", "Aa Invented", "teacher"), "hash 2")
    record.keep_adult(ALEX, "hash 3")

    before = record.adults(), record.pin_hash("a1")
    record.forget_adult("a1")

    assert before == ((Adult("a2", "Aa Invented", "teacher"), ALEX), "hash 3")
    assert [a.ref for a in record.adults()] == ["a2"]
    assert record.pin_hash("a1") is None


def test_a_list_number_keeps_its_reference(path: Path, playing: Playing) -> None:
    first = playing.record.pupil_refs("year-9", (3, 1, 2))
    playing.record.close()
    record = Record.open(path)

    again = record.pupil_refs("year-9", (1, 2, 3, 4))

    assert list(first) == [3, 1, 2]
    assert {n: again[n] for n in first} == first
    assert len(set(again.values())) == 4
    assert all(re.fullmatch(r"p[0-9a-f]{12}", ref) for ref in again.values())
    assert not set(record.pupil_refs("year-10", (1, 2)).values()) & set(again.values())
    record.close()


def test_a_pupils_name_can_be_shown_and_erased_again(path: Path, playing: Playing) -> None:
    ref = playing.record.pupil_refs("year-9", (1,))[1]

    playing.record.name_pupils({ref: "Sam Invented"})
    named = names_in(path)
    playing.record.name_pupils({ref: ""})

    assert named == ["Sam Invented"]
    assert names_in(path) == [""]


def names_in(path: Path) -> list[str]:
    with sqlite3.connect(path) as connection:
        found = [name for (name,) in connection.execute("SELECT name FROM pupils")]
    connection.close()
    return found


def test_a_note_is_committed_to_by_a_salted_digest_only(playing: Playing) -> None:
    note, digest = playing.record.keep_note("near_miss", "swarf", TEXT)
    playing.happens(Noted("a1", note, "near_miss", "swarf", digest))

    bytes_of_all = b"".join(line_bytes(playing.record.path))

    assert playing.record.note_text(note) == (TEXT, digest)
    assert digest.encode() in bytes_of_all
    assert TEXT.encode() not in bytes_of_all


def line_bytes(path: Path) -> list[bytes]:
    with sqlite3.connect(path) as connection:
        found = [data for (data,) in connection.execute("SELECT bytes FROM events")]
    connection.close()
    return found


def test_the_same_text_never_has_the_same_digest_twice(playing: Playing) -> None:
    first = playing.record.keep_note("note", "swarf", TEXT)
    second = playing.record.keep_note("note", "swarf", TEXT)

    assert first[0] != second[0]
    assert first[1] != second[1]


def test_a_digest_needs_its_salt_and_its_text() -> None:
    salt = "00" * 16

    digest = note_digest(salt, TEXT)

    assert digest != note_digest("01" * 16, TEXT)
    assert digest != note_digest(salt, TEXT + ".")


def test_an_erased_note_is_gone_and_its_event_stays(playing: Playing) -> None:
    note, digest = playing.record.keep_note("note", "swarf", TEXT)
    playing.happens(Noted("a1", note, "note", "swarf", digest))

    playing.record.erase_note(note)

    assert playing.record.note_text(note) is None
    assert [e.event for e in playing.record.entries()] == [
        Noted("a1", note, "note", "swarf", digest)
    ]


@settings(
    max_examples=200,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(st.text(st.characters()))
def test_any_note_comes_back_as_it_was_but_for_what_no_reader_can_see(
    playing: Playing, text: str
) -> None:
    note, digest = playing.record.keep_note("note", "swarf", text)

    kept, again = playing.record.note_text(note) or ("", "")

    assert again == digest
    assert kept == cleaned(text) == cleaned(kept)
    assert json.loads(json.dumps(kept)) == kept
    assert visible(kept) == visible(text)


def visible(text: str) -> list[str]:
    """What a reader sees of a text: its letters in their composed form, without spaces."""
    composed = unicodedata.normalize("NFC", "".join(text.splitlines()))
    hidden = ("Cc", "Cs", "Zs")
    kept = [c for c in composed if unicodedata.category(c) not in hidden and c not in TURNING]
    return [c for c in unicodedata.normalize("NFC", "".join(kept)) if not c.isspace()]


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("Bohrer\r\nstumpf\r", "Bohrer\nstumpf"),
        ("e\u0301crou", "\u00e9crou"),
        ("a\x00b\x07c", "abc"),
        ("\u202egnp.exe", "gnp.exe"),
        ("=1+1", "=1+1"),
        ("\ud800 half a letter", "half a letter"),
    ],
)
def test_what_is_cleaned_at_entry(typed: str, kept: str) -> None:
    assert cleaned(typed) == kept


def test_a_pupils_language_is_kept_beside_the_number_and_goes_with_it(
    path: Path, playing: Playing
) -> None:
    record = playing.record
    refs = record.pupil_refs("year-9", (1, 2))
    record.keep_language(refs[1], "pl")
    record.keep_language(refs[2], "uk")
    record.keep_language(refs[2], "cy")
    record.keep_habits(refs[1], "large left")
    before, habits = record.languages(), record.habits()

    playing.happens(Erased("pupil", refs[1], "asked"))

    assert before == {refs[1]: "pl", refs[2]: "cy"}
    assert (habits, record.habits()) == ({refs[1]: "large left"}, {})
    assert record.languages() == {refs[2]: "cy"}
    lines = [line for entry in record.entries() for line in repr(entry).split()]
    assert not [line for line in lines if "'cy'" in line or "'pl'" in line]
