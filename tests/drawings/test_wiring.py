"""The wiring drawings: on their sheets, nothing over anything, and the files as they are drawn."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import pytest

from kiosk.drawings.wiring import WIRINGS, contact_unit, files, write
from tests.drawings.measuring import box_of, extremes, labels

FOLDER = Path(__file__).parents[2] / "hardware" / "drawings"
README = FOLDER.parent / "README.md"


@pytest.mark.parametrize("name", WIRINGS)
def test_everything_lies_on_the_sheet(name: str) -> None:
    drawing = WIRINGS[name]()

    outside = [
        (x, y)
        for x, y in extremes(drawing)
        if not (0 <= x <= drawing.width and 0 <= y <= drawing.height)
    ]

    assert outside == []


@pytest.mark.parametrize("name", WIRINGS)
def test_no_text_stands_over_another(name: str) -> None:
    over = [
        (one.text, other.text)
        for one, other in combinations(labels(WIRINGS[name]()), 2)
        if _overlap(box_of(one), box_of(other))
    ]

    assert over == []


def _overlap(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > 0 and down > 0


@pytest.mark.parametrize("name", files())
def test_the_file_is_as_it_is_drawn_now(name: str) -> None:
    written = (FOLDER / name).read_text("utf-8")

    assert written == files()[name], "run: python -m kiosk.drawings.wiring hardware/drawings"
    assert ElementTree.fromstring(written).tag.endswith("svg")


def test_the_folder_holds_these_files_and_no_other(tmp_path: Path) -> None:
    write(tmp_path)

    assert (
        {p.name for p in FOLDER.iterdir()} == {p.name for p in tmp_path.iterdir()} == set(files())
    )


@pytest.mark.parametrize("name", files())
def test_the_page_shows_it(name: str) -> None:
    assert f"](drawings/{name})" in README.read_text("utf-8")


def test_the_numbers_are_those_of_the_simulated_drill() -> None:
    from hardware.simulator.drill import EXTRACTION, GUARD, ISOLATOR_MAKE, SPINDLE, STARTER

    texts = [label.text for label in labels(contact_unit())]

    for number, word in (
        (ISOLATOR_MAKE, "isolator, make"),
        (STARTER, "starter, make"),
        (SPINDLE, "spindle turning, make"),
        (GUARD, "guard down, make"),
        (EXTRACTION, "extraction runs, make"),
    ):
        assert texts[texts.index(word) + 1] == str(number)
