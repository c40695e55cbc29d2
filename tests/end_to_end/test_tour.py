"""The demo's tour, played in a real window: pictures of every screen, and a sheet of them all.

The tour ends with 1 if a screen had a fault, if a turn did not come out as it should, or if its
download does not hold what was played. Full: both panels in all four languages.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from demo.kiosk import TREE
from demo.tour import SIZES

ALL = [(panel, language) for panel in SIZES for language in ("en", "cy", "pl", "uk")]
SMALL = ("7inch", "en")
LEAST = 300  # pictures; fewer means that acts were left out


@pytest.mark.tour
@pytest.mark.window
@pytest.mark.timeout(1800)
@pytest.mark.parametrize(("panel", "language"), ALL)
def test_the_tour_plays_and_leaves_a_picture_of_each_screen_and_a_sheet_of_all(
    tmp_path: Path, panel: str, language: str, full: bool, sum_up: Callable[[str], None]
) -> None:
    if not full and (panel, language) != SMALL:
        pytest.skip("one tour takes five minutes: the other seven with -m tour --full")
    words = [sys.executable, "-m", "demo.tour", str(tmp_path), "--panel", panel]

    played = subprocess.run(
        [*words, "--language", language], cwd=TREE, capture_output=True, text=True, check=False
    )

    assert played.returncode == 0, played.stdout + played.stderr
    taken = sorted((tmp_path / "pictures").glob("*.png"))
    sum_up(f"tour: {len(taken)} pictures on {panel} in {language}")
    assert len(taken) >= LEAST
    assert {Image.open(each).size for each in taken} == {SIZES[panel]}
    assert Image.open(tmp_path / "contact-sheet.png").width > SIZES[panel][0]
