"""Whether a word is one of those there are, and where a word was written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kiosk.core.problems import Place, Problem, nearest


def known(place: Place, what: str, found: str, allowed: Iterable[str]) -> Iterator[Problem]:
    """A problem unless `found` is one of the words allowed."""
    words = tuple(allowed)
    if found not in words:
        listed = ", ".join(words)
        yield Problem(place, f"{what} {str(found)!r}", listed, nearest(found, words))


def place_of(written: object, other: Place) -> Place:
    """Where a text was written; `other` where the text does not know it."""
    file, line = getattr(written, "file", ""), getattr(written, "line", 0)
    return Place(file or other.file, line or other.line)
