"""Printed sheets: values from content, as one page that opens anywhere and as PDF.

A sheet is made from the same content as the screens, so a change of a control measure, a step or
a machine changes all of them. The page needs no network: its drawings and its style stand in it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from kiosk.export.sheets.accident import accident_form
from kiosk.export.sheets.card import lesson_card
from kiosk.export.sheets.fitting import fitting_sheet
from kiosk.export.sheets.printing import as_page, pdf_of
from kiosk.export.sheets.risk import risk_record
from kiosk.export.sheets.values import PAPERS, Asked, NoSheet
from kiosk.export.sheets.wall import wall_sheet

KINDS: Mapping[str, Callable[[Asked], Any]] = MappingProxyType(
    {
        "assessment": risk_record,
        "wall": wall_sheet,
        "card": lesson_card,
        "commissioning": fitting_sheet,
        "accident": accident_form,
    }
)
FOR_ONE_MACHINE = ("wall", "card", "commissioning")


def page_of(kind: str, asked: Asked) -> str:
    """The sheet of that kind as one HTML page. Raises NoSheet where it can't be made."""
    return as_page(kind, KINDS[kind](asked), asked)


__all__ = ["FOR_ONE_MACHINE", "KINDS", "PAPERS", "Asked", "NoSheet", "page_of", "pdf_of"]
