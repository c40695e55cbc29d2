"""Where layouts put things: parts are built once, kept, and used again by every view."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from functools import partial
from math import ceil
from typing import TypeVar

from kivy.uix.widget import Widget

from kiosk.core.inputs import Touch
from kiosk.core.view import Button, Picture
from kiosk.drawings.shapes import Drawing, Label
from kiosk.screens.labels import Labels
from kiosk.screens.layouts.box import Box
from kiosk.screens.parts.mark import Mark
from kiosk.screens.parts.plate import Ground, Plate
from kiosk.screens.parts.press import Press
from kiosk.screens.parts.ruler import Ruler, Set
from kiosk.screens.parts.shade import Shade
from kiosk.screens.parts.sheet import Sheet
from kiosk.screens.parts.text import Text
from kiosk.screens.theme import ROLES, Theme
from kiosk.screens.typed import Typed

PICTURED, LETTERED = (0.8, 1.0), (1.5, 0.5)  # mm left free beside and above what a target bears

NARROW = 36.0  # mm: a drawing is not made larger where that leaves it less than this
MOST_PAINTED = 24  # drawings kept as they were painted: those of a turn

Part = TypeVar("Part", bound=Widget)
Draw = Callable[[Picture, float, float], Drawing]


def _snug(box: Box, done: Set, align: str, valign: str) -> Box:
    """The box around a text's own lines where they will stand in its box."""
    width, height = min(box.w, done.width + 4), min(box.h, done.height)
    at = {"left": 0.0, "right": 1.0}.get(align, 0.5)
    down = 0.0 if valign == "top" else 0.5
    return Box(box.x + (box.w - width) * at, box.y + (box.h - height) * down, width, height)


def _letters(drawing: Drawing) -> int:
    """How many are written in it, in however many lines."""
    texts = (shape.text for shape in drawing.shapes if isinstance(shape, Label))
    return sum(len("".join(text.split())) for text in texts)


