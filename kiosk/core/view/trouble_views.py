"""The screens for what went wrong: restart, interruption, pictures, recovery."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import Act, ByMistake, Leave, NameTrouble, SeenRight, StaysOn, Still
from kiosk.core.kiosk.asks import (
    halt_of,
    is_off_awaited,
    is_running,
    recovery_step,
)
from kiosk.core.kiosk.everyone import WHY
from kiosk.core.kiosk.trouble_acts import recovery_waits
from kiosk.core.plan.compiling import compile_recovery
from kiosk.core.plan.shape import PlanStep
from kiosk.core.session import Halt, Session
from kiosk.core.view.scene import Scene, adult, choice, head, leave, reading_is_lost
from kiosk.core.view.shape import Band, Button, Picture, View

TROUBLES = (
    "hurt",
    "bit_broken",
    "bit_jammed",
    "work_spun",
    "smoke",
    "alarm",
    "power",
    "gone",
)


def restart_view(scene: Scene) -> View:
    """A restart's first line: is it turning?"""
    cut = scene.kiosk.machine.cut
    lines = scene.lines("restart.say")
    if cut:
        number = scene.number_of(cut.pupil)
        lines += scene.lines("restart.cut", number=number, done=cut.done, holes=cut.holes)
    live = not is_running(scene.shop, scene.kiosk)
    return View(
        screen="restart",
        head=head(scene),
        band=Band("stop", scene.say("band.restart")),
        title=scene.say("restart.title"),
        lines=lines,
        note="" if live else scene.say("wait.still_running"),
        picture=scene.stops,
        buttons=(Button(scene.say("button.seen_still"), Still(), "main", live),),
    )


def no_reading_view(scene: Scene) -> View:
    """The isolator has a contact but nothing to go by: an adult may let it go on by looking."""
    return View(
        screen="interruption",
        head=head(scene),
        band=Band("adult", scene.say("band.adult_needed")),
        title=scene.say("interruption.no_reading.title"),
        lines=scene.lines("interruption.no_reading.say"),
        picture=Picture("isolator", (("position", "unknown"),)),
        buttons=(
            Button(scene.say("button.leave"), Leave()),
            adult(scene, "said", "button.adult_look"),
        ),
        flash=True,
    )


def interruption_view(scene: Scene, halt: Halt) -> View:
    """What happened, where the real stop and isolator are, who must come."""
    return View(
        screen="interruption",
        head=head(scene),
        band=Band("stop", scene.say("band.interruption")),
        title=scene.say(f"interruption.{halt.why}.title"),
        lines=scene.lines(f"interruption.{halt.why}.say"),
        picture=scene.stops,
        buttons=_who_comes(scene, halt),
        note=_running_note(scene),
        flash=True,
    )


def _who_comes(scene: Scene, halt: Halt) -> tuple[Button, ...]:
    """An adult looks; where everyone was stopped the adult lets work go on, or ends the turn."""
    if halt.why != WHY:
        return (adult(scene, "clear"),)
    ends = replace(adult(scene, "clear", "button.adults"), look="plain")
    return (ends, adult(scene, "resume", "button.resume"))


def _running_note(scene: Scene) -> str:
    running = is_running(scene.shop, scene.kiosk)
    return scene.say("wait.still_running") if running else ""


def wrong_view(scene: Scene, session: Session | None) -> View:
    """First what to do now, then a picture to touch."""
    known = [t for t in TROUBLES if scene.shop.content.recovery(t)]
    buttons: tuple[Button, ...] = (Button(scene.say("button.by_mistake"), ByMistake()),)
    if session and session.halt and session.run_seen:
        buttons = (adult(scene, "clear", "button.adult_nothing"),)
    elif session and not session.is_drilling:
        buttons += (Button(scene.say("button.leave"), Leave()),)
    return View(
        screen="wrong",
        head=head(scene, with_wrong=False),
        band=Band("stop", scene.say("band.wrong")),
        title=scene.say("wrong.title"),
        choices=tuple(
            choice(scene.say(f"trouble.{t}.title"), NameTrouble(t), Picture(t)) for t in known
        ),
        buttons=buttons,
    )


def recovery_view(scene: Scene, halt: Halt) -> View:
    """One recovery step; the last ones are the adult's."""
    step = recovery_step(scene.shop, halt)
    now = scene.lines(f"trouble.{halt.trouble}.now")
    if step is None or step.who == "adult":
        told = halt.at > 0 or not now
        return _adult_recovery(scene, halt, step, now) if told else _told_at_once(scene, halt, now)
    waits = recovery_waits(scene.shop, scene.kiosk)
    see = scene.say(f"step.{step.id}.see")
    return View(
        screen="recovery",
        head=head(scene),
        band=_recovery_band(scene, halt, now),
        title=scene.say(f"step.{step.id}.title"),
        lines=scene.lines(f"step.{step.id}.say"),
        note=scene.say(f"wait.{waits}") if waits else scene.words.maybe(f"step.{step.id}.note"),
        picture=scene.step_picture(step) or Picture(halt.trouble),
        buttons=(*_stays_on(scene, step), Button(see, SeenRight(step.id), "main", live=not waits)),
    )


