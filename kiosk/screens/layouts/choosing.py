"""Choices as a grid: as large as the box allows, turned by pages below the least size."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from kiosk.core.view import Button
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.paging import page_keys, page_width
from kiosk.screens.layouts.stage import LETTERED, PICTURED, Stage

MOST_COLUMNS = 12


@dataclass(frozen=True)
class Grid:
    """So many columns and rows of cells, at one text size."""

    columns: int
    rows: int
    cell_w: float
    cell_h: float
    size: int

    @property
    def holds(self) -> int:
        """How many cells there are on one page."""
        return self.columns * self.rows


def put_choices(stage: Stage, choices: tuple[Button, ...], box: Box) -> None:
    """Put choices into a box."""
    grid = best_grid(stage, choices, box)
    if grid is not None and grid.holds >= len(choices):
        _put(stage, choices, box, grid)
        return
    keys, box = stage.cut_far(box, page_width(stage), gap(stage) * 2)
    _put_page(stage, choices, box, keys)


def _put_page(stage: Stage, choices: tuple[Button, ...], box: Box, keys: Box) -> None:
    grid = fullest(stage, choices, box)
    pages = ceil(len(choices) / grid.holds)
    at = min(stage.typed.page, pages - 1)
    page_keys(stage, keys, at, pages)
    _put(stage, choices[at * grid.holds : (at + 1) * grid.holds], box, grid)


def gap(stage: Stage) -> int:
    """Pixels between two cells."""
    return stage.theme.mm(1.5)


def _put(stage: Stage, choices: tuple[Button, ...], box: Box, grid: Grid) -> None:
    step_x, step_y = grid.cell_w + gap(stage), grid.cell_h + gap(stage)
    for at, button in enumerate(choices):
        row, column = divmod(at, grid.columns)
        cell = Box(box.x + column * step_x, box.y + row * step_y, grid.cell_w, grid.cell_h)
        stage.button(button, cell, role_of(button), grid.size)


def role_of(button: Button) -> str:
    """The role of a choice's label."""
    if button.look == "number":
        return "number"
    return "caption" if button.picture else "choice"


def best_grid(stage: Stage, choices: tuple[Button, ...], box: Box) -> Grid | None:
    """The grid with the largest cells that holds all choices, or None."""
    grids = [grid for grid in _grids(stage, choices, box) if grid.holds >= len(choices)]
    if not grids:
        return None
    if choices[0].look == "number":
        return max(grids, key=_squareness)
    return _calmest(grids, choices)


def _squareness(grid: Grid) -> float:
    return min(grid.cell_w, grid.cell_h * 1.25)


def _calmest(grids: list[Grid], choices: tuple[Button, ...]) -> Grid:
    """Large text first, then few empty cells, then wide cells."""
    if any(button.picture for button in choices):
        return max(grids, key=lambda grid: (grid.size, min(grid.cell_w, 1.6 * grid.cell_h)))
    return max(grids, key=lambda grid: (grid.size, -(grid.holds - len(choices)), grid.cell_w))


def fullest(stage: Stage, choices: tuple[Button, ...], box: Box) -> Grid:
    """The grid that holds most on one page."""
    grids = _grids(stage, choices, box)
    return max(grids, key=lambda grid: (grid.holds, grid.size))


def _grids(stage: Stage, choices: tuple[Button, ...], box: Box) -> list[Grid]:
    found = []
    for columns in range(1, MOST_COLUMNS + 1):
        width = (box.w - gap(stage) * (columns - 1)) / columns
        if width < stage.theme.target and columns > 1:
            break
        size = _size(stage, choices, width, columns)
        found.append(_grid(stage, choices, box, columns, width, size))
    return found


def _beside(choices: tuple[Button, ...]) -> float:
    """Millimetres left free at each side of a label."""
    return (PICTURED if any(one.picture for one in choices) else LETTERED)[0]


def _size(stage: Stage, choices: tuple[Button, ...], width: float, columns: int) -> int:
    """The largest text size at which every label fits in two lines; 0 if none does."""
    inner = width - 2 * stage.theme.mm(_beside(choices))
    sizes = stage.sizes(role_of(choices[0]), bare=True)
    for size in sizes:
        sets = [stage.measure(one.label, role_of(one), inner, size) for one in choices]
        if all(len(done.lines) <= 2 and not done.broken for done in sets):
            return size
    return sizes[-1] if columns == 1 else 0


def _grid(
    stage: Stage, choices: tuple[Button, ...], box: Box, columns: int, width: float, size: int
) -> Grid:
    if not size:
        return Grid(columns, 0, width, 0, 0)
    least = _least_height(stage, choices, width, size)
    rows = max(1, int((box.h + gap(stage)) // (least + gap(stage))))
    needed = min(rows, ceil(len(choices) / columns))
    height = (box.h - gap(stage) * (needed - 1)) / needed
    return Grid(columns, rows, width, min(height, _most_height(stage, choices, least)), size)


def _least_height(stage: Stage, choices: tuple[Button, ...], width: float, size: int) -> float:
    inner = width - 2 * stage.theme.mm(_beside(choices))
    words = max(stage.measure(one.label, role_of(one), inner, size).height for one in choices)
    if any(one.picture for one in choices):
        words += stage.theme.room(5.6)
    return max(stage.theme.target, words + 2 * stage.theme.mm(1))


def _most_height(stage: Stage, choices: tuple[Button, ...], least: float) -> float:
    if any(one.picture for one in choices):
        return max(least, stage.theme.room(38))
    return max(least, stage.theme.room(19 if choices[0].look == "number" else 17))
