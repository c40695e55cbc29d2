"""A sheet's page as plain lines for the screen: every word of it, part by part."""

from __future__ import annotations

import re

import pytest

from kiosk.content import Loaded, load
from kiosk.export.sheets import page_of
from kiosk.export.sheets.reading import parts_of
from tests.export.test_sheets import KINDS, ROOT, asked_for, text_of


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    return load(ROOT / "sequences")


@pytest.mark.parametrize("kind", KINDS)
def test_every_word_of_the_sheet_is_read_and_no_other(loaded: Loaded, kind: str) -> None:
    """But for the drawings' own letters, and the lines that are left empty for a hand."""
    page = page_of(kind, asked_for(loaded, kind, work="pen_block"))

    parts = parts_of(page)

    unsaid = r"<svg.*?</svg>|<footer.*?</footer>|<thead>.*?</thead>"
    printed = words(text_of(re.sub(unsaid, " ", page, flags=re.S)))
    heads = words(text_of(re.sub(r"<svg.*?</svg>", " ", page, flags=re.S)))
    read = words(" ".join(line for part in parts for line in part))
    assert len(parts) > 1
    assert set(printed) <= set(read) <= {*printed, *heads}


def words(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", text.replace("&#39;", "'"))


def test_a_row_of_figures_names_the_head_of_each(loaded: Loaded) -> None:
    parts = parts_of(page_of("wall", asked_for(loaded, "wall")))

    (speeds,) = (part for part in parts if part[0] == "Speeds for pupils")

    steel = next(line for line in speeds if line.startswith("mild steel: "))
    assert "8\xa0mm = 4: 810" in steel or "8 mm = 4: 810" in steel


def test_a_part_of_nothing_but_a_drawing_is_named_in_the_part_before() -> None:
    page = "<h1>One</h1><p>said</p><h2>Where it stops</h2><svg><text>STOP</text></svg>"

    assert parts_of(page) == (("One", "said", "[Where it stops]"),)
