"""An adult's note: what is asked, what is typed so far, and the keyboard."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from kiosk.core.inputs import TypeName, TypeNote
from kiosk.core.view import Keys, View
from kiosk.screens.layouts import foot, frame
from kiosk.screens.layouts.body import Manner, put_body
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.stage import Stage

COLUMNS = 10
ROWS = 4


def put_note(stage: Stage, view: View) -> None:
    """Put the screen on which an adult types a note."""
    rest = frame.top(stage, view)
    if view.keys is None:
        body, ground = frame.above_bar(stage, view, frame.under_band(stage, view, rest))
        put_body(stage, view, body, Manner())
        frame.bar(stage, view.buttons, ground)
        return
    board, rest = rest.cut_bottom(_board_height(stage))
    _put_text(stage, view, view.keys, rest)
    _put_board(stage, view, view.keys, board)


def _key_height(stage: Stage) -> int:
    return max(stage.theme.target, stage.theme.room(15))


def _board_height(stage: Stage) -> int:
    return ROWS * _key_height(stage) + (ROWS + 1) * 2


def _put_text(stage: Stage, view: View, keys: Keys, box: Box) -> None:
    """The prompt at the left, the field beside it, under *Something wrong?*'s lower edge.

    What is to say goes before the prompt: above the keyboard there is no room for a strip.
    """
    theme, said = stage.theme, frame.to_say(view)
    box = box.inset(theme.mm(2), theme.mm(1))
    words, field = box.cut_left(box.w * 0.36, theme.mm(2))
    if said:
        foot.note(stage, said, words)
    else:
        stage.text(keys.prompt or view.title, "question", words)
    stage.plate(field, "paper", "action", 1.2, 0.5)
    _put_typed(stage, stage.typed.text, field.inset(theme.mm(2), theme.mm(0.8)))


def _put_typed(stage: Stage, text: str, box: Box) -> None:
    """The end of what was typed: as many of its last lines as the field holds."""
    done = stage.measure(f"{text}|", "body", box.w, stage.theme.bare_font("body"))
    holds = max(1, int(box.h // (done.height / len(done.lines))))
    shown = "\n".join(done.lines[-holds:])
    last = stage.measure(shown, "body", box.w, done.size)
    stage.text(last, "body", box, valign="top" if len(done.lines) > 1 else "middle")


# --- the keyboard ---


def _put_board(stage: Stage, view: View, keys: Keys, box: Box) -> None:
    stage.ground(box, "bar")
    signs = stage.labels.digit_rows if stage.typed.signs else stage.labels.rows
    height = _key_height(stage)
    left = (box.w - COLUMNS * int(box.w / COLUMNS)) / 2
    for row, letters in enumerate(signs):
        line = Box(box.x + left, box.y + 2 + row * (height + 2), box.w - 2 * left, height)
        _put_row(stage, letters, line, row)
    line = Box(box.x + left, box.y + 2 + 3 * (height + 2), box.w - 2 * left, height)
    _put_last_row(stage, view, keys, line)


def _put_row(stage: Stage, letters: str, line: Box, row: int) -> None:
    for at, letter in enumerate(letters):
        _put_key(stage, _unit(line, at), letter, partial(_letter, stage, letter))
    if row == ROWS - 2:
        area = _unit(line, len(letters))
        press = _bare_key(stage, area, partial(_rub, stage))
        stage.sign(press, "delete", area.middle(area.w * 0.5, area.h * 0.5))


def _unit(line: Box, at: float, units: float = 1) -> Box:
    unit = line.w / COLUMNS
    return Box(line.x + at * unit, line.y, units * unit, line.h)


def _bare_key(stage: Stage, box: Box, act: Callable[[], None], live: bool = True):  # type: ignore[no-untyped-def]
    press = stage.target(box, "key", act, live)
    press.local = True
    press.shape(stage.theme.mm(1.2), stage.theme.mm(0.35))
    return press


def _put_key(stage: Stage, box: Box, label: str, act: Callable[[], None]) -> None:
    stage.face(_bare_key(stage, box, act), box, label, "key")


def _put_last_row(stage: Stage, view: View, keys: Keys, line: Box) -> None:
    labels, at = stage.labels, 0.0
    backs = view.buttons[:1]
    for button in backs:
        stage.button(button, _unit(line, at, 2), "plain")
        at += 2
    switch = labels.letters if stage.typed.signs else labels.digits
    _put_key(stage, _unit(line, at, 1.3), switch, partial(_switch, stage))
    _put_key(stage, _unit(line, at + 1.3, 3.4), labels.space, partial(_letter, stage, " "))
    done = _unit(line, at + 4.7, COLUMNS - at - 4.7)
    press = stage.target(done, "adult", partial(_done, stage, keys), bool(stage.typed.text.strip()))
    stage.face(press, done, keys.done_label, "main")


def _letter(stage: Stage, letter: str) -> None:
    stage.typed.letter(letter)
    stage.again()


def _rub(stage: Stage) -> None:
    stage.typed.rub()
    stage.again()


def _switch(stage: Stage) -> None:
    stage.typed.signs = not stage.typed.signs
    stage.again()


def _done(stage: Stage, keys: Keys) -> None:
    text = stage.typed.text.strip()
    name = " ".join(word[:1].upper() + word[1:] for word in text.split())
    named = TypeName(keys.what, name)
    stage.send(named if keys.asks == "name" else TypeNote(keys.what, keys.hazard, text))
