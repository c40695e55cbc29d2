"""The body of most screens: title, lines, note and progress beside a drawing, or choices."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from kiosk.core.view import Picture, View
from kiosk.screens.layouts import foot
from kiosk.screens.layouts import listing as lists
from kiosk.screens.layouts.box import Box
from kiosk.screens.layouts.choosing import put_choices
from kiosk.screens.layouts.listing import Listing
from kiosk.screens.layouts.stage import Stage
from kiosk.screens.parts.emblem import Emblem
from kiosk.screens.parts.press import Press
from kiosk.screens.parts.rail import Column

RAIL_MM = 12.4
SPACINGS = ((1.6, 0.36), (0.7, 0.28), (0.2, 0.1))  # margin in mm, gap under the title
LEAST_CARD = 32.0  # mm of a drawing over a note
PICTURE_PARTS = (0.47, 0.42, 0.37, 0.31)  # of the body's width, the first that leaves the text room


@dataclass(frozen=True)
class Manner:
    """How a screen's lines look. `emblem` is drawn where there is no picture; `title_role`."""

    marker: str = "none"
    ink: str = "action"
    emblem: str = ""
    title: str = "title"
    bare: bool = False
    ready: bool = False  # nothing may have to be touched: rather no drawing than pages
    gap: float = 0.28  # under the title, as a part of its size


def put_body(stage: Stage, view: View, box: Box, manner: Manner) -> None:
    """Put everything of a view between band and bar."""
    theme = stage.theme
    box = rail(stage, view, box)
    box = box.inset(theme.mm(2.7), theme.mm(0.3))
    if view.choices:
        _with_choices(stage, view, box.inset(0, theme.mm(0.5)), replace(manner, gap=0.16))
        return
    margin, manner = _spacing(stage, view, box, manner)
    box = box.inset(0, margin)
    words = _over_note(stage, view, box, manner)
    if words is not None:
        view = replace(view, note="")
    column(stage, view, words or _beside_picture(stage, view, box, manner), manner)


def _spacing(stage: Stage, view: View, box: Box, manner: Manner) -> tuple[int, Manner]:
    """Pixels to leave above and below, and the gap under the title: less in a full box."""
    for margin, gap in SPACINGS:
        spaced, pixels = replace(manner, gap=gap), stage.theme.mm(margin)
        if _fits(stage, view, box.inset(0, pixels), 0.0, 0.0, spaced):
            return pixels, spaced
    return 0, replace(manner, gap=SPACINGS[-1][1])


def rail(stage: Stage, view: View, box: Box) -> Box:
    """The drill's column at the left, the step's number beside its table."""
    if view.rail is None:
        return box
    theme = stage.theme
    area, rest = stage.cut_near(box, theme.room(RAIL_MM))
    edge = theme.mm(1.4)  # free at the panel's side
    inner = Box(area.x + (0 if stage.left else edge), area.y + theme.mm(1.2), area.w - edge, area.h)
    part = stage.take(Column, Box(inner.x, inner.y, inner.w, inner.h - theme.mm(1.6)))
    number = stage.fit(str(view.rail.at), "rail", Box(0, 0, inner.w * 0.62, inner.h), bare=True)
    part.show(view.rail.at, view.rail.of, number.height + part.width * 0.46)
    table = stage.root.top - part.table + part.width * 0.24
    place = Box(inner.x + inner.w * 0.4, table, inner.w * 0.6, number.height)
    stage.text(number, "rail", place, "ink", "center")
    return rest


# --- beside a drawing ---


def _beside_picture(stage: Stage, view: View, box: Box, manner: Manner) -> Box:
    """Put the drawing or the emblem at the right; returns the box for the words."""
    if view.picture is None and not manner.emblem:
        return box
    gap = stage.theme.mm(3.4)
    parts = _parts(stage, view, box, manner)
    if not parts and (manner.ready or view.picture is None):
        return box
    part = parts[0] if parts else _part_beside_pages(stage, view, box, gap, manner)
    card, words = stage.cut_far(box, box.w * part, gap)
    if view.picture is not None:
        stage.card(view.picture, card)
    else:
        side = min(card.w, card.h, stage.theme.room(44))
        stage.take(Emblem, card.middle(side, side)).show(manner.emblem)
    return words


def _over_note(stage: Stage, view: View, box: Box, manner: Manner) -> Box | None:
    """Put the note under the drawing, where beside both the lines would else leave it no room."""
    gap, picture = stage.theme.mm(3.4), view.picture
    if not (manner.ready and view.note and picture) or _parts(stage, view, box, manner):
        return None
    for part in _parts(stage, replace(view, note=""), box, manner):
        high = foot.note_height(stage, view, box.w * part)
        broken = foot.note_set(stage, view, box.w * part).broken
        if not broken and box.h - high >= stage.theme.mm(LEAST_CARD):
            side, words = stage.cut_far(box, box.w * part, gap)
            under, card = side.cut_bottom(high, stage.theme.mm(1.9))
            stage.card(picture, card)
            foot.note(stage, view.note, under)
            return words
    return None


def _parts(stage: Stage, view: View, box: Box, manner: Manner) -> list[float]:
    """The parts of the width for a drawing beside which the words fit, the widest first."""
    gap = stage.theme.mm(3.4)
    return [part for part in PICTURE_PARTS if _fits(stage, view, box, part, gap, manner)]


