"""Which touches are tried at a state: one or more of every kind, shown or not."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kiosk.core import inputs as given
from kiosk.core.inputs import Touch
from kiosk.core.kiosk.adult_acts import PURPOSES
from kiosk.core.kiosk.asks import halt_of, recovery_step
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.walk.grounds import OTHER, TEACHER, TECHNICIAN, WORK, Ground

ADULTS = (TEACHER.ref, TECHNICIAN.ref)
ACTS = (
    "open jobs_done close stop resume pre_use pre_use_wrong out pre_use_right return own_use "
    "note note_done download menu again look end clear help_start"
).split()


@dataclass(frozen=True)
class Stands:
    """What of a state says which touches are tried: steps, an adult waited for or signed in."""

    here: str
    due: str
    waits: bool
    signed: bool


def stands(ground: Ground, kiosk: Kiosk) -> Stands:
    """What stands now."""
    halt, session = halt_of(kiosk), kiosk.session
    due = recovery_step(ground.shop, halt) if halt else None
    return Stands(
        here=session.step.id if session else "",
        due=due.id if due else "",
        waits=session is not None and session.is_waiting_for_adult,
        signed=bool(kiosk.desk.signed),
    )


def touches_at(ground: Ground, standing: Stands) -> Iterator[Touch]:
    """One or more of every kind of touch, shown or not."""
    yield from (given.LeavePage(), given.StillThere(), given.GoBack(), given.Still())
    yield from (given.NotDrilled(), given.Leave(), given.SomethingWrong(), given.ByMistake())
    yield from (given.SpellOk(), given.EndSpell(), given.OpenPage("not_right"))
    yield given.StopEveryone()
    yield from (given.OpenPage("menu"), given.OpenPage("job", "1"), given.PickPupil(1))
    yield from (given.OpenPage("language"), given.PickLanguage("pl"), given.TurnHabit("left"))
    yield from (given.PickPupil(99), given.PickJob("nothing", 0), given.PickJob(WORK, 0))
    yield from (given.PickJob(OTHER, 0), given.PickJob(WORK, 7))
    yield from (given.AskAdult(purpose) for purpose in PURPOSES)
    yield from (given.PickAdult(adult) for adult in (*ADULTS, "nobody"))
    yield from _steps(ground, standing)
    yield from (given.NameTrouble(s.id) for s in ground.shop.content.recoveries)
    yield given.NameTrouble("nothing")
    yield from _acts(ground, standing)


def _steps(ground: Ground, standing: Stands) -> Iterator[Touch]:
    """The step that stands, one that does not, and each line of the adult's."""
    plan = ground.plan
    ids = (standing.here, standing.due, plan.fresh[0].id, plan.fresh[-1].id, "nothing")
    yield from (given.SeenRight(step) for step in dict.fromkeys(ids) if step)
    yield from (given.StaysOn(step) for step in (standing.due, standing.here) if step)
    lines = plan.look_for if standing.waits else plan.look_for[:1]
    yield from (given.PickNotRight(step) for step in (*lines, "nothing"))


def _acts(ground: Ground, standing: Stands) -> Iterator[Touch]:
    yield given.Act("own_use_end")
    if not standing.signed:
        yield from (given.Act(act) for act in ("open", "again", "end"))
        yield given.Choose("length", "60")
        return
    yield from (given.Act(act) for act in ACTS)
    items = ground.shop.machine.pre_use
    yield from (given.Act("pre_use_item", i) for i in ([items[0].id] if items else []) + ["no"])
    yield given.Act("out_why", "fault")
    yield from (given.Choose("group", g) for g in ("g", "nothing"))
    yield from (given.Choose("jobs", job) for job in (WORK, "nothing"))
    yield from (given.Choose("length", n) for n in ("60", "61", "x"))
    yield from (given.Choose("note_what", "note"), given.Choose("note_hazard", "other"))
