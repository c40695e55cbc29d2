"""The touches of a turn on the panel itself: a finger finds each target where it is drawn.

Every tap counts: the keys that turn pages until a button answers, the adult's name, each digit.
Small: English on the smaller panel. Full: every language on both panels.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import TYPE_CHECKING, Any

import pytest

from kiosk.core.events import Event
from kiosk.core.inputs import PinChecked, Touch
from kiosk.core.model import Adult, Level
from kiosk.core.view import View, show
from kiosk.core.words import Words
from tests.core.counting import AT_DRILLS, Counted, workshop
from tests.core.story import TEACHER, WORDS

if TYPE_CHECKING:
    from tests.screens.hand import Hand

pytestmark = [pytest.mark.window, pytest.mark.timeout(3600)]
MOST_PAGES = 12


class AtThePanel(Counted):
    """A story whose touches are a finger's at a panel."""

    hand: Hand
    words: Words = WORDS

    @property
    def view(self) -> View:
        return show(self.shop, self.kiosk, self.words, self.now, self.refusal)

    def touch(self, touch: Touch) -> tuple[Event, ...]:
        """Turn pages until the target answers, and tap it."""
        self.look()
        for _ in range(MOST_PAGES):
            if target := self.answering(touch):
                break
            self.turn_page()
        else:
            raise AssertionError(f"{touch} never answers on {self.view.screen}")
        self.tap(target)
        return self.give(self.hand.touches[-1])

    def look(self) -> None:
        """Show what stands now; nobody is so quick that the screens hold the finger back."""
        if self.hand.face.view != self.view:
            self.hand.face.show(self.view)
        self.hand.wait(1.0)

    def answering(self, touch: Touch) -> Any:
        """The live target that sends a touch."""
        live = (target for target in self.hand.face.stage.targets if target.live)
        return next((t for t in live if getattr(t.act, "args", ()) == (touch,)), None)

    def turn_page(self) -> None:
        """Tap the key for the next page, or the one that goes round."""
        marked = [t for t in self.hand.face.stage.targets if t.live and t.mark.parent]
        self.tap(next(t for t in marked if t.mark.name == "down"))

    def tap(self, target: Any) -> None:
        """One touch of a finger."""
        self.touches += 1
        self.hand.tap(target)
        self.hand.wait(1.0)

    def pin(self, adult: Adult = TEACHER, right: bool = True, stay: int = 0) -> None:
        """Pick a name, ask to stay, type six digits."""
        self.pin_begun(adult)
        self.look()
        assert self.view.pad is not None
        asked = self.view.pad.stay_label.split()
        for words in (*[" ".join(asked)] * (stay and bool(asked)), *"482915"):
            self.tap(words)
        self.give(self.hand.touches[-1])
        self.give(PinChecked(adult.ref, right))

    def read_on(self) -> None:
        """Turn to the last page of what an adult is to look at."""
        self.look()
        while self.hand.face.stage.unseen:
            self.turn_page()


MOST = {"set-up": 30, "PIN": 10, "badge": 4, "spell": 4, "further hole": 2, "joining": 8}
LARGER = {"further hole": 3, "joining": 11}  # larger text turns pages that plain text does not


def counted(story: AtThePanel, job: str, hole: int) -> dict[str, int]:
    """The touches of each kind for one job at one drill."""
    story.lesson(*(name for where, (name, _) in AT_DRILLS if where == story.shop.machine.id))
    found = {"set-up": story.join(job, hole, Level.SHOWN) + story.by_pupil("adult_check")}
    found["PIN"] = story.ok_by_pin(stay=1)
    story.drill()
    if story.view.screen == "already_set":
        found["further hole"] = story.by_pupil("adult_check")
        spelled = bool(story.kiosk.lesson and story.kiosk.lesson.spell)
        found["spell" if spelled else "badge"] = (
            story.ok_in_a_spell() if spelled else story.ok_by_badge()
        )
        found["further hole"] += story.drill()
    story.finish()
    return {**found, "joining": max(joined(story, job, hole, level) for level in Level)}


def joined(story: AtThePanel, job: str, hole: int, level: Level) -> int:
    """The touches of a pupil of a level who joins the kept set-up, up to the check."""
    touches = story.join(job, hole, level) + story.by_pupil("adult_check", "drilling")
    assert story.kiosk.session and story.kiosk.session.path == "joining"
    story.finish()
    return touches


def manners(full: bool) -> Iterator[tuple[str, str, bool]]:
    """Panels, languages, and whether in larger text."""
    yield "7inch", "en", False
    if full:
        yield from product(("10inch",), WORDS.others, (False,))
        yield from product(("7inch",), [name for name in WORDS.others if name != "en"], (False,))
        yield from product(("7inch",), WORDS.others, (True,))


def test_a_turn_takes_no_more_touches_on_the_panel_than_a_lesson_has_time_for(hand, full, sum_up):
    from kiosk.screens.theme import LARGE, SEVEN_INCH, TEN_INCH

    most: dict[str, int] = {}
    for panel, language, large in manners(full):
        size = SEVEN_INCH if panel == "7inch" else TEN_INCH
        finger = hand(panel=size, scale=LARGE if large else 1.0)
        for machine, work in AT_DRILLS:
            story = AtThePanel(shop=workshop(machine))
            story.hand, story.words = finger, WORDS.of(language)
            for kind, touches in counted(story, *work).items():
                limit = {**MOST, **(LARGER if large else {})}[kind]
                assert 1 <= touches <= limit, (kind, panel, language, large, machine, work)
                most[kind] = max(touches * (not large), most.get(kind, 0))
        finger.leave()

    sum_up("touches: " + ", ".join(f"{kind} {touches}" for kind, touches in most.items()))
    assert set(most) == set(MOST)
