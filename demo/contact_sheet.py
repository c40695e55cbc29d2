"""One page of pictures with their names under them: all screens of a panel at a glance."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from kiosk.drawings.fonts import fonts

GROUND, INK = "#C9C5B8", "#1D2B36"
WIDTH, GAP, LETTERS = 400, 12, 15  # pixels
PAPER = 1.414  # how much wider than high: ISO 216


def contact_sheet(
    pictures: Sequence[Path], to: Path, columns: int = 0, width: int = WIDTH, named: bool = True
) -> None:
    """Put pictures of one size side by side, `width` pixels wide each; `named` by their files.

    Where no `columns` are asked for, the page has about the shape of paper lying down.
    """
    first = Image.open(pictures[0])
    high = round(first.height * width / first.width)
    step_x, step_y = width + GAP, high + GAP + named * (LETTERS + GAP // 2)
    columns = columns or max(6, round(sqrt(len(pictures) * PAPER * step_y / step_x)))
    rows = -(-len(pictures) // columns)
    across = min(columns, len(pictures))
    page = Image.new("RGB", (across * step_x + GAP, rows * step_y + GAP), GROUND)
    pen, letters = ImageDraw.Draw(page), ImageFont.truetype(fonts().of(400), LETTERS)
    for at, path in enumerate(pictures):
        x, y = GAP + at % columns * step_x, GAP + at // columns * step_y
        small = Image.open(path).convert("RGB").resize((width, high), Image.Resampling.LANCZOS)
        page.paste(small, (x, y))
        if named:
            pen.text((x, y + high + 2), path.stem, INK, letters)
    page.quantize(256, dither=Image.Dither.NONE).save(to, optimize=True)
