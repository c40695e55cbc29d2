"""The table's height with a vice: the work lies on the vice's bed, to scale."""

from __future__ import annotations

import pytest

from kiosk.core.view import Picture
from kiosk.drawings import Drawing, draw
from kiosk.drawings.shapes import Area
from tests.core.story import WORDS
from tests.drawings.measuring import CARDS, areas, size_of
from tests.drawings.plans import STEEL, with_values, without
from tests.drawings.test_to_scale import SHEETS, heights, lengths, work_of


@pytest.mark.parametrize("sheet", SHEETS, ids=CARDS)
def test_work_in_a_vice_stands_off_the_table_by_the_vices_bed(sheet: tuple[float, float]) -> None:
    mm = lengths(STEEL)

    drawing = draw(Picture("table", STEEL), *sheet, WORDS)

    work, vice = work_of(drawing, mm["thickness"]), heights(vices_of(drawing)[0])
    scale = (heights(work)[1] - heights(work)[0]) / mm["thickness"]
    assert (vice[1] - vice[0]) / scale == pytest.approx(mm["vice_bed"], rel=0.01)
    board = min(areas(drawing, "wood"), key=lambda each: heights(each)[0])
    assert heights(board)[1] == pytest.approx(vice[0])


def test_work_under_clamps_lies_on_the_table() -> None:
    clamped = with_values(without(STEEL, "vice_bed"), way="clamps")

    assert vices_of(draw(Picture("table", clamped), 60.4, 54.5, WORDS)) == []


def vices_of(drawing: Drawing) -> list[Area]:
    """The body of the vice on the table: wide and plain, where the column is narrow."""
    return [s for s in areas(drawing, "line") if len(s.points) == 4 and size_of(s)[0] > 10]
