"""What is said of the contacts, and to an adult whose drill won't start."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.view.scene import Scene, head
from kiosk.core.view.shape import Button, View


def contact_lines(scene: Scene) -> tuple[str, ...]:
    """What is wrong with the contacts, in words: one line, for the first input that is lost."""
    losses = dict(scene.kiosk.machine.losses)
    lost = next((n for n, _ in scene.shop.machine.wiring.inputs if n in losses), "")
    if not lost:
        return ()
    return (scene.say(f"contacts.{losses[lost]}", input=scene.say(f"input.{lost}")),)


def help_start_view(scene: Scene) -> View:
    """The isolator is on but the drill won't start: what an adult looks at, the nearest first."""
    back_to = "clear" if scene.kiosk.desk.about == "clear" else "menu"
    return View(
        screen="pre_use",
        head=head(scene),
        title=scene.say("help_start.title"),
        lines=scene.lines("help_start.say"),
        buttons=(Button(scene.say("button.back"), Act(back_to)),),
    )
