"""The kiosk composed for real, without a window: record, people, contacts, socket, content."""

from __future__ import annotations

import shutil
import stat
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from demo.bench import Bench
from kiosk.cli.asking import ask
from kiosk.content.settings import read_settings
from kiosk.core.events import Downloaded, Event, Interrupted, ReadingChanged, SaidAllowed
from kiosk.core.events import SessionStarted as Started
from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    PickAdult,
    PickPupil,
    SeenRight,
    Touch,
    Touched,
    TypeNote,
    TypePin,
)
from kiosk.core.view import View
from kiosk.runtime.settings import TREE, Settings
from kiosk.runtime.start import Running, start
from kiosk.store import ReadOnlyRecord, Record

PATIENCE_S = 15.0


class People:
    """Touches a running kiosk as people would, waiting for what each touch leads to."""

    def __init__(self, running: Running) -> None:
        self.running = running
        assert running.issued is not None
        self.pin = running.issued[1]

    def see(self, found: Callable[[View], bool], what: str) -> View:
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            view = self.running.latest()
            if found(view):
                return view
            time.sleep(0.01)
        view = self.running.latest()
        raise AssertionError(f"waited for {what}; there stands {view.screen}: {view.title}")

    def touch(self, touch: Touch) -> None:
        shown = self.see(lambda v: touch in touches(v), f"a button for {touch}")
        self.running.post(Touched(shown.number, touch))

    def sign(self) -> None:
        view = self.see(lambda v: v.screen == "form", "the names")
        name = next(b.touch for b in view.choices if isinstance(b.touch, PickAdult))
        self.touch(name)
        view = self.see(lambda v: v.pad is not None, "the pad")
        assert view.pad is not None
        self.running.post(Touched(view.number, TypePin(view.pad.adult, self.pin)))

    def open_lesson(self) -> None:
        self.touch(AskAdult("menu"))
        self.sign()
        self.touch(Act("open"))
        self.touch(Act("pre_use_right"))
        view = self.see(lambda v: v.title == "Which group?", "the groups")
        self.touch(view.choices[0].touch)
        self.touch(Choose("jobs", "hook_bar"))
        self.touch(Act("jobs_done"))
        self.touch(Choose("length", "60"))


def touches(view: View) -> list[Touch]:
    return [b.touch for b in (*view.buttons, *view.choices) if b.live]


@contextmanager
def kiosk(tmp_path: Path, port: str = "", **settings: object) -> Iterator[People]:
    roster = TREE / "demo" / "roster" / "roster.csv"
    running = start(
        Settings(record=tmp_path / "record.sqlite", roster=roster, port=port, **settings)  # type: ignore[arg-type]
    )
    try:
        yield People(running)
    finally:
        running.stop()


def recorded(tmp_path: Path, kind: type[Event]) -> list[Event]:
    record = Record.open(tmp_path / "record.sqlite")
    try:
        return [e.event for e in record.entries() if isinstance(e.event, kind)]
    finally:
        record.close()


@pytest.mark.parametrize("port", ["/dev/serial/by-id/not-there", "a file that is no port"])
def test_with_an_absent_or_wrong_port_an_adult_must_allow_going_by_what_is_said(
    tmp_path: Path, port: str
) -> None:
    if "file" in port:
        port = str(tmp_path / "no-port")
        Path(port).write_text("not a serial port")
    with kiosk(tmp_path, port) as people:
        people.see(lambda v: v.head.isolator == "unknown", "isolator unknown")
        people.open_lesson()

        people.touch(PickPupil(3))
        people.see(lambda v: v.screen == "interruption", "an adult asked for")
        people.touch(AskAdult("said"))
        people.sign()

        view = people.see(lambda v: v.screen == "step", "the first step")
        assert any(isinstance(t, SeenRight) for t in touches(view))
    assert [e.way for e in recorded(tmp_path, Started)] == ["unread"]
    assert len(recorded(tmp_path, SaidAllowed)) == 1


def pulled_out(tmp_path: Path) -> list[str]:
    """The inputs lost with the box; a busy computer may lose a reading for a while without that."""
    with ReadOnlyRecord(tmp_path / "record.sqlite") as record:
        found = [e.event for e in record.entries(1, record.head[0])]
    lost = [e for e in found if isinstance(e, ReadingChanged) and e.reading == "unknown"]
    return [e.input for e in lost if e.why in ("unplugged", "no_port")]


def test_a_box_unplugged_in_a_session_halts_it_and_is_recorded_once(tmp_path: Path) -> None:
    with Bench() as bench, kiosk(tmp_path, bench.port) as people:
        people.open_lesson()
        people.see(lambda v: v.head.isolator == "off", "isolator off")
        people.touch(PickPupil(3))
        people.see(lambda v: v.screen == "step", "the first step")

        bench.unplug()

        view = people.see(lambda v: v.screen == "interruption", "the interruption")
        assert view.head.isolator == "unknown"
        people.see(lambda _: pulled_out(tmp_path) != [], "the pulled box in the record")
    assert pulled_out(tmp_path).count("isolator") == 1
    assert recorded(tmp_path, Interrupted) == [Interrupted("reading_lost")]


