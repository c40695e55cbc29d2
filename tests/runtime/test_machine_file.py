"""The contacts section of a machine file: put in place, and nothing else touched."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.model import ContactPair, ContactTimes, Wiring
from kiosk.core.units import Duration
from kiosk.runtime.commissioning.machine_file import NotWritten, with_contacts, write_contacts
from kiosk.runtime.settings import TREE

SEQUENCES = TREE / "sequences"
WIRING = Wiring(
    "modbus",
    unit=7,
    baud=19200,
    inputs=(("isolator", ContactPair(4, 5)), ("spindle", ContactPair(None, 6))),
    function=1,
    parity="even",
)
FILE = """# A drill.
name: Drill  # ours

# Contacts, fitted in spring.
contacts:
  reader: none
  # an old remark
  inputs:

    starter: {make: 2}

# About the guard.
pre_use:
  guard: Guard whole
"""


def test_only_the_section_changes():
    new = with_contacts(FILE, WIRING)

    assert new.startswith(FILE[: FILE.index("  reader")])
    assert new.endswith(FILE[FILE.index("\n# About") :])
    assert "starter" not in new and "isolator: {make: 4, on_break: 5}" in new


def test_a_file_without_the_section_gets_one_at_its_end():
    without = "name: Drill\nkeyed: yes\n"

    assert with_contacts(without, WIRING).startswith(without + "\ncontacts:\n  reader: modbus\n")


def test_what_is_written_is_what_is_loaded(tmp_path):
    times = ContactTimes(debounce=Duration(0.08), samples=4, chatter_per_min=9)
    for wiring in (WIRING, replace(WIRING, times=times)):
        write_contacts(SEQUENCES, tmp_path, "drill-1", wiring)

        loaded = load(SEQUENCES, tmp_path)

        assert loaded.content is not None, loaded.problems
        assert loaded.content.machine("drill-1").wiring == wiring


def test_the_rest_of_the_machine_is_the_shipped_one(tmp_path):
    write_contacts(SEQUENCES, tmp_path, "drill-1", WIRING)

    shipped, new = (load(SEQUENCES, s).content.machine("drill-1") for s in (None, tmp_path))

    assert replace(new, wiring=shipped.wiring, file=shipped.file) == shipped


def test_a_school_s_own_file_is_kept_but_for_the_section(tmp_path):
    (tmp_path / "machines").mkdir()
    own = tmp_path / "machines" / "drill-1.yaml"
    text = (SEQUENCES / "machines" / "drill-1.yaml").read_text("utf-8")
    own.write_text(text.replace("name: Drill 1", "name: Bench drill  # by the door"), "utf-8")

    write_contacts(SEQUENCES, tmp_path, "drill-1", WIRING)

    assert "name: Bench drill  # by the door" in own.read_text("utf-8")
    assert [p.name for p in own.parent.iterdir()] == ["drill-1.yaml"]


def test_content_that_would_have_a_problem_is_not_written(tmp_path):
    shutil.copytree(SEQUENCES / "machines", tmp_path / "machines")
    own = tmp_path / "machines" / "drill-1.yaml"
    before = own.read_text("utf-8")

    with pytest.raises(NotWritten, match=r"drill-1.yaml:\d+: baud: '123'"):
        write_contacts(SEQUENCES, tmp_path, "drill-1", replace(WIRING, baud=123))

    assert own.read_text("utf-8") == before


def test_a_full_card_leaves_the_old_file(tmp_path, monkeypatch):
    write_contacts(SEQUENCES, tmp_path, "drill-1", WIRING)
    own = tmp_path / "machines" / "drill-1.yaml"
    before = own.read_bytes()

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_contacts(SEQUENCES, tmp_path, "drill-1", replace(WIRING, unit=9))

    assert own.read_bytes() == before


def test_the_shipped_files_are_never_touched(tmp_path):
    shipped = Path(SEQUENCES / "machines" / "drill-1.yaml").read_bytes()

    write_contacts(SEQUENCES, tmp_path, "drill-1", WIRING)

    assert (SEQUENCES / "machines" / "drill-1.yaml").read_bytes() == shipped
