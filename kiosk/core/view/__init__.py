"""The state of the kiosk as one screen's value, in the words of one language."""

from __future__ import annotations

from kiosk.core.view.shape import (
    AT_REST,
    SCREENS,
    Aside,
    Band,
    Button,
    Head,
    Keys,
    Pad,
    Picture,
    Progress,
    Rail,
    ShopWord,
    View,
)
from kiosk.core.view.show import show

__all__ = [
    "AT_REST",
    "SCREENS",
    "Aside",
    "Band",
    "Button",
    "Head",
    "Keys",
    "Pad",
    "Picture",
    "Progress",
    "Rail",
    "ShopWord",
    "View",
    "show",
]
