"""Wheels with no network: those of the libraries as they are installed here, and tiny programs.

A wheel is a zip file of what is installed, with its list (PEP 427); so what pip has put into this
environment is packed up again. What pip has put elsewhere (commands, shared data) is left out.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator
from functools import cache
from importlib.metadata import Distribution, distribution
from pathlib import Path
from zipfile import ZIP_STORED, ZipFile

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TREE = Path(__file__).resolve().parents[2]
LEFT_OUT = ("INSTALLER", "REQUESTED", "direct_url.json", "RECORD")


def rebuilt(to: Path) -> None:
    """Wheels of all libraries that the program needs to run, in the folder `to`."""
    for name in needed():
        _rebuild(distribution(name), to)


@cache
def needed() -> tuple[str, ...]:
    """The names of the libraries that the program needs, and of those that they need."""
    asked = tomllib.loads((TREE / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    found = set(_asked(asked, ""))
    waiting = list(found)
    while waiting:
        name, extra = waiting.pop()
        new = set(_asked(distribution(name).requires or (), extra)) - found
        found |= new
        waiting += new
    return tuple(sorted({name for name, _ in found}))


def _asked(lines: Iterable[str], extra: str) -> Iterator[tuple[str, str]]:
    """The names asked for under an extra, each with the extras that are wanted of it."""
    for line in lines:
        asked = Requirement(line)
        if asked.marker is None or asked.marker.evaluate({"extra": extra}):
            for one in ("", *asked.extras):
                yield canonicalize_name(asked.name), one


def _rebuild(one: Distribution, to: Path) -> Path:
    info = f"{one.metadata['Name'].replace('-', '_')}-{one.version}"
    path = to / f"{info}-{_tags(one)}.whl"
    files = [f for f in one.files or () if not f.parts[0].startswith(("..", "/"))]
    with ZipFile(path, "w", ZIP_STORED) as wheel:
        for file in files:
            if file.suffix != ".pyc" and file.name not in LEFT_OUT:
                wheel.write(str(file.locate()), str(file))
        folder = next(f.parts[0] for f in files if f.parts[0].endswith(".dist-info"))
        wheel.writestr(f"{folder}/RECORD", "".join(f"{n},,\n" for n in wheel.namelist()))
    return path


def _tags(one: Distribution) -> str:
    """What it runs on, as the name of its wheel had it."""
    lines = (one.read_text("WHEEL") or "").splitlines()
    tags = [line.removeprefix("Tag: ").split("-") for line in lines if line.startswith("Tag: ")]
    return "-".join(".".join(dict.fromkeys(part)) for part in zip(*tags, strict=True))


def tiny(to: Path, version: str, trying: str = "", main: str = "") -> Path:
    """The wheel of a program of two files, named as ours: what it does when tried, and started."""
    info = f"pillarside-{version}.dist-info"
    files = {
        "kiosk/runtime/trying.py": trying,
        "kiosk/main.py": main or f"print({version!r})",
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: pillarside\nVersion: {version}\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: tests\nRoot-Is-Purelib: true\n"
        "Tag: py3-none-any\n",
    }
    path = to / f"pillarside-{version}-py3-none-any.whl"
    with ZipFile(path, "w") as wheel:
        for name, text in files.items():
            wheel.writestr(name, text)
        wheel.writestr(f"{info}/RECORD", "".join(f"{name},,\n" for name in files))
    return path
