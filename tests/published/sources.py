"""Rows of published figures: which sum each belongs to, so that they can be counted.

A row's id is `sum-SOURCE-n`, where n counts within its source. Where a published answer is itself
rounded, its tolerance says so. Figures quoted from memory are marked beside them, and so are
those that were worked out by the source's formula because it prints no example.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from typing import Any

import pytest

IDS_BY_SUM: dict[str, list[str]] = defaultdict(list)

M_PER_FOOT = 0.3048
N_PER_POUND = 4.448222
NM_PER_INCH_POUND = 0.1129848
W_PER_HORSEPOWER = 745.7


def published(sum_of: str, names: str, rows: Sequence[Any]) -> Callable[[Any], Any]:
    """Runs a test once for each row, and counts the rows under the name of their sum."""
    IDS_BY_SUM[sum_of] += [str(row.id) for row in rows]
    return pytest.mark.parametrize(names, rows)


def feet(per_min: float) -> float:
    """Feet a minute as metres a minute."""
    return per_min * M_PER_FOOT


def inch(inches: float) -> float:
    """Inches as millimetres."""
    return inches * 25.4
