"""Plays an invented lesson in the real app with real touches; pictures, transcript, download.

`python -m demo.tour DIR [--panel 7inch|10inch] [--language en]`. The pupils read the language;
the school's stays English. Exit 0 only if the download verifies and holds every event that was
played.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

import click
from PIL import ImageGrab

from demo.bench import Bench
from demo.contact_sheet import contact_sheet
from demo.displays import Displays
from demo.hand import Hand, Lost, Sight
from demo.kiosk import TREE, KioskProcess, command, issue_cards
from demo.letting_in import LettingIn
from demo.office import Office
from demo.played import TEACHER, Lesson
from demo.stick import packed
from kiosk.content import load
from kiosk.export.package import number_of
from kiosk.export.sheets.carrying import FOLDER as SHEETS
from kiosk.store import Record

SIZES = {"7inch": (800, 480), "10inch": (1280, 800)}

# What was played must be in the record: kind and the least number of times.
PLAYED = {
    "adult_added": 3,
    "adult_authorised": 1,
    "badge_issued": 2,
    "badge_passed": 2,
    "codes_issued": 3,
    "code_passed": 1,
    "pin_failed": 3,
    "adult_revoked": 2,
    "package_taken": 1,
    "roster_taken": 2,
    "questions_answered": 1,
    "lesson_tightened": 1,
    "pilots_drilled": 1,
    "pre_use_passed": 1,
    "lesson_opened": 1,
    "kiosk_started": 4,
    "session_started": 4,
    "spell_started": 1,
    "interrupted": 2,
    "interruption_cleared": 2,
    "ok_given": 4,
    "hole_drilled": 4,
    "trouble_named": 1,
    "noted": 1,
    "check_done": 3,
    "bits_changed": 3,
    "deputy_named": 1,
    "datum_set": 1,
    "down_said": 1,
    "restart_asked": 1,
    "job_made": 1,
    "job_hole_added": 2,
    "level_granted": 1,
    "lesson_lengthened": 1,
    "lined_up": 1,
    "everyone_stopped": 1,
    "resumed": 1,
    "silence_asked": 1,
    "silence_ended": 1,
    "followed_up": 2,
    "review_said": 1,
    "incident_closed": 1,
    "taken_out_of_use": 2,
    "returned_to_use": 2,
    "own_hole_counted": 1,
    "session_ended": 4,
    "still_confirmed": 1,
    "lesson_confirmed": 1,
    "own_use_started": 1,
    "lesson_closed": 1,
    "sheet_asked": 1,
    "sheet_accepted": 1,
    "download_asked": 1,
}


@dataclass
class Album:
    """Takes a picture of each new screen and keeps its name and number."""

    display: str
    folder: Path
    taken: list[str] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)
    last: int = 0

    def add(self, seen: Sight) -> None:
        """A picture of the screen, if it is a new one."""
        self.problems += [f"{seen.screen}: {p}" for p in seen.problems]
        if seen.number == self.last:
            return
        self.last = seen.number
        name = f"{len(self.taken) + 1:03d}-{seen.screen.replace('_', '-')}.png"
        ImageGrab.grab(xdisplay=self.display).save(self.folder / name)
        self.taken.append(name)


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--panel", type=click.Choice(list(SIZES)), default="7inch", show_default=True)
@click.option("--language", default="en", show_default=True, help="What the pupils choose.")
def tour(folder: Path, panel: str, language: str) -> None:
    """Play the lesson into FOLDER."""
    if folder.exists() and any(folder.iterdir()):
        raise click.ClickException(f"{folder} is not empty; choose another folder")
    for name in ("pictures", "download"):
        (folder / name).mkdir(parents=True, exist_ok=True)
    words = load(TREE / "sequences").words
    if language not in words.others:
        allowed = ", ".join(sorted(words.others))
        raise click.BadParameter(f"{language!r}; allowed: {allowed}", param_hint="--language")
    began = time.monotonic()
    faults = play(folder, panel, language)
    for line in faults:
        click.echo(line, err=True)
    seconds = time.monotonic() - began
    click.echo(f"tour: {'failed' if faults else 'played'} in {seconds:.0f} s, in {folder}")
    sys.exit(1 if faults else 0)


def play(folder: Path, panel: str, language: str) -> list[str]:
    """Play everything; the faults found, none if all is well."""
    record, shown = folder / "record" / "record.sqlite", folder / "record" / "shown.jsonl"
    record.parent.mkdir()
    cards = issue_cards(record)
    pins = {name: card.pin for name, card in cards.items()}
    packed(record.parent / "office", folder / "download")
    with Displays() as displays, Bench() as bench:
        display = displays.of(*SIZES[panel])
        album = Album(display, folder / "pictures")
        hand = Hand(display, shown, album.add)
        kiosk = KioskProcess(
            display,
            record,
            shown,
            bench.port,
            panel=panel,
            download_to=folder / "download",
        )
        try:
            code = cards[TEACHER].codes[0]
            faults = acts(Lesson(hand, bench, pins, language=language), kiosk, code)
        finally:
            ended = kiosk.end()
            write_transcript(folder / "transcript.txt", hand)
        faults += closed_doors(display, album, folder, panel)
    if album.taken:
        taken = [album.folder / name for name in album.taken]
        contact_sheet(taken, folder / "contact-sheet.png")
    faults += [f"the kiosk ended with exit code {ended}"] if ended else []
    faults += list(dict.fromkeys(album.problems))
    faults += [] if len(album.taken) >= 25 else [f"only {len(album.taken)} pictures"]
    return faults + download_faults(folder / "download")


def closed_doors(display: str, album: Album, folder: Path, panel: str) -> list[str]:
    """The two starts that lead nowhere: a record in use, and content with a misspelt key."""
    record = folder / "record" / "record.sqlite"
    broken = folder / "record" / "school" / "machines"
    broken.mkdir(parents=True)
    drill = (TREE / "sequences" / "machines" / "drill-1.yaml").read_text("utf-8")
    (broken / "drill-1.yaml").write_text(drill.replace("run_down:", "run_dwon:"), "utf-8")
    holder = Record.open(record)
    try:
        faults = one_start(display, album, record, panel, "record_fault", None)
    finally:
        holder.close()
    fresh = record.with_name("no-record.sqlite")  # the other has taken a school's folder in
    return faults + one_start(display, album, fresh, panel, "content_fault", broken.parent)


def one_start(
    display: str, album: Album, record: Path, panel: str, screen: str, school: Path | None
) -> list[str]:
    """Start a kiosk that can only say why it does not run; a fault if it says something else."""
    shown = record.with_name(f"shown-{screen}.jsonl")
    album.last = -1
    hand = Hand(display, shown, album.add)
    kiosk = KioskProcess(display, record, shown, "", panel=panel, school=school)
    try:
        hand.on(screen)
    except Lost as lost:
        return [str(lost)]
    finally:
        kiosk.end()
    return []


def acts(lesson: Lesson, kiosk: KioskProcess, code: str) -> list[str]:
    """The acts in their order; what went wrong ends the play. `code` is a teacher's spare code."""
    office = Office(lesson)
    let_in = LettingIn(lesson, office)
    try:
        office.corner()
        office.job()
        office.sheet()
        let_in.new_adult()
        let_in.take_in()
        lesson.open_lesson()
        let_in.questions()
        lesson.shown_pupil()
        lesson.supervised_pupil(let_in.badge)
        office.level()
        office.pilots()
        office.line()
        office.everyone_stops()
        let_in.spare_code(code)
        office.quiet()
        let_in.badge_menu("menu.incidents")
        office.incident()
        office.belt()
        lesson.wire_off()
        lesson.cut_in_a_turn(kiosk.cut_and_start)
        let_in.revoked()
        lesson.end_of_lesson()
    except Lost as lost:
        return [str(lost)]
    return []


