"""What a kiosk could not start with is refused before anything is installed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import click
import pytest
from click.testing import CliRunner

from kiosk.cli.install import _may_go_on, install_command
from kiosk.installing import Computer, Wanted, unfit


@click.command()
def asking() -> None:
    """What install asks before its first change."""
    click.echo(_may_go_on(dry_run=False, yes=False))


@pytest.fixture
def tree() -> Iterator[Path]:
    """A tree with one machine's file, and a Python that lies elsewhere behind two links.

    It lies where other users may go, as the folders of tests do not.
    """
    with TemporaryDirectory(prefix="pillarside-") as name:
        top = Path(name)
        top.chmod(0o755)
        machines, here = top / "tree" / "sequences" / "machines", top / "tree" / ".venv" / "bin"
        for folder in (machines, here, top / "home"):
            folder.mkdir(parents=True)
        (machines / "drill-1.yaml").write_text("name: invented\n")
        (top / "home" / "python3.11").touch()
        (top / "home" / "python3.11").chmod(0o755)
        (top / "between").symlink_to("home/python3.11")
        (here / "python").symlink_to(top / "between")
        yield top / "tree"


def test_what_fits_is_not_refused(tree: Path) -> None:
    assert list(unfit(Computer(tree), Wanted(tree))) == []


def test_a_machine_that_there_is_not_is_refused_with_those_there_are(tree: Path) -> None:
    (said,) = unfit(Computer(tree), Wanted(tree, machine="drill-9"))

    assert said.startswith("--machine: 'drill-9'; allowed: drill-1; did you mean 'drill-1'?")


@pytest.mark.parametrize("closed", ["home", "home/python3.11"])
def test_a_python_that_others_can_not_run_is_refused_with_what_to_do(
    tree: Path, closed: str
) -> None:
    place = tree.parent / closed
    place.chmod(0o700)

    (said,) = unfit(Computer(tree), Wanted(tree))

    assert f"other users may not use {place}, so the user pillarside can't run it" in said
    assert "apt-get install python3" in said and "sh tests/run.sh" in said


def test_a_port_that_is_no_path_is_refused() -> None:
    done = CliRunner().invoke(install_command, ["--dry-run", "--port", "ttyUSB0"])

    assert done.exit_code == 2
    assert "ttyUSB0 is no path; allowed: such as /dev/serial/by-id/" in done.output


def test_where_nobody_answers_nothing_is_changed_and_that_is_said(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("os.geteuid", lambda: 0)

    done = CliRunner().invoke(asking, input="")

    assert done.exit_code == 1
    assert "nobody answered, so nothing was changed; with --yes it does not ask" in done.output
    assert "Aborted" not in done.output


def test_a_no_is_answered_with_nothing_was_changed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.geteuid", lambda: 0)

    done = CliRunner().invoke(asking, input="n\n")

    assert done.output.endswith("Nothing was changed.\nFalse\n")
