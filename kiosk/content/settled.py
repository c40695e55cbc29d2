"""Whether what a settings' file names can be: folders, files, a port, a database's address.

Names of machines and languages are held against the content when that is read: see `starting`.
Whether the folder for downloads is there is said when one is made: it may be mounted late, and no
lesson waits for it.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from kiosk.content.written import Text
from kiosk.core.problems import Place, Problem

_FEED = re.compile(
    r"postgresql\+psycopg://([^/?#\s]*@)?([^:@/?#\s]*|\[[0-9A-Fa-f:]+\])(:\d+)?/[^/?#\s]+(\?\S*)?"
)
_ADDRESS = "postgresql+psycopg://NAME@HOST/DATABASE"


def amiss(file: Path, written: Mapping[str, Text]) -> Iterator[Problem]:
    """Each setting that names what can't be, with its line. The others are as they should be."""
    for key, value in written.items():
        found, allowed = _found(file, key, value)
        if found:
            yield Problem(Place(value.file, value.line), f"{key}: {found}", allowed)


def _found(file: Path, key: str, value: Text) -> tuple[str, str]:
    """What is wrong with one, and what is allowed; nothing if it is right."""
    path = file.parent / value
    match key:
        case "school" if not os.path.isdir(path):
            return f"there is no folder {path}", "a folder that is there"
        case "roster" if not os.path.isfile(path):
            return f"there is no file {path}", "a workbook (.xlsx) or a CSV file"
        case "record" if not os.path.isdir(path.parent):
            return f"there is no folder {path.parent}", "a file in a folder that is there"
        case "record" if os.path.isdir(path):
            return f"{path} is a folder", "a file in a folder that is there"
        case "port" if not value.startswith("/"):
            return f"{value} is no path", "such as /dev/serial/by-id/usb-..."
        case "feed" if not _FEED.fullmatch(value):
            return f"{_without_password(value)} is no address of a database", _ADDRESS
    return "", ""


def _without_password(address: str) -> str:
    """The address for a screen that everybody sees."""
    hidden = re.sub(r"^(.*?://)?.*@", r"\1...@", address)
    return re.sub(r"(password=)[^&\s]*", r"\1...", hidden)
