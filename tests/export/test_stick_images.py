"""Sticks as real file systems, in images mounted by loop: what is written, and what comes in.

Skipped, with the reason, where this machine has no tool for one or its kernel can't mount it.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from kiosk.export import DownloadFault, PackageFault, Stick, bring, find_stick, verify
from tests.export.conftest import Take
from tests.export.test_package import ROSTER, packed
from tests.recording import remount

SIZE = 16 << 20
KINDS = ("vfat", "exfat", "ntfs3", "ext4")
TOOLS = {"ntfs3": "mkfs.ntfs"}
ANYWAY = {"ext4": ("-F",), "ntfs3": ("-F", "-Q")}
"""A file is no device; the tool is told that this is meant."""


@contextmanager
def stick_of(kind: str, folder: Path) -> Iterator[Path]:
    """An empty stick of this file system, mounted where sticks are looked for."""
    tool = TOOLS.get(kind, f"mkfs.{kind}")
    if os.geteuid() != 0 or not shutil.which(tool):
        pytest.skip(f"needs root and {tool}")
    image, at = folder / "image", Path("/mnt") / f"pillarside-{os.getpid()}-{kind}"
    image.write_bytes(bytes(SIZE))
    subprocess.run([tool, *ANYWAY.get(kind, ()), str(image)], check=True, capture_output=True)
    at.mkdir()
    try:
        words = ["mount", "-t", kind, "-o", "loop", str(image), str(at)]
        done = subprocess.run(words, capture_output=True, text=True, check=False)
        if done.returncode:
            pytest.skip(f"this machine can't mount {kind}: {done.stderr.strip()}")
        yield at
    finally:
        subprocess.run(["umount", "--lazy", str(at)], check=False, capture_output=True)
        at.rmdir()


@pytest.mark.parametrize("kind", KINDS)
def test_a_stick_is_found_takes_a_download_and_brings_a_package(
    take: Take, tmp_path: Path, kind: str
) -> None:
    with stick_of(kind, tmp_path) as at:
        found = find_stick()
        folder = take(to=at, mounted=True)
        proof = verify(folder)
        packed(at)
        brought = bring(at, tmp_path / "in", mounted=True)

        assert found == Stick(at)
        assert proof.problems == ()
        assert brought.lists["roster.csv"] == ROSTER
        assert {p.name for p in at.iterdir()} >= {folder.name, "PILLARSIDE-IN-1"}


def test_a_stick_that_is_read_only_brings_in_but_takes_nothing_away(
    take: Take, tmp_path: Path
) -> None:
    with stick_of("ext4", tmp_path) as at:
        packed(at)
        remount(at, "ro")

        with pytest.raises(DownloadFault) as fault:
            take(to=at, mounted=True)

        assert fault.value.why == "read_only"
        assert bring(at, tmp_path / "in", mounted=True).lists["roster.csv"] == ROSTER


def test_a_stick_pulled_for_good_brings_nothing_from_the_card_beneath(tmp_path: Path) -> None:
    with stick_of("ext4", tmp_path) as at:
        packed(at)
        subprocess.run(["umount", str(at)], check=True)
        packed(at)  # the same on the card, where the stick had been

        with pytest.raises(PackageFault) as fault:
            bring(at, tmp_path / "in", mounted=True)
        shutil.rmtree(next(at.iterdir()))

        assert fault.value.why == "gone"
        assert not (tmp_path / "in").exists()
