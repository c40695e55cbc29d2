"""A sheet's values on a page, and the page as PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from kiosk.drawings.fonts import Fonts, fonts
from kiosk.export.pages import PAGES
from kiosk.export.sheets.values import Asked

WEIGHTS = (400, 700)


def as_page(kind: str, sheet: Any, asked: Asked) -> str:
    """The values on the page of their kind, in the language and on the paper asked for."""
    template = PAGES.get_template(f"sheets/{kind}.html")
    return template.render(
        sheet=sheet,
        say=asked.words.say,
        language=asked.words.language,
        paper=asked.paper,
    )


def pdf_of(page: str) -> bytes:
    """A sheet's page as PDF, in the letters of the screens."""
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration

    known = FontConfiguration()
    letters = CSS(string=_faces(fonts()), font_config=known)
    made: bytes = HTML(string=page).write_pdf(stylesheets=[letters], font_config=known)
    return made


def _faces(letters: Fonts) -> str:
    """The typeface by file, so that no font of the computer is asked for."""
    files = ((weight, Path(letters.of(weight)).as_uri()) for weight in WEIGHTS)
    return "".join(
        f"@font-face {{ font-family: Inter; font-weight: {weight}; src: url('{file}'); }}\n"
        for weight, file in files
    )
