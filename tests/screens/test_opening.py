"""What stands until the kiosk is ready: the drill and a bar that fills, on both panels."""

from __future__ import annotations

import pytest

pytestmark = pytest.mark.window


@pytest.mark.parametrize("name", ["7", "10.1"])
def test_the_drill_and_its_bar_stand_in_the_middle_of_the_panel(window, name):
    from kiosk.screens.opening import Opening
    from kiosk.screens.theme import PANELS

    opening = Opening(PANELS[name])
    opening.pos = (0, 30)

    for part in opening.children:
        assert opening.x < part.x and part.right < opening.right
        assert opening.y < part.y and part.top < opening.top
        assert abs(part.center_x - opening.center_x) <= 1
    sign, bar = opening.children[::-1]
    assert bar.top < sign.y