def test_a_misspelt_key_stops_the_kiosk_with_its_line_on_the_screen(tmp_path: Path) -> None:
    shutil.copytree(TREE / "sequences", tmp_path / "sequences")
    drill = tmp_path / "sequences" / "machines" / "drill-1.yaml"
    drill.write_text(drill.read_text("utf-8").replace("run_down:", "run_dwon:"), "utf-8")

    running = start(Settings(record=tmp_path / "record.sqlite", sequences=tmp_path / "sequences"))

    view = running.latest()
    assert view.screen == "content_fault"
    assert "drill-1.yaml:" in view.lines[0]
    assert "run_dwon" in view.lines[0] and "did you mean 'run_down'?" in view.lines[0]
    assert view.buttons == ()
    assert view.lines[0] in running.fault
    assert not (tmp_path / "record.sqlite").exists()
    running.stop()


def test_wrong_settings_stop_the_kiosk_with_their_lines_on_the_screen(tmp_path: Path) -> None:
    path = tmp_path / "settings.yaml"
    path.write_text("machine: drill-9\nfeed: localhost\nlanguage: fr\n")
    settled, problems = read_settings(path)
    settled["record"] = tmp_path / "record.sqlite"

    running = start(Settings(**settled, problems=problems, file=str(path)))

    view = running.latest()
    assert view.screen == "content_fault"
    assert [line.partition("; ")[0] for line in view.lines] == [
        f"{path}:1: machine: 'drill-9'",
        f"{path}:2: feed: localhost is no address of a database",
        f"{path}:3: language: 'fr'",
    ]
    assert running.fault == "\n".join(view.lines)
    assert running.loop is None
    running.stop()


def test_a_second_kiosk_on_the_same_record_says_so(tmp_path: Path) -> None:
    with kiosk(tmp_path):
        second = start(Settings(record=tmp_path / "record.sqlite"))

        assert second.latest().screen == "record_fault"
        assert second.latest().title == "Another program has the record open."
        second.stop()


def test_the_first_start_issues_a_technicians_pin_and_later_ones_do_not(tmp_path: Path) -> None:
    with kiosk(tmp_path) as people:
        assert len(people.pin) == 6

    again = start(Settings(record=tmp_path / "record.sqlite"))
    again.stop()

    assert again.issued is None
    assert people.pin.encode() not in (tmp_path / "record.sqlite").read_bytes()


def test_commands_reach_the_running_kiosk_by_its_socket(tmp_path: Path) -> None:
    record = tmp_path / "record.sqlite"
    with kiosk(tmp_path) as people:
        issued = ask(record, {"do": "adult_issue", "name": "Ms Invented", "role": "teacher"})
        listed = ask(record, {"do": "adult_list"})
        told = {"do": "downloaded", "span": "week", "first": 1, "last": 3, "head": "0" * 64}
        downloaded = ask(record, told)
        unknown = ask(record, {"do": "dance"})
        people.touch(AskAdult("menu"))
        people.see(lambda v: "Ms Invented" in [b.label for b in v.choices], "the new name")
        mode = stat.S_IMODE((tmp_path / "record.sqlite.sock").stat().st_mode)

    assert issued is not None and issued["ok"] and len(issued["pin"]) == 6
    assert listed is not None and len(listed["adults"]) == 2
    assert downloaded == {"ok": True}
    assert unknown is not None and not unknown["ok"]
    assert mode == 0o600
    assert recorded(tmp_path, Downloaded) == [Downloaded("week", 1, 3, "0" * 64)]


def test_a_note_is_kept_apart_from_its_event(tmp_path: Path) -> None:
    with kiosk(tmp_path) as people:
        people.touch(AskAdult("menu"))
        people.sign()
        people.touch(Act("note"))
        people.touch(Choose("note_what", "near_miss"))
        view = people.see(lambda v: v.title == "What was it about?", "the hazards")
        people.touch(view.choices[0].touch)
        view = people.see(lambda v: v.keys is not None, "the keyboard")
        assert view.keys is not None
        text = "zebra words that nobody else writes"
        people.running.post(Touched(view.number, TypeNote(view.keys.what, view.keys.hazard, text)))
        people.see(lambda v: v.screen == "menu", "the menu again")

    record = Record.open(tmp_path / "record.sqlite")
    kinds = [type(e.event).__name__ for e in record.entries()]
    said = [str(e.event) for e in record.entries()]
    record.close()
    assert kinds.count("Noted") == 1
    assert not any("zebra" in line for line in said)


def test_a_download_asked_on_the_screen_is_written_and_recorded(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    with kiosk(tmp_path, download_to=out) as people:
        people.touch(AskAdult("menu"))
        people.sign()
        people.touch(Act("download"))
        asked = people.see(lambda v: v.screen == "form", "how much")
        people.touch(asked.choices[1].touch)
        view = people.see(lambda v: v.screen == "download" and v.progress is None, "the end of it")

    assert [b.label for b in asked.choices] == [
        "The last 7 days",
        "The last 14 weeks, a term",
        "Since the last download",
        "Everything",
    ]
    assert view.title == "Download: The last 14 weeks, a term"
    assert view.lines[0] == "Written, read back and found equal."
    assert len(list(out.iterdir())) == 1
    assert [e.span for e in recorded(tmp_path, Downloaded)] == ["term"]


def test_with_no_stick_the_download_says_so(tmp_path: Path) -> None:
    gone = tmp_path / "not-there"
    with kiosk(tmp_path, download_to=gone) as people:
        people.touch(AskAdult("menu"))
        people.sign()
        people.touch(Act("download"))
        people.see(lambda v: v.screen == "form", "how much")
        people.touch(Act("download", "week"))
        view = people.see(lambda v: v.screen == "download" and v.progress is None, "the end of it")

    assert "Nothing was lost" in " ".join(view.lines) or "stick" in " ".join(view.lines)