class Stage:
    """The parts of one panel. A layout runs between `begin` and `end`.

    `send` sends a touch out; `again` draws the same view again after something was typed, and
    `turned` after a page was turned. `unseen`: lines lie on pages not looked at yet.
    """

    def __init__(self, root: Widget, ruler: Ruler, draw: Draw, labels: Labels) -> None:
        self.root, self.ruler, self.labels = root, ruler, labels
        self.typed = Typed()
        self.send: Callable[[Touch], None]
        self.again: Callable[[], None]
        self.turned: Callable[[], None]
        self.speak: Callable[[], None] | None = None  # reads aloud what stands there
        self.theme: Theme
        self.unseen = False
        self.left = False
        self.waited = 0.0  # seconds since an aside was opened
        self.targets: list[Press] = []
        self._draw = draw
        self._pools: dict[type[Widget], list[Widget]] = defaultdict(list)
        self._used: dict[type[Widget], int] = {}
        self._order: list[Widget] = []
        self._painted: dict[object, Sheet] = {}  # the drawings shown last, the newest at the end

    def draw_with(self, draw: Draw) -> None:
        """Make drawings this way from now on."""
        self._draw = draw

    def begin(self, theme: Theme, left: bool = False) -> None:
        """Clear the stage, for a left hand or a right one; nothing leaves the window yet."""
        self.theme, self.left = theme, left
        self._used, self._order, self.targets = {}, [], []
        self.unseen = False

    def end(self) -> None:
        """Bring what stands in the window in line with what was put, in the same order."""
        put = set(self._order)
        self.root.clear_widgets([widget for widget in self.root.children if widget not in put])
        if not self._put_between():
            self.root.clear_widgets()
            for widget in self._order:
                self.root.add_widget(widget)

    def _put_between(self) -> bool:
        """Put what is new between what stands; whether what stands is in the right order."""
        standing = self.root.children[::-1]
        new = [widget for widget in self._order if widget.parent is None]
        if [widget for widget in self._order if widget.parent is not None] != standing:
            return False
        for widget in new:
            self.root.add_widget(widget, index=len(self.root.children) - self._order.index(widget))
        return True

    def shade(self) -> None:
        """Darken all that has been put."""
        self.take(Shade, Box(0, 0, self.root.width, self.root.height)).show()

    def take(self, kind: type[Part], box: Box) -> Part:
        """A part of this kind, put into a box."""
        at = self._used.get(kind, 0)
        self._used[kind] = at + 1
        pool = self._pools[kind]
        if at == len(pool):
            pool.append(kind())
        part = pool[at]
        self.put(part, box)
        return part  # type: ignore[return-value]

    def put(self, part: Widget, box: Box) -> None:
        """Put a part into a box and on top of all before it."""
        self._place(part, box)
        self._order.append(part)

    def _place(self, part: Widget, box: Box) -> None:
        x, y = round(box.x), round(box.y)
        width = max(round(box.x + box.w) - x, ceil(box.w - 0.01))
        height = max(round(box.y + box.h) - y, ceil(box.h - 0.01))
        part.size = (width, height)
        part.pos = (self.root.x + x, self.root.top - y - height)

    # --- for a left hand or a right one ---

    def cut_near(self, box: Box, width: float, gap: float = 0) -> tuple[Box, Box]:
        """Cut off the side away from the hand: the left, for a left hand the right."""
        return box.cut_right(width, gap) if self.left else box.cut_left(width, gap)

    def cut_far(self, box: Box, width: float, gap: float = 0) -> tuple[Box, Box]:
        """Cut off the side of the hand: the right, for a left hand the left."""
        return box.cut_left(width, gap) if self.left else box.cut_right(width, gap)

    # --- texts ---

    def sizes(self, role: str, *, bare: bool = False) -> range:
        """The font sizes that a role may take, the wanted one first."""
        least = self.theme.bare_font(role) if bare else self.theme.least_font(role)
        wanted = max(self.theme.font(role), least)
        return range(wanted, least - 1, -1)

    def measure(self, text: str, role: str, width: float, size: int | None = None) -> Set:
        """A text set at the wanted size of its role, or at `size`."""
        return self.ruler.set(text, ROLES[role].weight, size or self.theme.font(role), width)

    def fit(self, text: str, role: str, box: Box, *, bare: bool = False) -> Set:
        """A text set as large as its role and the box allow."""
        sizes = self.sizes(role, bare=bare)
        return self.ruler.fit(text, ROLES[role].weight, sizes, box.w, box.h)

    def text(
        self,
        text: str | Set,
        role: str,
        box: Box,
        ink: str = "ink",
        align: str = "left",
        valign: str = "middle",
    ) -> Text:
        """A text in a box."""
        done = self.fit(text, role, box) if isinstance(text, str) else text
        part = self.take(Text, _snug(box, done, align, valign))
        part.show(done, ink, align, valign)
        return part

    # --- plates, signs, drawings ---

    def ground(self, box: Box, fill: str) -> None:
        """A plain area."""
        self.take(Ground, box).show(fill)

    def plate(self, box: Box, fill: str, edge: str, radius: float, width: float) -> None:
        """A rounded plate: `radius` and edge `width` in millimetres."""
        self.take(Plate, box).show(fill, edge, self.theme.mm(radius), self.theme.mm(width))

    def mark(self, name: str, box: Box, ink: str, ground: str = "paper") -> Mark:
        """A sign."""
        part = self.take(Mark, box)
        part.show(name, ink, ground)
        return part

    def card(self, picture: Picture, box: Box) -> None:
        """A drawing on a white card."""
        self.plate(box, "paper", "line", 1.9, 0.35)
        inner = box.inset(self.theme.mm(1.2))
        key = (picture, self._draw, inner, self.theme.scale, self.root.x, self.root.top)
        sheet = self._painted.pop(key, None)
        if sheet is None or sheet in self._order:
            sheet = Sheet("paper")
            self._place(sheet, inner)
            self._paint_sheet(sheet, picture)
        self._painted[key] = sheet
        if len(self._painted) > MOST_PAINTED:
            del self._painted[next(iter(self._painted))]
        self.put(sheet, inner)

    def _paint_sheet(self, sheet: Sheet, picture: Picture) -> None:
        """Large where the drawing still has room, and for all its labels; else to the panel."""
        theme = self.theme
        plain, large = theme.grow, min(theme.scale * theme.grow, 1.35)
        drawings = {scale: self._drawn(picture, sheet, scale) for scale in {plain, large}}
        lost = _letters(drawings[large]) < _letters(drawings[plain])
        narrow = drawings[large].width < NARROW <= drawings[plain].width
        scale = plain if lost or narrow else large
        sheet.show(drawings[scale], scale * theme.panel.px_per_mm, self.ruler)

    def _drawn(self, picture: Picture, sheet: Sheet, scale: float) -> Drawing:
        millimetre = scale * self.theme.panel.px_per_mm
        return self._draw(picture, sheet.width / millimetre, sheet.height / millimetre)

    # --- targets ---

    def button(self, button: Button, box: Box, role: str, size: int | None = None) -> Press:
        """A target that sends the button's touch."""
        press = self.target(box, button.look, self.send_of(button), button.live)
        self.face(press, box, button.label, role, size, button.picture)
        return press

    def send_of(self, button: Button) -> Callable[[], None]:
        """What a button does."""
        return partial(self.send, button.touch)

    def target(self, box: Box, look: str, act: Callable[[], None], live: bool = True) -> Press:
        """A bare target that does `act`."""
        press = self.take(Press, box)
        self.targets.append(press)
        press.show(look, live, act)
        press.clear_widgets()
        strong = look == "danger"
        press.shape(self.theme.mm(1.7), self.theme.mm(0.55 if strong else 0.35))
        return press

    def behind(self, box: Box, act: Callable[[], None]) -> Press:
        """A target that lies behind texts and shows only when it is pressed."""
        press = self.target(box, "words", act)
        press.is_behind = True
        return press

    def reshape(self, press: Press, box: Box) -> None:
        """Give a target another box."""
        self._place(press, box)
        press.paint()

    def open_aside(self, at: int) -> None:
        """Lay an aside over the view, by its place among the view's; -1 takes it away."""
        self.typed.open_aside(at)
        self.turned()

    def face(
        self,
        press: Press,
        box: Box,
        label: str,
        role: str,
        size: int | None = None,
        picture: Picture | None = None,
        align: str = "center",
    ) -> None:
        """Write a label on a target, under or beside its drawing."""
        inner = box.inset(*(self.theme.mm(edge) for edge in (PICTURED if picture else LETTERED)))
        if picture is not None:
            inner = self._picture_on(press, inner, label, role, size, picture)
        if label:
            done = (
                self.measure(label, role, inner.w, size)
                if size
                else self.fit(label, role, inner, bare=True)
            )
            self._place(press.label, _snug(inner, done, align, "middle"))
            press.label.show(done, press.ink, align)
            press.add_widget(press.label)

    def _picture_on(
        self, press: Press, box: Box, label: str, role: str, size: int | None, picture: Picture
    ) -> Box:
        """Put the drawing beside the label in a low box that has room for it, else above."""
        area, words = box.cut_left(box.h * 1.3, self.theme.mm(1))
        beside = self.measure(label, role, words.w, size)
        if box.w <= 2.4 * box.h or beside.broken or beside.height > words.h:
            height = self.measure(label, role, box.w, size).height
            words, area = box.cut_bottom(height, self.theme.mm(0.5))
        self._place(press.sheet, area)
        self._paint_sheet(press.sheet, picture)
        press.add_widget(press.sheet)
        return words

    def sign(self, press: Press, name: str, box: Box) -> None:
        """Draw a sign on a target."""
        self._place(press.mark, box)
        press.mark.show(name, press.ink)
        press.add_widget(press.mark)
