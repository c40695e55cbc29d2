"""Every screen name has a layout, and every sample view fits every panel at every size."""

from __future__ import annotations

import re

import pytest

from kiosk.core.view import SCREENS

PAGE = re.compile(r"[0-9]+/[0-9]+")

PANELS = ("7 inch", "10.1 inch")
SCALES = (1.0, 1.3)


def test_every_screen_name_has_a_layout(window):
    from kiosk.screens.layouts import LAYOUTS

    assert set(LAYOUTS) == set(SCREENS)


def test_the_gallery_holds_every_screen_name():
    from tests.screens.gallery import views

    assert {view.screen for view in views().values()} == set(SCREENS)


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("name", PANELS)
def test_no_view_of_the_gallery_has_a_geometry_problem(hand, name, scale):
    from kiosk.screens.geometry import problems
    from kiosk.screens.theme import PANELS as KNOWN
    from tests.screens.gallery import views

    panel = next(panel for panel in KNOWN.values() if panel.name == name)
    it = hand(panel=panel, scale=scale)

    found = {}
    for name_of, view in views().items():
        it.show(view)
        wrong = problems(it.face, panel)
        if wrong:
            found[name_of] = wrong

    assert found == {}


@pytest.mark.parametrize("scale", SCALES)
def test_every_page_of_a_long_list_fits_too(hand, scale):
    from kiosk.screens.geometry import problems
    from kiosk.screens.theme import SEVEN_INCH
    from tests.screens.gallery import views

    it = hand(scale=scale, view=views()["form_many"])

    seen = set()
    for _ in range(40):
        seen |= {target.words for target in it.face.stage.targets}
        assert problems(it.face, SEVEN_INCH) == []
        down = [target for target in it.face.stage.targets if target.look == "key"][1]
        if not down.live:
            break
        it.wait(1.0)
        it.tap(down)
        it.frame()

    assert {choice.label for choice in views()["form_many"].choices} <= seen


def test_the_panels_have_the_agreed_pixels():
    from kiosk.screens.theme import SEVEN_INCH, TEN_INCH, Theme

    seven, ten = Theme(SEVEN_INCH), Theme(TEN_INCH)

    assert (seven.target, ten.target) == (79, 89)  # 15 mm at 5.25 and 5.88 pixels a millimetre
    assert seven.pin_key == 90  # 17 mm
    assert seven.font("body") == 26  # 3.5 mm capitals: 20 arc minutes at 600 mm
    assert seven.font("title") == 31


def test_large_text_is_three_tenths_larger():
    from kiosk.screens.theme import LARGE, SEVEN_INCH, Theme

    plain, large = Theme(SEVEN_INCH), Theme(SEVEN_INCH, LARGE)

    assert large.font("body") / plain.font("body") == pytest.approx(1.3, abs=0.04)
    assert large.least_font("body") > plain.font("body")


def test_a_view_that_asks_for_large_text_gets_it(hand):
    from dataclasses import replace

    from tests.screens.gallery import views

    view = views()["idle_closed"]
    it = hand(view=view)
    before = it.target("Teacher: open a lesson").label.font_size

    it.show(replace(view, large=True))

    assert it.target("Teacher: open a lesson").label.font_size > before * 1.2


def test_the_main_button_waits_until_every_page_was_looked_at(hand):
    from dataclasses import replace

    from tests.screens.gallery import views

    view = views()["adult_check_long"]
    it = hand(view=replace(view, lines=view.lines * 2))
    before = it.target("Adult: name and PIN").live

    it.tap(next(t for t in it.face.stage.targets if t.look == "key" and t.live))
    it.wait(1.0)
    while not it.target("Adult: name and PIN").live:
        keys = [t for t in it.face.stage.targets if t.look == "key" and t.live]
        it.tap(keys[-1])
        it.wait(1.0)

    assert not before
    assert it.touches == []


