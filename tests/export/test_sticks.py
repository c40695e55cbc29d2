"""Finding the stick, and sticks that are foreign or hostile."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.export import DownloadFault, Stick, find_stick, verify
from kiosk.export.sticks import _unescaped
from tests.export.conftest import Take
from tests.recording import Playing, small_card

FOREIGN = "/dev/sda1 /media/disk hfsplus rw 0 0\n"
ROOT = "/dev/mmcblk0p2 / ext4 rw 0 0\nproc /proc proc rw 0 0\n"


def mounts(at: Path, text: str) -> Path:
    table = at / "mounts"
    table.write_text(text, "utf-8")
    return table


def test_with_nothing_put_in_there_is_no_stick(tmp_path: Path) -> None:
    found = find_stick(mounts(tmp_path, ROOT))

    assert found == Stick(None, "no_stick")


def test_a_stick_of_another_kind_is_said_to_be_foreign(tmp_path: Path) -> None:
    found = find_stick(mounts(tmp_path, ROOT + FOREIGN))

    assert found == Stick(None, "foreign")


@pytest.mark.parametrize("line", ["tmpfs /mnt/x tmpfs rw 0 0\n", "nas:/x /mnt/x nfs4 rw 0 0\n"])
def test_memory_and_the_network_are_no_stick_that_was_put_in(tmp_path: Path, line: str) -> None:
    assert find_stick(mounts(tmp_path, ROOT + line)) == Stick(None, "no_stick")


def test_a_folder_of_the_card_under_media_is_no_stick(tmp_path: Path) -> None:
    """The kernel may list it where a folder of the card is mounted once more."""
    found = find_stick(mounts(tmp_path, f"/dev/mmcblk0p2 {'/mnt/'}.. ext4 rw 0 0\n"))

    assert found.folder is None


def test_a_mount_that_is_gone_meanwhile_is_no_stick(tmp_path: Path) -> None:
    found = find_stick(mounts(tmp_path, "/dev/sda1 /media/gone vfat rw 0 0\n"))

    assert found.folder is None


@given(st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\x00")))
def test_a_name_of_a_mount_is_read_as_it_is(name: str) -> None:
    escaped = name
    for letter in "\\ \t\n":
        escaped = escaped.replace(letter, f"\\{ord(letter):03o}")

    assert _unescaped(escaped) == name  # proc(5): these four are written in octal


def names_taken(take: Take, stick: Path) -> str:
    """The name that a download would have."""
    folder = take()
    name = folder.name
    for file in folder.iterdir():
        file.unlink()
    folder.rmdir()
    return name


@pytest.mark.parametrize("hostile", ["link to nowhere", "link to a folder", "file", "folder"])
def test_what_is_named_like_the_download_is_neither_written_nor_followed(
    take: Take, stick: Path, tmp_path: Path, hostile: str
) -> None:
    name = names_taken(take, stick)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    match hostile:
        case "link to nowhere":
            (stick / name).symlink_to(tmp_path / "nowhere")
        case "link to a folder":
            (stick / name).symlink_to(elsewhere)
        case "file":
            (stick / name).write_text("mine")
        case "folder":
            (stick / name).mkdir()

    folder = take()

    assert folder.name == f"{name}-2"
    assert verify(folder).problems == ()
    assert list(elsewhere.iterdir()) == []
    assert not (tmp_path / "nowhere").exists()


def test_a_stick_full_of_odd_names_takes_a_download(take: Take, stick: Path) -> None:
    for name in ("x" * 255, "a\nb", "\udcff\udcfe", ".hidden", "CON", "..."):
        (stick / name).write_text("theirs")
    (stick / "loop").symlink_to(stick)

    folder = take()

    assert verify(folder).problems == ()
    assert len(list(stick.iterdir())) == 8


def test_a_link_put_in_the_way_while_it_is_written_is_not_followed(
    take: Take, stick: Path, tmp_path: Path
) -> None:
    """Every file is made anew, so that what lies there already stops it."""
    target = tmp_path / "passwords"
    target.write_text("precious")

    def meddle(done: int, whole: int) -> None:
        for folder in stick.iterdir():
            link = folder / "report.html.part"
            if not link.is_symlink():
                link.symlink_to(target)

    with pytest.raises(DownloadFault):
        take(progress=meddle)

    assert target.read_text() == "precious"
    assert list(stick.iterdir()) == []


def test_a_stick_with_no_room_for_names_is_said_to_be_full(
    take: Take, playing: Playing, tmp_path: Path
) -> None:
    with (
        small_card(tmp_path / "card", "20m,nr_inodes=3") as card,
        pytest.raises(DownloadFault) as fault,
    ):
        take(to=card)

    assert fault.value.why == "full"