def _stays_on(scene: Scene, step: PlanStep) -> tuple[Button, ...]:
    """Where the screen waits for the isolator there is a way on to an adult."""
    if not is_off_awaited(scene.shop, scene.kiosk):
        return ()
    return (Button(scene.say("button.stays_on"), StaysOn(step.id)),)


def _recovery_band(scene: Scene, halt: Halt, now: tuple[str, ...]) -> Band:
    """What to do now stands at the first step; afterwards only what it is about."""
    if halt.at == 0 and now:
        return Band("stop", now[0])
    return Band("stop", scene.say(f"trouble.{halt.trouble}.title"))


def _told_at_once(scene: Scene, halt: Halt, now: tuple[str, ...]) -> View:
    """Nothing is asked of the pupil: what to do now, in the pupil's words, until an adult comes."""
    return View(
        screen="recovery",
        head=head(scene),
        band=_recovery_band(scene, halt, now),
        title=scene.say(f"trouble.{halt.trouble}.title"),
        lines=now[1:],
        picture=Picture(halt.trouble),
        buttons=(adult(scene, "clear"),),
        flash=True,
    )


def _adult_recovery(scene: Scene, halt: Halt, step: PlanStep | None, now: tuple[str, ...]) -> View:
    key = f"step.{step.id}" if step else "recovery.adult"
    pupils, scene = scene, scene.for_adults
    waits = is_off_awaited(scene.shop, scene.kiosk)
    return View(
        screen="recovery",
        head=head(pupils),
        band=Band("adult", pupils.say("band.adult_needed")),
        title=scene.say(f"{key}.title"),
        lines=scene.lines("recovery.reads_on.say" if waits else f"{key}.say") or now,
        picture=Picture("isolator" if waits else halt.trouble),
        buttons=_let_in(scene, waits),
        flash=True,
        language=scene.words.language,
    )


def _let_in(scene: Scene, waits: bool) -> tuple[Button, ...]:
    """The adult who has done it; or who says that the isolator can't be turned off."""
    done = adult(scene, "clear")
    if not waits:
        return (done,)
    stays_on = replace(adult(scene, "clear", "button.stays_on_adult"), look="plain")
    return (stays_on, replace(done, live=False))


def clear_view(scene: Scene) -> View:
    """The adult has looked: what now? A note that was kept is said to be."""
    title, lines = _adults_first(scene)
    noted = scene.kiosk.desk.about == "noted"
    return View(
        screen="menu",
        head=head(scene),
        title=title,
        lines=(scene.say("clear.noted"), *lines) if noted else lines,
        choices=tuple(_follows(scene, act, noted) for act in _may_follow(scene)),
        buttons=(leave(scene),),
    )


def _follows(scene: Scene, act: str, noted: bool) -> Button:
    key = "note_again" if act == "note" and noted else act
    return choice(scene.say(f"clear.{key}"), Act(act))


def _may_follow(scene: Scene) -> tuple[str, ...]:
    """What may follow, the likeliest first; with somebody hurt that is the note, never a start."""
    session = scene.kiosk.session
    if is_off_awaited(scene.shop, scene.kiosk):
        return ("note", "out")
    unread = session is not None and session.way == "sensed" and reading_is_lost(scene)
    stopped = session is None or (session.halt is not None and session.halt.why == WHY)
    goes_on = () if stopped else ("look" if unread else "again",)
    if _adults_steps(scene):
        return ("note", "end", "out")
    return (*goes_on, "end", "note", "help_start")


def _adults_steps(scene: Scene) -> tuple[PlanStep, ...]:
    """The steps of a trouble in which every one is an adult's, as with somebody hurt."""
    halt, shop = halt_of(scene.kiosk), scene.shop
    steps = compile_recovery(shop.content, shop.machine, halt.trouble) if halt else ()
    return steps if all(step.who == "adult" for step in steps) else ()


def _adults_first(scene: Scene) -> tuple[str, tuple[str, ...]]:
    """What the adult reads first: where every step is an adult's, those; else what may follow."""
    steps = _adults_steps(scene)
    if is_off_awaited(scene.shop, scene.kiosk):
        return scene.say("clear.waits.title"), scene.lines("clear.waits.say")
    if not steps:
        return scene.say("clear.title"), scene.lines("clear.say")
    said = (line for step in steps for line in scene.lines(f"step.{step.id}.say"))
    return scene.say(f"step.{steps[0].id}.title"), tuple(said)
