"""What a screen may show: asked of every state reached."""

from __future__ import annotations

from kiosk.core.inputs import Act, NotDrilled, OpenPage, SomethingWrong, Still, Touch
from kiosk.core.kiosk.shop import Shop
from kiosk.core.view import Button, View
from kiosk.core.walk.spots import Spot

APART = (
    *("longer", "tighter", "people", "level", "package", "sheets"),
    *("care", "down", "incidents", "jobs_made", "quiet"),
)
_AT_THE_DRILL = (Still, NotDrilled, SomethingWrong)


def buttons_of(view: View) -> tuple[Button, ...]:
    """Every button of a screen that answers."""
    called = (b for b in (view.head.wrong, view.head.stop) if b)
    return tuple(b for b in (*view.buttons, *view.choices, *called) if b.live)


def touches_of(view: View) -> tuple[Touch, ...]:
    """The touches of all buttons that answer.

    What is judged in its own test is left out: the line at the drill, what is done about people
    and what a stick brings in, which go by no step, reading or plan; and what an adult asks for in
    a lesson beyond the school's rules. The walk over adults, levels and questions (`-m people`)
    has people.
    """
    return tuple(b.touch for b in buttons_of(view) if not _is_apart(b.touch))


def _is_apart(touch: Touch) -> bool:
    match touch:
        case Act(what):
            return what in APART
        case OpenPage(page):
            return page in ("line", "questions", "code")
    return False


def screen_faults(shop: Shop, spot: Spot, view: View) -> tuple[str, ...]:
    """What is wrong with the screen of a state, as the judge remembers how it came about."""
    past = spot.past
    wrong = past.trouble or spot.kiosk.desk.page == "wrong"
    if past.unsure and not wrong and view.screen != "restart":
        return (f"after the cut nobody has seen the drill still, and {view.screen} is shown",)
    if not past.is_drilling:
        shown = view.screen == "drilling"
        return ("the drilling screen is shown, and no start stands",) if shown else ()
    if view.screen != "drilling":
        return (f"the drill may be turning, and the screen is {view.screen}",)
    asked = [t for t in touches_of(view) if not isinstance(t, _AT_THE_DRILL)]
    if asked:
        return (f"the drill may be turning, and the screen asks for {type(asked[0]).__name__}",)
    still = any(isinstance(t, Still) for t in touches_of(view))
    return (
        ("the drill turns, and the screen asks whether it is still",)
        if still and past.running
        else ()
    )
