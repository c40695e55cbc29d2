"""What was found of the computer that the kiosk runs on: a page of the technician's corner."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.shop import Looked
from kiosk.core.view.scene import Scene, choice, head, to_page
from kiosk.core.view.shape import View
from kiosk.core.words import capital

STATES = ("bad", "look", "good")
"""How a part may be, what is to be put right first."""


def computer_view(scene: Scene) -> View:
    """Every part of the computer with how it is."""
    found = sorted(scene.shop.computer, key=lambda one: STATES.index(one.state))
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("computer.title"),
        lines=scene.lines("computer.say" if found else "computer.none"),
        choices=tuple(choice(_label(scene, one), Act("part", one.name)) for one in found),
        buttons=(to_page(scene, "care"),),
    )


def part_view(scene: Scene) -> View:
    """One part: what was found, and what to do about it."""
    about = scene.kiosk.desk.about
    one = next(one for one in scene.shop.computer if one.name == about)
    return View(
        screen="menu",
        head=head(scene),
        title=_label(scene, one).replace("\n", ": "),
        lines=tuple(_parted(text) for text in (one.found, one.advice) if text),
        buttons=(to_page(scene, "computer"),),
    )


def _label(scene: Scene, one: Looked) -> str:
    return f"{scene.say(f'computer.{one.name}')}\n{scene.say(f'computer.{one.state}')}"


def _parted(text: str) -> str:
    """As a sentence begins; a long path may be parted after each of its folders."""
    words = (w[0] + w[1:].replace("/", "/ ") if len(w) > 30 else w for w in text.split(" "))
    return capital(" ".join(words))


def forgets(scene: Scene) -> tuple[str, ...]:
    """A warning where what is recorded would be lost with the power."""
    bad = any(one.name == "record" and one.state == "bad" for one in scene.shop.computer)
    return (scene.say("idle.forgets"),) if bad else ()
