"""What is read beside a step opens by one touch, sends nothing, and goes when something happens."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.inputs import SomethingWrong

TITLE = "Set the depth stop"


@pytest.fixture
def view():
    from tests.screens.gallery import views

    return views()["step"]


def texts(it):
    from kiosk.screens.parts.text import Text

    return [w.text for w in it.face.walk(restrict=True) if isinstance(w, Text)]


def sentences(it):
    return next(target for target in it.face.stage.targets if target.look == "words")


@pytest.mark.parametrize("label", ["Why?", "How was this worked out?"])
def test_one_touch_opens_it_and_one_closes_it_and_nothing_is_sent(hand, view, label):
    it = hand(view=view)

    it.tap(label)
    it.wait(1.0)
    opened = texts(it)
    it.tap("Back")
    it.wait(1.0)

    assert TITLE not in opened
    assert TITLE in texts(it)
    assert it.posted == []


def test_touching_the_sentences_opens_the_shop_words(hand, view):
    it = hand(view=view)

    it.tap(sentences(it))

    assert "The sharp tool that cuts." in texts(it)
    assert it.posted == []


def test_the_sentences_are_a_target_large_enough(hand, view):
    from kiosk.screens.theme import SEVEN_INCH

    it = hand(view=replace(view, lines=("Take the bit.",)))

    assert min(sentences(it).size) >= 15 * SEVEN_INCH.px_per_mm


def test_every_shop_word_is_underlined_where_it_stands(hand, view):
    from kiosk.screens.parts.rules import Rules

    it = hand(view=view)

    rules = [w for w in it.face.walk(restrict=True) if isinstance(w, Rules)]

    assert sum(len(one._shown[0]) for one in rules) == 3  # bit, work, scale


def test_a_shop_word_over_the_end_of_a_line_is_underlined_in_both():
    from kiosk.screens.layouts.listing import spans_of

    text = "Set the depth\nstop now."

    assert [text[a:b] for a, b in spans_of(text, ("depth stop", "depth"))] == ["depth\nstop"]


@pytest.mark.parametrize("what", ["note", "answer", "title"])
def test_it_goes_away_when_something_happens(hand, view, what):
    it = hand(view=view)
    it.tap("Why?")

    it.show(replace(view, number=900, **{what: "Something new."}))

    assert "Something new." in texts(it)


def test_a_reading_alone_leaves_it_open(hand, view):
    it = hand(view=view)
    it.tap("Why?")

    it.show(replace(view, head=replace(view.head, isolator="on"), number=900, seq=9))

    assert TITLE not in texts(it)


def test_something_wrong_still_answers_from_it(hand, view):
    it = hand(view=view)
    it.tap("Why?")

    it.tap("Something wrong?")

    assert it.touches == [SomethingWrong()]


def test_a_bounce_after_opening_does_not_close_it(hand, view):
    it = hand(view=view)

    it.tap("Why?")
    it.tap("Back")

    assert TITLE not in texts(it)
