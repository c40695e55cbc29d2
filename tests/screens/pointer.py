"""The pointer's picture, asked of the X server itself."""

from __future__ import annotations

import ctypes
from ctypes import POINTER, Structure, c_char_p, c_short, c_ulong, c_ushort, c_void_p


class Picture(Structure):
    """XFixesCursorImage, as far as it is needed."""

    _fields_ = [
        ("x", c_short),
        ("y", c_short),
        ("width", c_ushort),
        ("height", c_ushort),
        ("xhot", c_ushort),
        ("yhot", c_ushort),
        ("serial", c_ulong),
        ("pixels", POINTER(c_ulong)),
    ]


def pointer_pixels(display: str) -> int:
    """How many pixels of the pointer can be seen at all."""
    x11, fixes = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXfixes.so.3")
    x11.XOpenDisplay.restype, x11.XOpenDisplay.argtypes = c_void_p, [c_char_p]
    fixes.XFixesGetCursorImage.restype = POINTER(Picture)
    fixes.XFixesGetCursorImage.argtypes = [c_void_p]
    opened = x11.XOpenDisplay(display.encode())
    picture = fixes.XFixesGetCursorImage(opened).contents
    seen = sum(
        bool(picture.pixels[at] & 0xFF000000) for at in range(picture.width * picture.height)
    )
    x11.XCloseDisplay.argtypes = [c_void_p]
    x11.XCloseDisplay(opened)
    return seen
