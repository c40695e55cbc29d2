"""The page on which a pupil chooses language and habits, and the button that opens it."""

from __future__ import annotations

from collections.abc import Iterator

from kiosk.core.inputs import OpenPage, PickLanguage, TurnHabit
from kiosk.core.kiosk.language_acts import language_offered
from kiosk.core.kiosk.shop import HABITS
from kiosk.core.view.scene import Scene, choice, head, leave
from kiosk.core.view.shape import Button, View
from kiosk.core.words import UNCHECKED, Words

NAMED_AT_A_STEP = 2  # beside *Why?* there is less room
MOST_NAMED = 4  # languages that call themselves by their word for *language*


def language_view(scene: Scene) -> View:
    """The habits, then every language in its own words; those no speaker has checked say so."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("language.title", number=scene.number_of(scene.pupil)),
        choices=(*_habits(scene), *(_choice(scene, code) for code in _codes(scene))),
        buttons=(leave(scene),),
    )


def _choice(scene: Scene, code: str) -> Button:
    words = scene.words.of(code)
    label = words.say("language")
    if words.say("checked_by").strip().lower() == UNCHECKED:
        label += f"\n{words.say('language.unchecked')}"
    if code != scene.words.language:
        return choice(label, PickLanguage(code))
    return choice(words.say("form.picked", job=label), PickLanguage(code), look="picked")


def _habits(scene: Scene) -> Iterator[Button]:
    """A switch for each habit that this kiosk can do something for."""
    chosen = scene.shop.habits_of(scene.pupil)
    for habit in HABITS:
        label = scene.say(f"habit.{habit}")
        if habit in chosen:
            yield choice(scene.say("form.picked", job=label), TurnHabit(habit), look="picked")
        elif habit != "aloud" or scene.shop.has_voice:
            yield choice(label, TurnHabit(habit))


def _codes(scene: Scene) -> tuple[str, ...]:
    """The school's language first, then the others by their codes."""
    first = scene.for_adults.words.language
    return (first, *sorted(code for code in scene.words.others if code != first))


def language_buttons(scene: Scene) -> tuple[Button, ...]:
    """The button for languages and habits, where they may be chosen.

    It says *text size*, and *language* in several: who needs one may not read what stands.
    """
    if not language_offered(scene.shop, scene.kiosk):
        return ()
    most = MOST_NAMED if scene.kiosk.session is None else NAMED_AT_A_STEP
    said = [_word(scene.words.of(code)) for code in _codes(scene)[:most]]
    said.insert(0, scene.say("button.text_size"))
    half = len(said) // 2
    label = "\n".join(" \u00b7 ".join(part) for part in (said[:half], said[half:]) if part)
    return (Button(label, OpenPage("language")),)


def _word(words: Words) -> str:
    return words.say("button.language")
