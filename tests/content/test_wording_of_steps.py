"""The shipped wording, as pupils and adults read it with the numbers filled in."""

from __future__ import annotations

import re

import textstat

from kiosk.content import Loaded
from kiosk.content.wording import MOST_WORDS, sentences
from kiosk.core.model import Level
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.plan.wording import named

STANDARD = re.compile(r"\b(?:EN|ISO|BS|DIN|ANSI)\b[ /A-Z]*\d|\{eye_protection\}")
HARDEST_GRADE = 4
LONGEST_BUTTON = 34  # what fits the smaller panel's button, numbers filled in
LONGEST_LINE = 46


def plans(loaded: Loaded) -> list[Plan]:
    """A shown pupil's plan of every hole of every shipped job."""
    content = loaded.content
    assert content is not None
    found = [
        compile_plan(content, content.machines[0], job, hole, Level.SHOWN)
        for job in content.jobs
        for hole in range(len(job.holes))
    ]
    return [plan for plan in found if isinstance(plan, Plan)]


def filled(loaded: Loaded, name: str) -> set[str]:
    """Every shipped text of that name with its numbers filled in."""
    return {
        loaded.words.maybe(f"step.{step.id}.{name}", **named(dict(plan.values), loaded.words))
        for plan in plans(loaded)
        for path in (plan.fresh, plan.joining, plan.further, plan.clear)
        for step in path
    } - {""}


def test_sentences_are_short_with_their_numbers_filled_in(shipped: Loaded) -> None:
    texts = filled(shipped, "say") | filled(shipped, "note") | filled(shipped, "why")

    long = [s for text in texts for s in sentences(text) if len(s.split()) > MOST_WORDS]
    assert not long


def test_buttons_and_lines_fit_with_their_numbers_filled_in(shipped: Loaded) -> None:
    buttons = [text for text in filled(shipped, "see") if len(text) > LONGEST_BUTTON]
    lines = [text for text in filled(shipped, "check") if len(text) > LONGEST_LINE]

    assert not buttons
    assert not lines


def test_no_pupil_reads_the_number_of_a_standard(shipped: Loaded) -> None:
    """Nobody of twelve can do anything with it. It stands where adults read: the record to sign."""
    read = ("title", "say", "see", "note", "why", "now")

    found = [
        f"{code} {key}: {text}"
        for code, words in shipped.words.others.items()
        for key, text in words.texts.items()
        if not key.startswith("sheet.") and (key.rpartition(".")[2] in read or "word." in key)
        if STANDARD.search(text)
    ]

    assert found == []
    assert STANDARD.search("EN 166 1 F") and STANDARD.search("Marked {eye_protection}")


def test_the_whole_pack_reads_at_grade_4_or_under(shipped: Loaded) -> None:
    texts = [
        text.replace("\n", " ")
        for key, text in shipped.words.texts.items()
        if key.startswith(("step.", "trouble.")) and key.rpartition(".")[2] in ("say", "why", "now")
    ]
    pack = " ".join(text if text.endswith(".") else f"{text}." for text in texts)

    # Grades from letters and words: those from syllables fetch a word list from the network.
    plain = pack.replace("{", "").replace("}", "")
    assert textstat.automated_readability_index(plain) <= HARDEST_GRADE
    assert textstat.coleman_liau_index(plain) <= HARDEST_GRADE


def test_nothing_claims_what_a_reading_cannot_tell(shipped: Loaded) -> None:
    for text in shipped.words.texts.values():
        assert "proven off" not in text.lower()
        assert "interlock" not in text.lower()
        assert "safe" not in text.lower().split()
