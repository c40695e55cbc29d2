"""Every drawing on a few pages, to be judged by eye: `python -m tests.drawings.contact_sheet DIR`.

One page for the steps and one for the shop words at each panel's card. `--language pl` and
`--plan NAME` choose; further words choose drawings whose names hold them.
"""

from __future__ import annotations

from pathlib import Path

import click
from PIL import Image, ImageDraw, ImageFont

from kiosk.content import load
from kiosk.core.view import Picture
from kiosk.core.words import Words
from kiosk.drawings import PICTURES, draw
from kiosk.drawings.fonts import fonts
from kiosk.drawings.svg import COLOURS
from tests.drawings.measuring import CARDS, WORD_CARDS
from tests.drawings.painting import paint
from tests.drawings.plans import PLANS

GAP, LINE = 14, 26
SEQUENCES = Path(__file__).parents[2] / "sequences"


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.argument("wanted", nargs=-1)
@click.option("--across", default=6, show_default=True, help="Drawings in a row.")
@click.option("--card", default="", help="One of the cards only.")
@click.option("--language", default="en", show_default=True)
@click.option("--plan", type=click.Choice(list(PLANS)), default="steel", show_default=True)
def main(
    folder: Path, wanted: tuple[str, ...], across: int, card: str, language: str, plan: str
) -> None:
    """Write the pages as PNG files into FOLDER and say where."""
    folder.mkdir(parents=True, exist_ok=True)
    words = load(SEQUENCES).words.of(language)
    names = [name for name in PICTURES if not wanted or any(word in name for word in wanted)]
    shop = [name for name in names if name.startswith("word_")]
    steps = [name for name in names if name not in shop]
    for cards, page, shown in ((CARDS, "steps", steps), (WORD_CARDS, "words", shop)):
        for called, size in cards.items():
            if shown and card in ("", called):
                cells = [_cell(name, plan, words, *size) for name in shown]
                path = folder / f"{page}-{called}-{language}-{plan}.png"
                _page(cells, across).save(path)
                click.echo(path)


def _cell(
    name: str, plan: str, words: Words, width: float, height: float, px_per_mm: float
) -> Image.Image:
    image = paint(draw(Picture(name, PLANS[plan]), width, height, words), px_per_mm)
    cell = Image.new("RGB", (image.width, image.height + LINE), COLOURS["line"])
    cell.paste(image, (0, LINE))
    font = ImageFont.truetype(fonts().of(400), 18)
    ImageDraw.Draw(cell).text((4, 2), name, COLOURS["ink"], font)
    return cell


def _page(cells: list[Image.Image], most: int) -> Image.Image:
    wide, tall = (max(size) for size in zip(*(cell.size for cell in cells), strict=True))
    across = min(most, len(cells))
    rows = -(-len(cells) // across)
    size = across * (wide + GAP) + GAP, rows * (tall + GAP) + GAP
    page = Image.new("RGB", size, COLOURS["line"])
    for at, cell in enumerate(cells):
        row, column = divmod(at, across)
        page.paste(cell, (GAP + column * (wide + GAP), GAP + row * (tall + GAP)))
    return page


if __name__ == "__main__":
    main()
