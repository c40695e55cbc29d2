"""The few words that the screens say by themselves; all others come in the View."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Labels:
    """Words of one language for keys that belong to the screens, and letters of its keyboard."""

    space: str = "space"
    digits: str = "123"
    letters: str = "abc"
    rows: tuple[str, str, str] = ("qwertyuiop", "asdfghjkl'", "zxcvbnm,.")
    digit_rows: tuple[str, str, str] = ("1234567890", '-/:;()&+="', "?!%#@*_,.")
    fault_title: str = "This screen has a fault"
    fault_lines: tuple[str, ...] = (
        "Lift clear. Press the red stop.",
        "Then tell an adult.",
    )
