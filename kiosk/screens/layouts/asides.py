"""What may be read beside a step: its buttons on the bar, and the sheet that lies over the step.

Opening and closing it is the screens' own affair: nothing is sent, and a new view closes it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from kiosk.core.inputs import LeavePage
from kiosk.core.view import Aside, Button, Progress, ShopWord, View
from kiosk.drawings import PICTURES
from kiosk.screens.layouts import frame
from kiosk.screens.layouts.body import Manner, clear_of_head, put_body, title
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.paging import page_keys, page_width
from kiosk.screens.layouts.stage import Stage

LINES, LISTED = Manner(ready=True), Manner(marker="bullet", ready=True)
ROW_MM = 22.0  # of one shop word with its drawing


def open_aside(stage: Stage, view: View) -> Aside | None:
    """The aside that lies over a view, if one does."""
    at = stage.typed.aside
    return view.asides[at] if 0 <= at < len(view.asides) else None


def put_aside(stage: Stage, view: View, aside: Aside) -> None:
    """Put the sheet: head, band, what there is to read, and the one way back or how long yet."""
    if aside.seconds:
        view = replace(view, head=replace(view.head, stop=None))
    rest = frame.under_band(stage, view, frame.top(stage, view))
    ground, body = rest.cut_bottom(frame.bar_height(stage))
    if aside.words:
        _put_words(stage, aside, body.inset(stage.theme.mm(2.7), stage.theme.mm(1)))
    else:
        shown = replace(view, title=aside.title, lines=aside.lines, note="", choices=(), rail=None)
        manner = LISTED if any("\n" in line for line in aside.lines) else LINES
        waits = Progress(round(stage.waited), aside.seconds, "") if aside.seconds else None
        put_body(stage, replace(shown, asides=(), progress=waits), body, manner)
    if not aside.seconds:
        close = Button(aside.back, LeavePage())
        frame.bar(stage, (), ground, ((close, partial(stage.open_aside, -1)),))


def aside_buttons(stage: Stage, view: View) -> tuple[frame.Item, ...]:
    """A button for each aside that has one, and one to have the screen read aloud again."""
    aloud = ((Button("", LeavePage()), stage.speak),) if view.aloud and stage.speak else ()
    return aloud + tuple(
        (Button(aside.label, LeavePage()), partial(stage.open_aside, at))
        for at, aside in enumerate(view.asides)
        if aside.label
    )


# --- shop words ---


def _put_words(stage: Stage, aside: Aside, box: Box) -> None:
    """The shop words one below another, turned by pages if there are many."""
    shown = View("step", frame.NOBODY, aside.title, aside.lines, asides=())
    box = title(stage, replace(shown, lines=("",)), box, replace(LINES, gap=0.2))
    rows = max(1, int(box.h // stage.theme.room(ROW_MM * stage.theme.scale)))
    pages = [aside.words[at : at + rows] for at in range(0, len(aside.words), rows)]
    at = min(stage.typed.page, len(pages) - 1)
    if len(pages) > 1:
        keys, box = stage.cut_far(box, page_width(stage), stage.theme.mm(2))
        page_keys(stage, clear_of_head(stage, keys), at, len(pages))
    height = min(box.h / max(rows, 1), stage.theme.room(34))
    for word in pages[at]:
        row, box = box.cut_top(height - stage.theme.mm(1), stage.theme.mm(1))
        _put_word(stage, word, row)


def _put_word(stage: Stage, word: ShopWord, box: Box) -> None:
    """Name and meaning, beside the drawing where there is one of the word."""
    theme, words = stage.theme, box
    if word.picture.name in PICTURES:
        card, words = box.cut_left(min(box.h * 1.35, box.w * 0.36), theme.mm(3))
        stage.card(word.picture, card)
    name, means = words.cut_top(stage.measure(word.name, "question", words.w).height, theme.mm(0.6))
    stage.text(word.name, "question", name, valign="top")
    done = stage.fit(word.means, "body", means, bare=True)
    stage.text(done, "body", means, valign="top")
