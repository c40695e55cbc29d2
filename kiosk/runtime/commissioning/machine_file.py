"""The contacts section of a school's machine file, put in place of the old one and no more."""

from __future__ import annotations

import os
import re
import shutil
import tempfile
from pathlib import Path

from kiosk.content import load
from kiosk.core.model import ContactPair, ContactTimes, Wiring

TOP_KEY = re.compile(r"[A-Za-z_\"']")
SECTION = re.compile(r"contacts\s*:")


class NotWritten(Exception):
    """The new file would not be taken; nothing was changed. The text has one line a problem."""


def contacts_section(wiring: Wiring) -> str:
    """The section as a technician would write it; times only where they are not the usual ones."""
    lines = ["contacts:", f"  reader: {wiring.reader}"]
    if wiring.reader == "modbus":
        lines += [f"  unit: {wiring.unit}", f"  baud: {wiring.baud}"]
        lines += [f"  parity: {wiring.parity}", f"  function: {wiring.function}"]
    lines.append("  inputs:")
    lines += [f"    {name}: {_pair(pair)}" for name, pair in wiring.inputs]
    return "\n".join([*lines, *_times(wiring.times)]) + "\n"


def _pair(pair: ContactPair) -> str:
    numbers = {"make": pair.make, "on_break": pair.on_break}
    written = (f"{key}: {number}" for key, number in numbers.items() if number is not None)
    return "{" + ", ".join(written) + "}"


def _times(times: ContactTimes) -> list[str]:
    if times == ContactTimes():
        return []
    return [
        "  times:",
        f"    debounce: {times.debounce.s * 1000:g} ms",
        f"    samples: {times.samples}",
        f"    gap: {times.gap.s:g} s",
        f"    discrepancy: {times.discrepancy.s:g} s",
        f"    stale: {times.stale.s:g} s",
        f"    chatter_per_min: {times.chatter_per_min}",
    ]


def with_contacts(text: str, wiring: Wiring) -> str:
    """The file's text with the new section; every other line stays as it is."""
    lines = text.splitlines(keepends=True)
    start = next((i for i, line in enumerate(lines) if SECTION.match(line)), None)
    section = contacts_section(wiring)
    if start is None:
        return text.rstrip("\n") + "\n\n" + section
    end = _end(lines, start)
    return "".join(lines[:start]) + section + "".join(lines[end:])


def _end(lines: list[str], start: int) -> int:
    """The first line after the section: remarks and gaps before the next key are the next key's."""
    later = (i for i in range(start + 1, len(lines)) if TOP_KEY.match(lines[i]))
    end = next(later, len(lines))
    while end > start + 1 and (not lines[end - 1].strip() or lines[end - 1].startswith("#")):
        end -= 1
    return end


def write_contacts(sequences: Path, school: Path, machine: str, wiring: Wiring) -> Path:
    """Write the section into the school's file of the machine, made from the shipped one if new.

    Raises `NotWritten` if the content would then have a problem; the file is as it was.
    """
    path = school / "machines" / f"{machine}.yaml"
    shipped = sequences / "machines" / f"{machine}.yaml"
    source = path if path.exists() else shipped
    text = with_contacts(source.read_text("utf-8"), wiring)
    _try_out(sequences, school, machine, text)
    path.parent.mkdir(parents=True, exist_ok=True)
    write_atomically(path, text)
    return path


def _try_out(sequences: Path, school: Path, machine: str, text: str) -> None:
    """Load a copy of the school's folder with the new file in it."""
    with tempfile.TemporaryDirectory(prefix="commission-") as folder:
        copy = Path(folder) / "school"
        if school.is_dir():
            shutil.copytree(school, copy)
        (copy / "machines").mkdir(parents=True, exist_ok=True)
        (copy / "machines" / f"{machine}.yaml").write_text(text, "utf-8")
        problems = load(sequences, copy).problems
    if problems:
        raise NotWritten("\n".join(str(p) for p in problems))


def write_atomically(path: Path, text: str) -> None:
    """Put a whole new file in the old one's place, or leave the old one."""
    part = path.with_name(f".{path.name}.part")
    with part.open("w", encoding="utf-8") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    if path.exists():
        shutil.copymode(path, part)
    part.replace(path)
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
