"""Which version is started: on trial, confirmed, gone back from, whatever lies in the folder."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from kiosk.updating import starting
from kiosk.updating.trial import STANDS_S, DidNotStart, Trial
from kiosk.updating.versions import CHOSEN, TRIES, WHOLE, Versions


@pytest.fixture
def versions(tmp_path: Path) -> Versions:
    """A folder of versions with two whole ones in it."""
    base = tmp_path / "base"
    for place in (base, tmp_path / "versions" / "0.2.0-aa", tmp_path / "versions" / "0.3.0-bb"):
        (place / "bin").mkdir(parents=True)
        (place / "bin" / "python").touch(0o755)
        (place / WHOLE).touch()
    return Versions(tmp_path / "versions", base)


def starts(versions: Versions) -> str:
    """What the system would start now."""
    return starting.choose(versions).version


def test_what_was_installed_starts_where_nothing_was_chosen(tmp_path: Path) -> None:
    nothing = Versions(tmp_path / "no folder", tmp_path / "base")

    assert starts(nothing) == ""
    assert nothing.python("") == tmp_path / "base" / "bin" / "python"


def test_a_new_version_starts_so_often_on_trial_and_then_the_former_one(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")

    assert [starts(versions) for _ in range(TRIES + 2)] == ["0.2.0-aa"] * TRIES + ["", ""]
    assert versions.chosen().failed == "0.2.0-aa"


def test_a_confirmed_version_starts_from_then_on(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")
    starts(versions)
    versions.confirm("0.2.0-aa")

    assert [starts(versions) for _ in range(5)] == ["0.2.0-aa"] * 5


def test_the_way_back_leads_to_the_version_before(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")
    versions.confirm("0.2.0-aa")
    versions.try_out("0.3.0-bb")
    [starts(versions) for _ in range(TRIES)]

    assert starts(versions) == "0.2.0-aa"


def test_another_update_while_one_is_on_trial_goes_back_to_what_ran_before(
    versions: Versions,
) -> None:
    versions.try_out("0.2.0-aa")
    starts(versions)
    versions.try_out("0.3.0-bb")
    [starts(versions) for _ in range(TRIES)]

    assert starts(versions) == ""


def test_a_version_that_is_not_whole_is_never_started(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")
    versions.confirm("0.2.0-aa")
    (versions.folder / "0.2.0-aa" / WHOLE).unlink()

    assert starts(versions) == ""


def test_a_version_whose_python_is_gone_makes_way(versions: Versions) -> None:
    """A new release of the system may bring another Python."""
    versions.try_out("0.2.0-aa")
    versions.confirm("0.2.0-aa")
    versions.python("0.2.0-aa").unlink()

    assert starts(versions) == ""


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"version": 3}', '{"other": 1}', '{"tries": "x"}']
)
def test_a_file_that_can_not_be_read_starts_what_was_installed(
    versions: Versions, text: str
) -> None:
    (versions.folder / CHOSEN).write_text(text)

    assert starts(versions) == ""


def test_a_part_left_by_a_cut_counts_for_nothing(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")
    (versions.folder / f"{CHOSEN}.part").write_text('{"version": "0.3.0-bb"}')

    assert starts(versions) == "0.2.0-aa"


def test_a_trial_that_can_not_be_counted_is_not_made(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")
    (versions.folder / f"{CHOSEN}.part").mkdir()  # nothing can be written there now

    assert starts(versions) == ""


class Clock:
    """Seconds that a test turns by hand."""

    s = 0.0

    def __call__(self) -> float:
        return self.s


def test_the_trial_is_over_once_the_screen_has_stood_for_a_while(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")
    clock = Clock()
    trial = Trial(versions, "0.2.0-aa", clock)

    trial.beat()
    trial.ready()
    clock.s = STANDS_S - 1
    trial.beat()
    early = versions.chosen().trial
    clock.s = STANDS_S
    trial.beat()

    assert (early, versions.chosen().trial) == (True, False)


def test_on_trial_a_start_with_nothing_but_a_fault_is_none(versions: Versions) -> None:
    versions.try_out("0.2.0-aa")

    with pytest.raises(DidNotStart, match=r"0\.2\.0-aa: the record is damaged"):
        Trial(versions, "0.2.0-aa", Clock()).see("the record is damaged")
    Trial(versions, "", Clock()).see("the record is damaged")
    Trial(None, "", Clock()).see("the record is damaged")


def test_a_process_knows_which_version_it_is(
    versions: Versions, monkeypatch: pytest.MonkeyPatch
) -> None:
    base = versions.python("")
    monkeypatch.setitem(os.environ, starting.STARTED_BY, f"{base}\n{versions.folder}")

    found = starting.running(versions.folder / "0.2.0-aa")

    assert found is not None
    assert (found[0].folder, found[0].base, found[1]) == (
        versions.folder,
        versions.base,
        "0.2.0-aa",
    )
