"""A display can be had on demand, and one of each size is enough."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable

import pytest

from demo.displays import Displays, NoDisplay


@pytest.mark.window
def test_a_display_has_the_size_that_was_asked_for(displays: Callable[[int, int], str]) -> None:
    name = displays(800, 480)

    environment = {**os.environ, "DISPLAY": name}
    words = ["xdotool", "getdisplaygeometry"]
    done = subprocess.run(words, env=environment, capture_output=True, text=True, check=True)

    assert done.stdout == "800 480\n"
    assert displays(800, 480) == name


def test_without_xvfb_the_reason_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "/nowhere")

    with Displays() as displays, pytest.raises(NoDisplay, match=r"sh tests/run\.sh installs it"):
        displays.of(800, 480)
