"""An update on a stick: what is on it, and in which words what can't go on here is refused."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.core.units import Moment
from kiosk.export.folder import Written
from kiosk.updating.package import (
    LIST,
    Fits,
    NoUpdate,
    Update,
    from_bytes,
    newest,
    refusal,
    write_update,
)
from tests.updating.wheels import tiny

HERE = Fits("3.11", "aarch64")
NOW = Moment("boot1", 1, 1_777_800_000_000_000, 2)
WHEEL = Written("pillarside-0.2.0-py3-none-any.whl", 10, "0" * 64)


def an_update(version: str = "0.2.0", fits: Fits = HERE) -> Update:
    return Update(version, fits, NOW.wall_us, "ab" * 32, (WHEEL,))


@pytest.mark.parametrize(
    ("update", "says"),
    [
        (an_update(), ""),
        (an_update("0.10.0"), ""),
        (an_update("0.0.9"), "0.0.9 is older than 0.1.0"),
        (an_update("0.1.0"), "version 0.1.0 runs here already"),
        (an_update(fits=Fits("3.13", "aarch64")), "for Python 3.13 on aarch64; this computer has"),
        (an_update(fits=Fits("3.11", "x86_64")), "on x86_64; this computer has Python 3.11 on aar"),
    ],
)
def test_what_can_not_go_on_here_is_refused_in_plain_words(update: Update, says: str) -> None:
    found = refusal(update, "0.1.0", HERE)

    assert says in found
    assert bool(found) == bool(says)


def test_the_newest_that_fits_is_chosen_among_several() -> None:
    several = [an_update(v) for v in ("0.2.0", "0.10.0", "0.9.1")]
    several.append(an_update("0.11.0", Fits("3.13", "aarch64")))

    assert newest(several, "0.1.0", HERE).version == "0.10.0"


def test_where_none_fits_the_reason_is_that_of_the_nearest() -> None:
    other = an_update("0.3.0", Fits("3.13", "aarch64"))

    with pytest.raises(NoUpdate, match=r"0\.0\.9 is older"):
        newest([other, an_update("0.0.9")], "0.1.0", HERE)
    with pytest.raises(NoUpdate, match="no update on the stick"):
        newest([], "0.1.0", HERE)


def listed(tmp_path: Path) -> bytes:
    wheel = tiny(tmp_path, "0.2.0")
    made = write_update(tmp_path, "0.2.0", HERE, {wheel.name: wheel}, NOW)
    return (made / LIST).read_bytes()


def test_what_was_written_is_read_again(tmp_path: Path) -> None:
    update = from_bytes(listed(tmp_path))

    assert (update.version, update.fits, update.made_us) == ("0.2.0", HERE, NOW.wall_us)
    assert update.folder == "PILLARSIDE-UPDATE-0.2.0-aarch64-3.11"
    assert [file.name for file in update.files] == ["pillarside-0.2.0-py3-none-any.whl"]


@pytest.mark.parametrize(
    ("before", "after", "says"),
    [
        (b'"version": "0.2.0"', b'"version": "0.9.0"', "was changed since it was written"),
        (b'"format": 1', b'"format": 2', "format 2; known here: 1"),
        (b'"files": [', b"", "cut or changed"),
    ],
)
def test_a_list_that_was_changed_is_refused(
    tmp_path: Path, before: bytes, after: bytes, says: str
) -> None:
    data = listed(tmp_path)
    assert before in data

    with pytest.raises(NoUpdate, match=says):
        from_bytes(data.replace(before, after))


@pytest.mark.parametrize(
    "names",
    [("../x.whl",), ("pillarside-0.2.0-py3-none-any.whl", "a/b-1-py3-none-any.whl"), ("run.sh",)],
)
def test_a_name_that_no_wheel_has_is_refused(names: tuple[str, ...], tmp_path: Path) -> None:
    from kiosk.export.manifest import sealed, unsealed

    said = unsealed(listed(tmp_path), LIST, 1)
    said["files"] = [replace_name(name) for name in names]
    said.pop("digest")

    with pytest.raises(NoUpdate, match=r"update\.json names"):
        from_bytes(sealed(said))


def replace_name(name: str) -> dict[str, object]:
    return WHEEL._replace(name=name)._asdict()


def test_each_list_has_an_environment_of_its_own() -> None:
    one = an_update()

    assert one.name != replace(one, digest="cd" * 32).name
