"""Numbers of things as a command says them."""

from __future__ import annotations


def counted(number: int, one: str) -> str:
    """So many of something."""
    return f"{number} {one}" if number == 1 else f"{number} {one}s"
