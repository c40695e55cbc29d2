"""A plan's values as its texts take them: ids and trade words as the language says them."""

from __future__ import annotations

from collections.abc import Mapping

from kiosk.core.machining.worked import Value
from kiosk.core.words import Words

_IDS = ("bit", "material", "way", "marking", "setting")


def named(values: Mapping[str, Value], words: Words) -> dict[str, Value]:
    """The values, with a name in place of an id where the language has one."""
    found = dict(values)
    for what in _IDS:
        found[what] = words.maybe(f"{what}.{values.get(what)}", **values) or values.get(what, "")
    return {what: value for what, value in found.items() if what in values}
