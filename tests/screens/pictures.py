"""Writes every view of the gallery as a PNG: `python -m tests.screens.pictures FOLDER [LANGUAGE]`.

With a language they are the real screens of `gallery.told` in it. A contact sheet for each panel
and text size has one of each title on one page.
"""

from __future__ import annotations

import struct
import sys
import zlib
from pathlib import Path

from demo.contact_sheet import contact_sheet
from tests.screens import window as display


def main(folder: Path, language: str = "") -> None:
    """Both panels, both text sizes; the geometry's problems go to the terminal."""
    reason = display.why_no_window()
    if reason:
        sys.exit(reason)
    window = display.open_window()
    from kiosk.screens.theme import LARGE, PANELS

    folder.mkdir(parents=True, exist_ok=True)
    for panel in PANELS.values():
        for scale in (1.0, LARGE):
            _panel(window, folder, panel, scale, language)


def _panel(window: object, folder: Path, panel: object, scale: float, language: str) -> None:
    from kiosk.screens.geometry import problems
    from tests.screens.gallery import views
    from tests.screens.gallery.told import told
    from tests.screens.hand import Hand

    hand, written = Hand(window, panel=panel, scale=scale), {}
    for name, view in (told(language) if language else views()).items():
        hand.show(view)
        hand.frame()
        for problem in problems(hand.face, panel):
            print(name, panel.name, scale, problem)
        path = folder / f"{name}-{panel.width_px}-{scale}.png"
        path.write_bytes(_png(panel.width_px, panel.height_px))
        written.setdefault((view.screen, view.title), path)
    hand.leave()
    contact_sheet(list(written.values()), folder / f"contact-sheet-{panel.width_px}-{scale}.png")


def _png(width: int, height: int) -> bytes:
    """What stands in the window's lower left corner."""
    from kivy.graphics.opengl import GL_RGB, GL_UNSIGNED_BYTE, glReadPixels

    data = glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE)
    rows = [data[at : at + width * 3] for at in range(0, len(data), width * 3)]
    packed = zlib.compress(b"".join(b"\0" + row for row in reversed(rows)))
    size = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    parts = ((b"IHDR", size), (b"IDAT", packed), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, body) for kind, body in parts)


def _chunk(kind: bytes, body: bytes) -> bytes:
    check = struct.pack(">I", zlib.crc32(kind + body))
    return struct.pack(">I", len(body)) + kind + body + check


if __name__ == "__main__":
    main(Path(sys.argv[1]), *sys.argv[2:3])
