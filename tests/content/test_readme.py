"""The page for technicians names every key and every fixed word there is."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest

from kiosk.content.agreeing import INPUTS
from kiosk.content.forms import FORMS
from kiosk.content.standing import TROUBLES
from kiosk.content.structure import keys_of
from kiosk.content.values import CHOICES, SHAPES
from kiosk.core.model import Fact, Habit, Level, Needs, Part
from kiosk.core.plan.conditions import NAMES

README = (Path(__file__).parents[2] / "sequences" / "README.md").read_text("utf-8")
KEYS = sorted({key for form in FORMS for key in keys_of(form)})
ENUMS = (Fact, Habit, Level, Needs, Part)
WORDS = sorted(
    {
        *NAMES,
        *TROUBLES,
        *INPUTS,
        *SHAPES,
        *(word for words in CHOICES.values() for word in words),
        *(member.value for kind in ENUMS for member in kind),
    }
)


@pytest.mark.parametrize("key", KEYS)
def test_every_key_is_explained(key: str) -> None:
    rows = [line.split("|")[1] for line in README.splitlines() if line.startswith("| `")]

    prose = [f"`{key}` gives", f"`{key}` inform", f"has `{key}`", f"`{key}` (", f"and `{key}`"]
    assert any(f"`{key}`" in row for row in rows) or any(said in README for said in prose)


@pytest.mark.parametrize("word", WORDS)
def test_every_fixed_word_is_named(word: str) -> None:
    assert f"`{word}`" in README or f": {word}`" in README


def test_every_form_is_listed_so_that_its_keys_are_looked_for() -> None:
    from kiosk.content import forms

    written = {v for k, v in vars(forms).items() if k.endswith("Form")}

    assert written == set(FORMS)
    assert all("line" in {f.name for f in fields(form)} for form in FORMS)
