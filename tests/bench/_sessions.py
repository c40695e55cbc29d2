"""Whole turns on a real screen, one after the other, and what memory they leave behind.

`python -m tests.bench._sessions WARM COUNT` prints megabytes after WARM turns, then after COUNT.
The turns are the real `decide`, `advance` and `show` over the shipped content; every view of them
is drawn.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from itertools import count
from typing import Any

from kiosk.core.inputs import LeavePage, PickJob, PickPupil
from tests.core.story import Story, drill_one_hole, lesson_open
from tests.holding import own_mb
from tests.screens import window as display

NUMBERS = (14, 21, 5, 9)
JOB = PickJob("hook_bar", 0)


class Turns:
    """Turns of pupils in a lesson; each view is shown as it comes."""

    def __init__(self, face: Any, frame: Any) -> None:
        self._face, self._frame = face, frame
        self._numbers = count(1)
        self._story = lesson_open()
        self._at = 0

    def look(self, story: Story) -> None:
        """Draw what stands."""
        self._face.show(replace(story.view, number=next(self._numbers)))
        self._frame()

    def one(self) -> None:
        """A whole turn, from the number to the next person; a new lesson where one has ended."""
        number = PickPupil(NUMBERS[self._at % len(NUMBERS)])
        self._at += 1
        if number not in [button.touch for button in self._story.buttons()]:
            self._story = lesson_open()
        story = self._story
        story.touch(number)
        self.look(story)
        if JOB in [button.touch for button in story.buttons()]:
            story.touch(JOB)
        while story.view.screen != "finished":
            self.look(story)
            self._go_on(story)
        self.look(story)
        story.touch(LeavePage())
        self.look(story)
        story.record.clear()

    def _go_on(self, story: Story) -> None:
        if story.view.screen == "adult_check":
            story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
            self.look(story)
            story.pin()
        elif story.view.screen == "drilling":
            drill_one_hole(story)
        else:
            story.do_step()


def main(warm: int, many: int) -> None:
    """Play, and print both figures."""
    reason = display.why_no_window()
    if reason:
        sys.exit(reason)
    window = display.open_window()
    from tests.screens.hand import Hand

    hand = Hand(window)
    turns = Turns(hand.face, hand.frame)
    for turn in range(warm + many):
        if turn == warm:
            print(own_mb(), flush=True)
        turns.one()
        hand.heard.clear()
    print(own_mb(), flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
