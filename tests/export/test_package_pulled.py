"""A package's stick goes, or the card fails, at every step: all of it is in, or nothing is."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from kiosk.export import DownloadFault, PackageFault, amiss, bring, bringing, folder
from tests.export.test_package import packed
from tests.export.test_pulled import Steps, no_answer
from tests.recording import small_card


def steps_of(stick: Path, to: Path, patch: pytest.MonkeyPatch, steps: Steps, mounted: bool) -> str:
    """Bring a package in with something happening at one step; the word it ended with."""
    with patch.context() as patched:
        patched.setattr(folder, "os", steps)
        patched.setattr(bringing, "os", steps)
        try:
            bring(stick, to, mounted)
        except PackageFault as fault:
            return fault.why
    return ""


def test_no_answer_at_any_step_is_no_success(
    stick: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sum_up: Callable[[str], None]
) -> None:
    """Of the stick or of the kiosk's own card: which of the two, nobody can tell every time."""
    packed(stick)
    whole = Steps(0, no_answer, False)
    assert steps_of(stick, tmp_path / "counted", monkeypatch, whole, False) == ""

    ends = []
    for n in range(1, whole.count + 1):
        to = tmp_path / f"to{n}"
        ends.append(steps_of(stick, to, monkeypatch, Steps(n, no_answer, True), False))
        whole_ones = [c for c in to.iterdir() if not amiss(c)] if to.exists() else []
        assert ends[-1] == "" or whole_ones == [] or n > whole.count - 2
        assert bring(stick, to).package.parts == ("roster", "revoked", "school")

    sum_up(f"package: {len(ends)} steps without an answer, {ends.count('')} taken for a success")
    assert set(ends) <= {"failing", "gone", "card", "torn"}


def test_a_stick_pulled_at_any_step_brings_all_in_or_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, full: bool, sum_up: Callable[[str], None]
) -> None:
    """Open files of a stick taken away lazily may still read; what lies under it never may."""
    with small_card(tmp_path / "counted", "4m") as card:
        packed(card)
        whole = Steps(0, no_answer, False)
        assert steps_of(card, tmp_path / "to0", monkeypatch, whole, True) == ""
    ends = []
    for n in range(1, whole.count + 1, 1 if full else 4):
        at, to = tmp_path / f"stick{n}", tmp_path / f"to{n}"
        with small_card(at, "4m"):
            packed(at)

            def pull(at: Path = at) -> None:
                subprocess.run(["umount", "--lazy", str(at)], check=True)
                subprocess.run(["mount", "--bind", str(at), str(at)], check=True)

            ends.append(steps_of(at, to, monkeypatch, Steps(n, pull, False), True))
        copies = list(to.iterdir()) if to.exists() else []
        assert [amiss(copy) for copy in copies] == ([""] if ends[-1] == "" else [])

    sum_up(f"package: stick pulled at {len(ends)} steps, {len(ends) - ends.count('')} refused")
    assert set(ends) <= {"", "gone", "failing", "no_package", "torn"}


def test_a_folder_of_the_card_is_no_stick(stick: Path, to: Path) -> None:
    packed(stick)

    with pytest.raises(PackageFault) as fault:
        bring(stick, to, mounted=True)

    assert fault.value.why == "gone"


def test_a_full_card_takes_nothing_and_says_that_it_is_the_card(
    stick: Path, tmp_path: Path
) -> None:
    big = {"school/jobs/tag.yaml": b"# " + b"x" * 200_000 + b"\n"}
    packed(stick, big)
    with small_card(tmp_path / "card", "128k") as card:
        with pytest.raises(PackageFault) as fault:
            bring(stick, card / "in")

        assert fault.value.why == "card"
        assert not any(not amiss(copy) for copy in (card / "in").iterdir())


def test_a_stick_with_no_room_takes_no_half_package(tmp_path: Path) -> None:
    with small_card(tmp_path / "stick", "128k") as card:
        with pytest.raises(DownloadFault) as fault:
            packed(card, {"school/jobs/tag.yaml": b"x" * 200_000})

        assert fault.value.why == "full"
        assert list(card.iterdir()) == []
