"""`pillarside selftest` says every part in a line and ends with 1 where one is bad."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from kiosk.cli import group

PARTS = ("display", "touch", "record", "storage", "disk space", "download", "clock", "ports")


def test_every_part_has_its_line(tmp_path: Path) -> None:
    done = CliRunner().invoke(
        group, ["selftest", "--record", str(tmp_path / "record.sqlite"), "--port", "/dev/none"]
    )

    first = {line.split("  ")[0] for line in done.output.splitlines()}
    assert {*PARTS, "font", "speech", "watchdog"} <= first
    assert "/dev/none is not there" in " ".join(done.output.split())
    assert done.exit_code == 1


def test_a_mistake_in_the_settings_is_told_first(tmp_path: Path) -> None:
    (tmp_path / "settings.yaml").write_text("prot: /dev/x\n")

    done = CliRunner().invoke(group, ["selftest", "--settings", str(tmp_path / "settings.yaml")])

    assert done.exit_code == 1
    assert "settings.yaml:1: unknown key 'prot'" in done.output
    assert "did you mean 'port'?" in done.output


def test_every_wrong_setting_is_told_by_its_line(tmp_path: Path) -> None:
    path = tmp_path / "settings.yaml"
    path.write_text("language: fr\nschool: /nope\nmachine: drill-9\n")

    done = CliRunner().invoke(group, ["selftest", "--settings", str(path)])

    lines = done.output.splitlines()
    assert done.exit_code == 1
    assert [line.partition(f"{path}:")[2][:10] for line in lines] == [
        "1: languag",
        "2: school:",
        "3: machine",
    ]
    assert "and the school's own once its folder is found" in lines[2]