def _fits(stage: Stage, view: View, box: Box, part: float, gap: float, manner: Manner) -> bool:
    """Whether title, lines and note fit beside a drawing of this part of the width."""
    width = box.w * (1 - part) - gap
    room = box.h - _title_height(stage, view, width, manner) - foot.foot_height(stage, view, width)
    listing = _listing(view, manner)
    return not listing.lines or lists.best_size(stage, listing, width, room) is not None


def _part_beside_pages(stage: Stage, view: View, box: Box, gap: float, manner: Manner) -> float:
    """The widest drawing beside which the words take no page more than beside the narrowest."""
    view, noted = _with_note_as_line(view), bool(view.note)
    listing = replace(_listing(view, manner), noted=noted)

    def pages(part: float) -> int:
        width = box.w * (1 - part) - gap
        room = box.h - _title_height(stage, view, width, manner)
        room -= foot.foot_height(stage, view, width)
        return lists.page_count(stage, listing, width, room)

    fewest = pages(PICTURE_PARTS[-1])
    return next(part for part in PICTURE_PARTS if pages(part) <= fewest)


# --- the words ---


def column(stage: Stage, view: View, box: Box, manner: Manner) -> None:
    """Title, lines, note and progress one below another."""
    whole, asked = box, _asked(stage, view, box)
    box = title(stage, view, box, manner)
    below = foot.foot_height(stage, view, box.w)
    listing = _listing(view, manner)
    if view.note and view.lines and lists.best_size(stage, listing, box.w, box.h - below) is None:
        view = _with_note_as_line(view)
        below = foot.foot_height(stage, view, box.w)
        listing = replace(_listing(view, manner), noted=True)
    room = Box(box.x, box.y, box.w, box.h - below)
    targets = len(stage.targets)
    used = lists.put_listing(stage, listing, room)
    if asked is not None:
        whole = clear_of_head(stage, whole)
        high = min(whole.h, max(stage.theme.target, box.y - whole.y + used))
        keys = lists.keys_width(stage) if len(stage.targets) > targets else 0.0
        area, _ = stage.cut_near(whole, whole.w - keys)
        stage.reshape(asked, Box(area.x, area.y, area.w, high))
    foot.put_foot(stage, view, Box(box.x, box.y + used, box.w, box.h - used))


def _with_note_as_line(view: View) -> View:
    """The view with its note as the last of its lines, which turn with the pages."""
    return replace(view, note="", lines=(*view.lines, view.note)) if view.note else view


def _listing(view: View, manner: Manner) -> Listing:
    forms = tuple(form for aside in view.asides for word in aside.words for form in word.forms)
    return Listing(view.lines, manner.marker, manner.ink, manner.bare, words=forms)


def _asked(stage: Stage, view: View, box: Box) -> Press | None:
    """The sentences as one target, where they hold shop words: it opens what these mean."""
    at = next((at for at, aside in enumerate(view.asides) if aside.words), None)
    if at is None:
        return None
    return stage.behind(box, partial(stage.open_aside, at))


def title(stage: Stage, view: View, box: Box, manner: Manner) -> Box:
    """The title at the top of a box; returns what is left."""
    if not view.title:
        return box
    area, rest = box.cut_top(_title_height(stage, view, box.w, manner))
    done = _title_set(stage, view, box.w, manner)
    stage.text(done, manner.title, area, valign="top")
    return rest


def _title_set(stage: Stage, view: View, width: float, manner: Manner) -> lists.Set:
    """The title, smaller if it would else stand in more than two lines."""
    for size in stage.sizes(manner.title):
        done = stage.measure(view.title, manner.title, width, size)
        if len(done.lines) <= 2 and not done.broken:
            return done
    return done


def _title_height(stage: Stage, view: View, width: float, manner: Manner) -> float:
    if not view.title:
        return 0.0
    done = _title_set(stage, view, width, manner)
    more = view.lines or view.note or view.choices or view.progress
    return done.height + (done.size * manner.gap if more else 0.0)


# --- with choices ---


def _with_choices(stage: Stage, view: View, box: Box, manner: Manner) -> None:
    """Words above, choices below; side by side where the words need more than that."""
    above = words_height(stage, view, box.w, manner)
    if above <= box.h * 0.46:
        words, below = box.cut_top(above, stage.theme.mm(0.8) if above else 0)
        column(stage, view, words, manner)
    else:
        words, below = stage.cut_near(box, box.w * 0.42, stage.theme.mm(3.4))
        column(stage, view, words, manner)
        below = clear_of_head(stage, below)
    put_choices(stage, view.choices, below)


def clear_of_head(stage: Stage, box: Box) -> Box:
    """A box lowered under the head's buttons, which are felt a little below it."""
    low = stage.theme.target + stage.theme.mm(0.6)
    drop = max(0.0, low - box.y)
    return Box(box.x, box.y + drop, box.w, box.h - drop)


def words_height(stage: Stage, view: View, width: float, manner: Manner) -> float:
    """Pixels that title, lines, note and progress need at their wanted size."""
    listing = _listing(view, manner)
    size = stage.sizes(listing.role, bare=listing.bare)[0]
    lines = lists.height(stage, listing, width, size) if view.lines else 0.0
    head = _title_height(stage, view, width, manner)
    return head + lines + foot.foot_height(stage, view, width)


__all__ = ["Manner", "Picture", "column", "put_body", "rail", "title"]
