"""Read aloud: the screens tell of each new view, and have a key to hear it again."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.view import Aside


@pytest.fixture
def step():
    from tests.screens.gallery import views

    why = Aside("Why?", "Why?", "Back", ("A loose bit flies out.",))
    return replace(views()["step_plain"], aloud=True, asides=(why,))


@pytest.fixture
def listened(hand, step):
    """A panel that somebody reads aloud, and what was told."""
    it = hand(view=step)
    it.heard.clear()
    return it, it.heard


def speaker(it):
    signs = [t for t in it.face.stage.targets if t.mark.parent and t.mark.name == "speaker"]
    return signs[0] if signs else None


def test_each_new_view_is_told_of_once(listened, step):
    it, told = listened

    it.show(replace(step, seq=9))
    it.show(replace(step, title="Next"))

    assert [view.title for view in told] == ["Next"]


def test_the_key_has_it_read_again_and_sends_nothing(listened, step):
    it, told = listened

    it.tap(speaker(it))

    assert told == [step]
    assert it.touches == []


def test_what_is_opened_beside_a_step_is_read_too(listened):
    it, told = listened

    it.tap("Why?")

    assert told[-1].title == "Why?"
    assert told[-1].lines == ("A loose bit flies out.",)


def test_where_nobody_can_read_there_is_no_key(hand, step):
    it = hand()
    it.face.stage.speak = None
    it.show(step)

    assert speaker(it) is None
