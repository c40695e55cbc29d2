"""The program's own wheel holds all that a kiosk needs of the tree: code, content, sheets."""

from __future__ import annotations

import subprocess
from pathlib import Path
from zipfile import ZipFile

import pytest

from kiosk.updating.package import Fits, NoUpdate
from kiosk.updating.packing import _hold_against, gathered, own_wheel, version_of
from tests.updating.wheels import TREE, tiny

LEFT_OUT = ("demo/run.sh", "demo/screens.png")


def tracked() -> set[str]:
    """Every file that git has of what a kiosk runs on."""
    words = ["git", "ls-files", "-z", "kiosk", "hardware", "sequences", "demo"]
    listed = subprocess.run(words, cwd=TREE, check=True, capture_output=True, text=True)
    return set(filter(None, listed.stdout.split("\0"))) - set(LEFT_OUT)


def test_the_wheel_holds_every_file_of_the_tree_and_its_version(tmp_path: Path) -> None:
    wheel = own_wheel(TREE, tmp_path)

    with ZipFile(wheel) as zipped:
        names = set(zipped.namelist())

    assert tracked() - names == set()
    assert version_of(wheel) == "0.1.0"


def test_libraries_of_a_folder_that_are_missing_are_told_and_nothing_is_gathered(
    tmp_path: Path,
) -> None:
    (tmp_path / "none").mkdir()
    wheel = own_wheel(TREE, tmp_path)

    with pytest.raises(
        NoUpdate, match=r"none has no wheel of \w+ [\d.]+ for Python 3\.\d+ on \w+;"
    ):
        gathered(TREE, wheel, Fits.here(), tmp_path / "none", tmp_path)


def test_a_library_that_the_lock_file_does_not_name_is_refused(tmp_path: Path) -> None:
    wheel = tiny(tmp_path, "9.9.9")

    with pytest.raises(NoUpdate, match=r"9\.9\.9.* is not what requirements\.lock names"):
        _hold_against("nothing==1 --hash=sha256:" + "0" * 64, {wheel.name: wheel})
