"""Each look at the computer, on small files as the kernel writes them."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk import selftest
from kiosk.selftest import State

TOUCH = """I: Bus=0003 Vendor=0eef Product=0005
N: Name="Invented touch panel"
B: EV=b
B: ABS=2608000 3

"""
FINGERS = TOUCH.replace("2608000 3", "260800000000003")
KEYS = 'N: Name="A keyboard"\nB: EV=120013\nB: KEY=1000000000007 ff9f207ac14057ff\n\n'


def put(root: Path, name: str, text: str) -> Path:
    """A small file of the system's below a root."""
    path = root / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    return path


@pytest.mark.parametrize(
    ("listed", "state"),
    [(FINGERS, State.GOOD), (TOUCH, State.LOOK), (KEYS, State.LOOK), ("", State.LOOK)],
)
def test_a_touch_screen_is_known_by_the_place_of_a_finger(
    tmp_path: Path, listed: str, state: State
) -> None:
    put(tmp_path, "proc/bus/input/devices", KEYS + listed)

    found = selftest.touch(tmp_path)

    assert found.state is state
    assert (found.found == "Invented touch panel") is (state is State.GOOD)


def test_a_display_is_one_that_is_connected(tmp_path: Path) -> None:
    put(tmp_path, "sys/class/drm/card0-HDMI-A-1/status", "disconnected\n")
    assert selftest.display({}, tmp_path).state is State.BAD

    put(tmp_path, "sys/class/drm/card0-HDMI-A-2/status", "connected\n")
    assert selftest.display({}, tmp_path).found == "connected: card0-HDMI-A-2"
    assert selftest.display({"DISPLAY": ":0"}, tmp_path).found == "X display :0"


@pytest.mark.parametrize(
    ("kind", "state"),
    [("ext4", State.GOOD), ("overlay", State.BAD), ("tmpfs", State.BAD), ("vfat", State.GOOD)],
)
def test_a_record_in_memory_or_on_an_overlay_is_warned_of(
    tmp_path: Path, kind: str, state: State
) -> None:
    place = tmp_path / "a place"
    place.mkdir()
    written = str(place).replace(" ", "\\040")
    mounts = put(tmp_path, "mounts", f"/dev/a / ext4 rw 0 0\n/dev/b {written} {kind} rw 0 0\n")

    found = selftest.record_place(place / "record.sqlite", mounts)

    assert found.state is state
    assert kind in found.found


def test_the_innermost_mount_counts(tmp_path: Path) -> None:
    mounts = put(tmp_path, "mounts", f"overlay / overlay rw 0 0\n/dev/b {tmp_path} ext4 rw 0 0\n")

    assert selftest.record_place(tmp_path / "record.sqlite", mounts).state is State.GOOD
    assert selftest.record_place(Path("/elsewhere/r.sqlite"), mounts).state is State.BAD


@pytest.mark.parametrize(("ms", "state"), [(2, State.GOOD), (900, State.LOOK)])
def test_a_card_that_takes_long_to_be_safe_is_worth_a_look(
    tmp_path: Path, ms: int, state: State
) -> None:
    clock = iter(range(0, 10**9, ms * 1000))

    found = selftest.storage(tmp_path, lambda: next(clock))

    assert found.state is state
    assert f"{ms:.1f} ms" in found.found
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_cannot_be_written_is_bad(tmp_path: Path) -> None:
    assert selftest.storage(tmp_path / "not there", lambda: 0).state is State.BAD


@pytest.mark.parametrize(
    ("port", "state", "said"),
    [
        ("", State.GOOD, "plugged in: usb-invented"),
        ("/dev/serial/by-id/usb-invented", State.GOOD, "/dev/serial/by-id/usb-invented"),
        ("/dev/serial/by-id/usb-gone", State.BAD, "is not there"),
    ],
)
def test_the_port_of_the_settings_is_looked_for(
    tmp_path: Path, port: str, state: State, said: str
) -> None:
    put(tmp_path, "dev/serial/by-id/usb-invented", "")

    found = selftest.ports(port, tmp_path)

    assert found.state is state
    assert said in found.found
    assert state is State.GOOD or "there are: usb-invented" in found.advice


@pytest.mark.parametrize(
    ("days", "state"), [(None, State.LOOK), (0, State.GOOD), (1, State.GOOD), (15, State.LOOK)]
)
def test_a_record_not_taken_away_for_a_fortnight_is_worth_a_look(
    days: int | None, state: State
) -> None:
    assert selftest.last_download(days).state is state


def test_clock_speech_and_watchdog_say_what_to_do() -> None:
    assert selftest.clock(2, has_chip=False).state is State.GOOD
    assert "clock battery" in selftest.clock(1, has_chip=False).advice
    assert "connect the network once" in selftest.clock(0, has_chip=True).advice
    assert selftest.speech("").advice == "apt-get install espeak-ng"
    assert selftest.watchdog("20000000").found.endswith("after 20 s")
    assert selftest.watchdog("").state is State.LOOK


def test_letters_are_made_where_there_are_none(tmp_path: Path) -> None:
    found = selftest.font(tmp_path / "letters")

    assert found.state is State.GOOD
    assert len(list((tmp_path / "letters").glob("*.ttf"))) == 3


def test_a_record_whose_folder_is_not_there_is_bad_unless_the_first_start_makes_it(
    tmp_path: Path,
) -> None:
    there, nowhere = tmp_path / "r.sqlite", tmp_path / "none" / "r.sqlite"
    mounts = put(tmp_path, "mounts", "/dev/mmcblk0p2 / ext4 rw 0 0\n")

    named, own = (selftest.record_place(nowhere, mounts, own) for own in (False, True))

    assert selftest.record_place(there, mounts).state is State.GOOD
    assert (named.state, own.state) == (State.BAD, State.LOOK)
    assert named.found == f"there is no folder {tmp_path / 'none'}"
    assert own.advice == "the kiosk's first start makes it"


def test_a_port_that_is_no_path_is_told_so_and_no_port_in_plain_words(tmp_path: Path) -> None:
    put(tmp_path, "dev/serial/by-id/usb-invented", "")

    wrong, none = selftest.ports("ttyUSB0", tmp_path), selftest.ports("", tmp_path)

    assert (wrong.state, wrong.found) == (State.BAD, "ttyUSB0 is no path")
    assert wrong.advice.endswith("such as /dev/serial/by-id/usb-...; there are: usb-invented")
    assert none.found.startswith("no port: in the settings, so no contact is read")
