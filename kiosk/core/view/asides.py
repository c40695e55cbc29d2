"""What may be read beside a step: why, how its numbers were worked out, its shop words.

An aside changes nothing and is not recorded: the screens open and close it by themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kiosk.core.machining.worked import Figure
from kiosk.core.plan.shape import PlanStep
from kiosk.core.plan.trials import figures_in
from kiosk.core.session import Session
from kiosk.core.view.scene import Scene
from kiosk.core.view.shape import Aside, Picture, ShopWord
from kiosk.core.words import unparted

# What a drawing writes beside its lines, where the step's own sentences may not name it.
DRAWN = {
    "belts": ("groove", "grooves", "speed"),
    "depth": ("stop", "point", "reached", "floor"),
    "dial": ("speed",),
    "scrap": ("scrap", "scrap_most"),
    "table": ("gap",),
    "tape": ("stop", "point", "floor"),
}
NO_HANDBOOK = "from memory"  # how the content files mark such a source
WIPE_S = 30
STEP_TEXTS = ("title", "say", "see", "note", "check")


def step_asides(scene: Scene, session: Session, step: PlanStep) -> tuple[Aside, ...]:
    """*Why?* with the step's hazard, and *How was this worked out?* if it has numbers."""
    values = scene.step_values(step)
    why = scene.lines(f"step.{step.id}.why", **values)
    asides = (_aside(scene, "why", why),) if why else ()
    return (*asides, *worked_asides(scene, session, (step,)))


def worked_asides(scene: Scene, session: Session, steps: Iterable[PlanStep]) -> tuple[Aside, ...]:
    """*How was this worked out?*: every number of these steps with its working and source."""
    asked = {name for step in steps for name in _asked(scene, step)}
    figures = [figure for figure in session.plan.figures if figure.name in asked]
    lines = tuple(_worked(scene, session, figure) for figure in figures)
    return (_aside(scene, "worked", lines),) if lines else ()


def _aside(scene: Scene, what: str, lines: tuple[str, ...]) -> Aside:
    title, back = scene.say(f"{what}.title"), scene.say("button.back")
    return Aside(scene.say(f"button.{what}"), title, back, lines)


def _asked(scene: Scene, step: PlanStep) -> Iterator[str]:
    """The names of all values that a step's texts and drawing show."""
    yield from DRAWN.get(step.picture, ())
    for part in STEP_TEXTS:
        text = scene.words.texts.get(f"step.{step.id}.{part}", "")
        yield from figures_in(text)


def _worked(scene: Scene, session: Session, figure: Figure) -> str:
    """One number: what it is, in plain words where it comes from, the sum if any, its source."""
    values = scene.step_values(session.step)
    name = scene.say(f"worked.{figure.name}.name")
    plain = scene.words.maybe(f"worked.{figure.name}", **values)
    number = scene.say("worked.number", name=name, value=figure.value)
    source = _source(scene, figure.source)
    is_sum = "=" in figure.working
    working = scene.say("worked.sum", working=figure.working, source=source)
    working = working if is_sum else scene.say("worked.source", source=source)
    return unparted(f"{number}. {plain}\n{working}")


def _source(scene: Scene, source: str) -> str:
    """A source as it is read beside a step: a figure from nobody's handbook is called that."""
    starting = scene.say("worked.starting")
    parts = (starting if NO_HANDBOOK in part else part for part in source.split("; "))
    return "; ".join(dict.fromkeys(parts))


def wipe_aside(scene: Scene) -> Aside:
    """A pause in which the screen can be wiped: nothing answers but *Something wrong?*, held."""
    label, title = scene.say("button.wipe"), scene.say("wipe.title")
    return Aside(label, title, "", scene.lines("wipe.say"), seconds=WIPE_S)


def word_aside(scene: Scene, lines: Iterable[str]) -> Aside | None:
    """The shop words that stand in these lines, with drawing and plain meaning; None if none."""
    spoken: dict[str, tuple[str, ...]] = {}
    for id, form in scene.words.shop_words_in("\n".join(lines)):
        spoken[id] = tuple(dict.fromkeys((*spoken.get(id, ()), form)))
    if not spoken:
        return None
    words = tuple(_shop_word(scene, id, forms) for id, forms in spoken.items())
    return Aside("", scene.say("shop_words.title"), scene.say("button.back"), words=words)


def _shop_word(scene: Scene, id: str, forms: tuple[str, ...]) -> ShopWord:
    name = scene.say(f"word.{id}.forms").split("\n")[0]
    return ShopWord(name, scene.say(f"word.{id}"), Picture(f"word_{id}"), forms)