def test_the_drilling_screen_never_has_pages(hand):
    from tests.screens.gallery import views

    it = hand(scale=1.3, view=views()["drilling"])

    labels = {target.words for target in it.face.stage.targets}

    assert labels == {"Something wrong?", "Stopped and still? Then touch here."}


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("length", [1, 3, 6], ids=["with room", "full", "in pages"])
def test_a_note_keeps_its_caution_box_where_it_stands_among_the_lines(hand, length, scale):
    from dataclasses import replace

    from kiosk.screens.parts.plate import Plate
    from kiosk.screens.parts.text import Text
    from tests.screens.gallery import views

    note = "Sharp and hot at the hole. Wash your hands."
    lines = ("Brush the swarf off. Never use your hand.",) * length
    it = hand(scale=scale, view=replace(views()["step"], lines=lines, note=note, asides=()))
    while keys := [t for t in it.face.stage.targets if t.look == "key" and t.live][-1:]:
        if any(_reads(part, note) for part in it.face.walk()):
            break
        it.tap(keys[0])
        it.wait(1.0)

    (text,) = [part for part in it.face.walk() if isinstance(part, Text) and _reads(part, note)]
    plates = [part for part in it.face.walk() if isinstance(part, Plate)]

    assert any(plate.collide_point(*text.center) for plate in plates)


def _reads(part, words):
    return getattr(part, "text", "").replace("\n", " ") == words


@pytest.mark.parametrize("scale", ["plain", "large"])
def test_no_drawing_costs_a_page_however_wide_it_may_be(hand, scale, monkeypatch):
    from kiosk.screens.layouts import body
    from kiosk.screens.theme import LARGE
    from tests.screens.gallery.told import told

    steps = [view for view in told("en").values() if view.picture and view.lines][::3]
    told_of = {}

    for parts in (body.PICTURE_PARTS, body.PICTURE_PARTS[-1:]):
        monkeypatch.setattr(body, "PICTURE_PARTS", parts)
        it = hand(scale=LARGE if scale == "large" else 1.0)
        told_of[parts] = [_pages(it, view) for view in steps]
        it.leave()

    wide, narrow = told_of.values()
    more = [v.title for v, a, b in zip(steps, wide, narrow, strict=True) if a > b]
    assert len(steps) > 100
    assert more == []


def _pages(it, view):
    """How many pages the lines of a view stand on."""
    from kiosk.screens.parts.text import Text

    it.show(view)
    said = (w.text for w in it.face.walk(restrict=True) if isinstance(w, Text))
    return max((int(text.split("/")[1]) for text in said if PAGE.fullmatch(text)), default=1)


@pytest.mark.parametrize("scale", SCALES)
def test_a_two_digit_step_keeps_off_the_panels_edge_in_either_hand(hand, scale):
    from dataclasses import replace

    from kiosk.core.view import Rail
    from kiosk.screens.parts.text import Text
    from tests.screens.gallery import views

    view = replace(views()["step"], rail=Rail(20, 24))

    for left in (False, True):
        it = hand(scale=scale, left=left)
        it.show(view)
        number = next(p for p in it.face.children if isinstance(p, Text) and p.text == "20")
        free = min(number.x - it.face.x, it.face.right - number.right)
        assert free >= 1.2 * it.face.panel.px_per_mm, f"left hand: {left}"
        it.leave()


def test_a_list_stays_on_its_page_when_one_of_it_is_ticked(hand):
    from dataclasses import replace

    from tests.screens.gallery import views

    view = views()["form_many"]
    it = hand(view=view)
    marked = (target for target in it.face.stage.targets if target.live and target.mark.parent)
    it.tap(next(target for target in marked if target.mark.name == "down"))
    page = {target.words for target in it.face.stage.targets}
    first, *others = view.choices

    it.show(replace(view, choices=(replace(first, look="picked"), *others), number=2))

    assert {target.words for target in it.face.stage.targets} == page
    assert first.label not in page


def test_a_note_while_drilling_leaves_the_drawing_its_place(hand):
    from dataclasses import replace

    from kiosk.screens.parts.sheet import Sheet
    from kiosk.screens.theme import PANELS as KNOWN
    from tests.screens.gallery import views

    start, slowly = (
        "Isolator to I. Press start. Wait for full speed.",
        "Ease off as it breaks through.",
    )
    lines = (
        start,
        "Press gently and evenly.",
        slowly,
        "Lift right up. Red stop.",
        "Wait till still.",
    )
    view = replace(views()["drilling"], lines=lines, note="Ms Invented stays at the drill.")

    for panel in KNOWN.values():
        it = hand(panel=panel, view=view)
        assert any(isinstance(part, Sheet) for part in it.face.children), panel.name
        it.leave()