def write_transcript(path: Path, hand: Hand) -> None:
    """Every touch, whose it was, and the seconds each screen stood."""
    lines, before = [], 0.0
    for touch in hand.touches:
        stood = touch.at - before
        before = touch.at
        where = f"{touch.screen}: {touch.title}"
        label = "a digit" if touch.screen == "pin" and touch.label.isdigit() else ""
        label = label or ("" if touch.label else "the next page")
        label = label or touch.label.replace("\n", " / ")
        lines.append(f"{touch.at:7.1f} s  {stood:5.1f} s on  [{where}]  {touch.who}: {label}")
    by = Counter(touch.who for touch in hand.touches)
    lines += ["", *(f"{who}: {count} touches" for who, count in sorted(by.items()))]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def download_faults(folder: Path) -> list[str]:
    """Whether the download verifies and holds what was played, and the sheet lies beside it."""
    there = (p for p in sorted(folder.iterdir()) if not number_of(p.name))
    found = [each for each in there if each.name != SHEETS]
    if len(found) != 1:
        return [f"{len(found)} downloads instead of one"]
    if not any((folder / SHEETS).glob("*.pdf")):
        return ["no printed sheet on the stick"]
    verified = subprocess.run(
        command("verify", str(found[0])), capture_output=True, text=True, check=False
    )
    if verified.returncode:
        return [verified.stdout + verified.stderr]
    lines = (found[0] / "events.jsonl").read_text("utf-8").splitlines()
    held = Counter(json.loads(line)["kind"] for line in lines)
    return [
        f"the download holds {held[kind]} {kind}, played were {least}"
        for kind, least in PLAYED.items()
        if held[kind] < least
    ]


if __name__ == "__main__":
    tour()
