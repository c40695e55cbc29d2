"""Puts an update together at a desk: the program's own wheel, and those of the libraries it needs.

The libraries are the ones in `requirements.lock`, each held against its hashes there; they come
from a folder, or by pip from where it gets its packages. The kiosk itself needs no network.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

from kiosk.updating.package import Fits, NoUpdate

PARTS = ("kiosk", "hardware", "sequences", "demo", "pyproject.toml", "README.md", "LICENSE")
PIP = (sys.executable, "-m", "pip", "--disable-pip-version-check")
LIBC = ("2_17", "2_28", "2_34")
"""The C libraries that wheels for Linux are made against; Debian 12 has a later one."""

PROCESSORS = ("aarch64", "x86_64")
"""Those that the libraries are published for, as `uname -m` calls them."""

SOURCE_ALONE = ("sdnotify",)
"""Pure Python, and published without a wheel: one is made here that fits everywhere."""

_PIN = re.compile(r"(?m)^([\w.-]+==[^\s;\\]+)")
_PINNED = re.compile(r"The user requested \(constraint\) ([\w.-]+==[\w.]+)")
_NOT_FOUND = re.compile(r"No matching distribution found for ([\w.=-]+)")
"""What pip says of a library it can't find: pinned by the lock file, or by the program alone."""

_HASH = re.compile(r"--hash=sha256:([0-9a-f]{64})")


def own_wheel(tree: Path, to: Path) -> Path:
    """The program's own wheel, made from the tree with all its content."""
    with TemporaryDirectory(prefix="pillarside-") as name:
        copy = Path(name) / "tree"
        copy.mkdir()
        for part in PARTS:
            _take(tree / part, copy / part)
        words = ["wheel", "--no-deps", "--no-index", "--no-build-isolation", "-w", str(to)]
        _run([*PIP, *words, str(copy)])
    (made,) = to.glob("pillarside-*.whl")
    return made


def _take(part: Path, to: Path) -> None:
    if part.is_dir():
        shutil.copytree(part, to, ignore=shutil.ignore_patterns("__pycache__", "out", "*.egg-info"))
    else:
        shutil.copy(part, to)


def version_of(wheel: Path) -> str:
    """The version in the name of a wheel."""
    return wheel.name.split("-")[1]


def gathered(tree: Path, own: Path, fits: Fits, folder: Path | None, to: Path) -> dict[str, Path]:
    """The program's wheel and all it needs, by their file names, put into `to`.

    From `folder` they are taken as they are; what pip gets elsewhere must be what the lock file
    names. Raises NoUpdate.
    """
    lock = (tree / "requirements.lock").read_text("utf-8")
    with TemporaryDirectory(prefix="pillarside-") as name:
        pins, made = Path(name) / "pins.txt", Path(name) / "made"
        pins.write_text("\n".join(_PIN.findall(lock)), "utf-8")
        words = ["download", "--only-binary=:all:", "-d", str(to), "-c", str(pins), *_for(fits)]
        if folder is None:
            words += ["--find-links", str(_built(lock, made))]
        else:
            words += ["--no-index", "--find-links", str(folder)]
        _run([*PIP, *words, str(own)], lambda said: _lacking(said, fits, folder))
        wheels = {path.name: path for path in sorted(to.glob("*.whl"))}
        if folder is None:
            ours = {own.name, *(path.name for path in made.iterdir())}
            _hold_against(lock, {name: p for name, p in wheels.items() if name not in ours})
    return wheels


def _built(lock: str, to: Path) -> Path:
    """Wheels of the libraries that are published as source alone, held against the lock file."""
    to.mkdir()
    for name in SOURCE_ALONE:
        entry = re.search(rf"(?ms)^{name}==.*?(?=^[a-z])", lock)
        asked = to.parent / f"{name}.txt"
        asked.write_text(entry[0] if entry else name, "utf-8")
        words = ["wheel", "--no-deps", "--no-build-isolation", "--require-hashes", "-w", str(to)]
        _run([*PIP, *words, "-r", str(asked)])
    return to


def _for(fits: Fits) -> list[str]:
    """What pip is told of another computer than this one."""
    if fits == Fits.here():
        return []
    words = ["--implementation", "cp", "--python-version", fits.python]
    for libc in LIBC:
        words += ["--platform", f"manylinux_{libc}_{fits.processor}"]
    return words


def _hold_against(lock: str, wheels: dict[str, Path]) -> None:
    known = set(_HASH.findall(lock))
    for name, path in wheels.items():
        if sha256(path.read_bytes()).hexdigest() not in known:
            raise NoUpdate(f"{name} is not what requirements.lock names; nothing was written")


def _run(words: list[str], told: Callable[[str], str] = lambda said: "") -> None:
    """Run one command; raises NoUpdate with what `told` makes of its words, or the last of them."""
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    if done.returncode:
        said = (done.stdout + done.stderr).strip() or "pip said nothing"
        raise NoUpdate(told(said) or said.splitlines()[-1])


def _lacking(said: str, fits: Fits, folder: Path | None) -> str:
    """Which library pip did not find, in plain words; nothing if it was something else."""
    missing = _PINNED.search(said) or _NOT_FOUND.search(said)
    if missing is None:
        return ""
    library = missing[1].replace("==", " ")
    wanted = f"wheel of {library} for Python {fits.python} on {fits.processor}"
    if folder is None:
        return f"pip found no {wanted}; look at the network, or name a folder with --wheels"
    return f"{folder} has no {wanted}; put it in there, or leave --wheels out"
