"""Meaning is never in colour alone: parts that differ in meaning differ in shape for every eye.

Pictures of the real parts are seen without red, without green and in grey (coloraide's filters).
Two that mean different things must differ by 3:1 over at least a fiftieth of their area, or say
so in words.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from kiosk.core.view import Band, Progress, Rail

LEAST = 0.02
BANDS = ("adult", "caution", "stop")


@pytest.fixture
def views():
    from tests.screens.gallery import views

    return views()


@pytest.fixture
def part(hand):
    """A picture of the first part of a kind on a screen."""
    from tests.screens.seen import box, picture

    def taken(view, kind):
        it = hand(view=view)
        it.frame()
        found = next(w for w in it.face.walk(restrict=True) if isinstance(w, kind))
        image = picture(it.face).crop(box(it.face, found))
        it.leave()
        return image

    return taken


def alike(pictures):
    """Pairs that an eye cannot tell apart by shape."""
    from tests.screens.seen import VISIONS, told_apart

    return [
        (one, two, vision)
        for one, two in combinations(sorted(pictures), 2)
        for vision in VISIONS
        if told_apart(pictures[one], pictures[two], vision) < LEAST
    ]


def test_the_knob_says_by_its_shape_what_the_isolator_reads(views, part):
    from kiosk.screens.parts.knob import Knob

    def knob(reading):
        return part(
            replace(views["step"], head=replace(views["step"].head, isolator=reading)), Knob
        )

    assert alike({name: knob(name) for name in ("off", "on", "unknown", "fault")}) == []


def test_every_band_has_a_sign_of_its_own_shape(views, part):
    from kiosk.screens.parts.mark import Mark

    def sign(look):
        return part(replace(views["step_plain"], band=Band(look, "One line.")), Mark)

    assert alike({look: _in_ink(sign(look)) for look in BANDS}) == []


def _in_ink(image):
    """A sign as a stencil, so that only its shape is left."""
    from PIL import Image

    grey = image.convert("L")
    middle = sum(grey.getextrema()) / 2
    corner = grey.getpixel((0, 0)) > middle
    return (
        grey.point(lambda v: 255 * ((v > middle) == corner))
        .convert("RGB")
        .resize((40, 40), Image.BOX)
    )


def test_every_sign_has_a_shape_of_its_own(hand):
    from kiosk.screens.parts.mark import MARKS, Mark
    from tests.screens.seen import box, picture

    it = hand()
    pictures = {}
    for name in MARKS:
        mark = Mark()
        mark.size, mark.pos = (60, 60), (300, 200)
        mark.show(name, "ink", "paper")
        it.face.add_widget(mark)
        it.frame()
        pictures[name] = picture(it.face).crop(box(it.face, mark))
        it.face.remove_widget(mark)

    assert alike(pictures) == []


def test_a_gauge_and_the_rail_show_how_far_by_length(views, part):
    from kiosk.screens.parts.gauge import Gauge
    from kiosk.screens.parts.rail import Column

    def gauge(done):
        return part(replace(views["download"], progress=Progress(done, 100, "events")), Gauge)

    def rail(at):
        return part(replace(views["step"], rail=Rail(at, 15)), Column)

    assert alike({f"{done} of 100": gauge(done) for done in (10, 50, 90)}) == []
    assert alike({f"step {at}": rail(at) for at in (1, 8, 15)}) == []


def test_a_target_that_waits_looks_otherwise_than_one_that_answers(views, part):
    from kiosk.screens.parts.press import Press

    plain = views["step_plain"]
    main = plain.buttons[-1]

    def button(live):
        view = replace(plain, head=replace(plain.head, wrong=None))
        return part(replace(view, buttons=(replace(main, live=live),)), Press)

    assert alike({"answers": button(True), "waits": button(False)}) == []


def test_a_picked_answer_says_so_in_its_words(places):
    picked = [b for s in places for b in s.view().choices if b.look == "picked"]

    assert picked
    assert all(button.label.startswith("✓") for button in picked)


def test_no_two_targets_of_a_screen_have_the_same_words(places):
    for state in places:
        view = state.view()
        words = [button.label for button in (*view.buttons, *view.choices)]
        assert len(words) == len(set(words)), words
