"""Static files of the typeface Inter for screen and paper, made once from the variable font.

Kivy shows only one weight of a variable font, so each weight is cut out of it into a file of
its own. Inter has no slash in its zero unless asked. The files are kept and used again.
"""

from __future__ import annotations

import os
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

WEIGHTS = (400, 600, 700)
OPTICAL_SIZE = 24  # points; drawn for text of about this size


@dataclass(frozen=True)
class Fonts:
    """Where the font file of each weight lies."""

    regular: Path
    strong: Path
    bold: Path

    def of(self, weight: int) -> str:
        """The file of a weight of 400, 600 or 700, as Kivy wants it."""
        return str({400: self.regular, 600: self.strong, 700: self.bold}[weight])


def fonts(cache: Path | None = None) -> Fonts:
    """The font files in `cache`, made first where they are missing."""
    folder = cache or default_cache()
    folder.mkdir(parents=True, exist_ok=True)
    paths = [folder / f"Inter-{weight}.ttf" for weight in WEIGHTS]
    for path, weight in zip(paths, WEIGHTS, strict=True):
        if not path.exists():
            _make(path, weight)
    return Fonts(*paths)


def default_cache() -> Path:
    """A folder beside the installed packages, or the user's cache where that is read-only."""
    beside = Path(sys.prefix) / "share" / "pillarside" / "fonts"
    if sys.prefix != sys.base_prefix and os.access(sys.prefix, os.W_OK):
        return beside
    if beside.is_dir():
        return beside
    home = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Path(home) / "pillarside" / "fonts"


def variable_font() -> Path:
    """The variable font of the installed package."""
    import fontpkg_inter

    return Path(fontpkg_inter.__path__[0]) / "files" / "Inter[opsz,wght].ttf"


def _make(path: Path, weight: int) -> None:
    """Cut one weight out; it takes its name only when it is whole and on the disk."""
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    axes = {"wght": weight, "opsz": OPTICAL_SIZE}
    font = instantiateVariableFont(TTFont(variable_font()), axes, inplace=True)
    handle, part = tempfile.mkstemp(dir=path.parent, suffix=".part")
    with os.fdopen(handle, "wb") as file:
        font.save(file)
        file.flush()
        os.fsync(file.fileno())
    os.chmod(part, 0o644)
    os.replace(part, path)
