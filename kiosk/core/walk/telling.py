"""A counter-example in plain words: where, and the touches and readings that lead to it."""

from __future__ import annotations

from kiosk.core import inputs as given
from kiosk.core.inputs import Input
from kiosk.core.model import Reading
from kiosk.core.walk.tries import Step, Try
from kiosk.core.walk.walking import Fault, Walk
from kiosk.core.words import Words

_NAMES = {"a1": "the teacher", "a2": "the technician"}
_PLAIN = {
    given.LeavePage: "Back is touched",
    given.StillThere: "Still there is touched",
    given.GoBack: "Back to the step before is touched",
    given.Still: "Stopped and still is touched",
    given.NotDrilled: "Not drilled is touched",
    given.Leave: "the pupil leaves",
    given.SomethingWrong: "Something wrong? is touched",
    given.StaysOn: "the isolator can't be turned off, somebody says",
    given.ByMistake: "Pressed by mistake is touched",
    given.SpellOk: "the adult who stays gives the OK",
    given.EndSpell: "the adult ends the spell",
    given.StopEveryone: "Everyone stop is touched",
    given.BadgeRead: "a badge is held to the reader",
    given.KioskEnding: "the software ends itself",
    given.ClockMoved: "the clock is set",
}
_READ = {
    Reading.OFF: "reads off",
    Reading.ON: "reads on",
    Reading.UNKNOWN: "cannot be read",
    Reading.FAULT: "reads a fault",
}


def story(walked: Walk, fault: Fault, words: Words) -> tuple[str, ...]:
    """The fault in lines: what is broken, where, and the numbered way to it from the start."""
    tries: list[Try] = [fault.tried]
    number = fault.node
    while number >= 0:
        node = walked.nodes[number]
        if node.tried:
            tries.append(node.tried)
        number = node.parent
    steps = [step for tried in reversed(tries) for step in tried.whole]
    start = ("a lesson is open",) if walked.first else ("the kiosk starts",)
    lines = (*start, *(told(step, words) for step in steps))
    numbered = (f"{n:3d}. {line}" for n, line in enumerate(lines, start=1))
    return (fault.found, f"on {fault.ground.shape}", *numbered)


def told(step: Step, words: Words) -> str:
    """One input in words."""
    late = f"{step.after_s / 60:.0f} minutes later " if step.after_s > 90 else ""
    return late + _told(step.given, words)


def _told(what: Input, words: Words) -> str:
    plain = _PLAIN.get(type(what))
    if plain:
        return plain
    match what:
        case given.SeenRight(step):
            seen = words.maybe(f"step.{step}.see")
            return f"the button of step {step} is touched" + (f" ({seen})" if seen else "")
        case given.PickNotRight(step):
            return f"an adult finds step {step} not right"
        case given.ReadingIs(name, reading):
            return f"the {name} {_READ[reading]}"
        case given.KioskBegan(_, _, after):
            return "the power is cut, and comes back" if after == "cut" else "the kiosk restarts"
        case given.DeadlinePassed(kind):
            return f"the time for {kind} passes"
    return _told_of_people(what)


def _told_of_people(what: Input) -> str:
    match what:
        case given.AskAdult(purpose):
            return f"an adult is asked for, for {purpose}"
        case given.PickAdult(adult):
            return f"{_NAMES.get(adult, adult)} is picked"
        case given.TypePin(adult, _, stay):
            return f"{_NAMES.get(adult, adult)} types a PIN" + (" and stays" if stay else "")
        case given.PinChecked(adult, right):
            return f"the PIN of {_NAMES.get(adult, adult)} is {'right' if right else 'wrong'}"
        case given.BadgeChecked(adult):
            return f"the badge is {_NAMES.get(adult, adult) or 'nobody'}'s"
        case given.PickPupil(number):
            return f"pupil number {number} is touched"
        case given.PickJob(job, _):
            return f"the job {job} is picked"
        case given.NameTrouble(trouble):
            return f"the picture {trouble} is touched"
        case given.Act(act, _):
            return f"the signed-in adult touches {act}"
        case given.Choose(form, value):
            return f"{value} is chosen for {form}"
    return type(what).__name__
