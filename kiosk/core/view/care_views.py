"""The technician's corner: what is due, the bits, the drill's data and faults, the kiosk itself."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.allowed import today
from kiosk.core.kiosk.care import Fault
from kiosk.core.kiosk.care_acts import (
    DOWN_AGO_DAYS,
    DOWN_HOLES,
    DOWN_MIN,
    RACK_ACTS,
    RUN_DOWN_S,
    WIDEST_MM,
    racks_of,
)
from kiosk.core.kiosk.returning import KINDS
from kiosk.core.model import STANDING, Adult
from kiosk.core.units import Length, day_named
from kiosk.core.view.check_views import checks_due
from kiosk.core.view.scene import Scene, choice, head, to_page
from kiosk.core.view.shape import Button, View


def care_view(scene: Scene) -> View:
    """The corner's own page: what there is to do, and what is due."""
    acts = ("checks", "racks", "deputy", "data", "fault_log", "computer", "ask_restart")
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("care.title"),
        lines=(scene.say("care.software", software=scene.shop.software), *_told(scene)),
        choices=tuple(choice(scene.say(f"care.{act}"), Act(act)) for act in acts),
        buttons=(to_page(scene, "menu"),),
    )


def _told(scene: Scene) -> tuple[str, ...]:
    out = [r for r in scene.kiosk.care.racks if not r.good]
    told = checks_due(scene)
    return (*told, scene.say("care.racks_empty", n=len(out))) if out else told


# --- bits ----------------------------------------------------------------------------------------


def racks_view(scene: Scene) -> View:
    """Every bit that a job asks for, with how many there are."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("racks.title"),
        choices=tuple(
            choice(f"{_bit(scene, bit, um)}\n{_count(scene, bit, um)}", Act("rack", f"{bit} {um}"))
            for bit, um in racks_of(scene.shop)
        ),
        buttons=(to_page(scene, "care"),),
    )


def _bit(scene: Scene, bit: str, um: int) -> str:
    return scene.say("racks.bit", diameter=Length.from_um(um), bit=scene.say(f"bit.{bit}"))


def _count(scene: Scene, bit: str, um: int) -> str:
    rack = scene.kiosk.care.rack(bit, um)
    return scene.say("racks.count", good=rack.good, blunt=rack.blunt)


def rack_view(scene: Scene) -> View:
    """One bit: one more or one fewer, and why."""
    about = scene.kiosk.desk.about
    bit, um = about.split()
    return View(
        screen="menu",
        head=head(scene),
        title=_bit(scene, bit, int(um)),
        lines=(_count(scene, bit, int(um)),),
        choices=tuple(
            choice(scene.say(f"racks.{what}"), Act("bit_changed", f"{about} {what}"))
            for what in RACK_ACTS
        ),
        buttons=(to_page(scene, "racks"),),
    )


# --- deputy, faults, data ------------------------------------------------------------------------


def deputy_view(scene: Scene) -> View:
    """Who returns the drill after small faults while no technician is there."""
    deputy = scene.kiosk.care.deputy
    nobody = Button(scene.say("deputy.nobody"), Act("name_deputy"), live=bool(deputy))
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("deputy.title"),
        lines=scene.lines("deputy.say"),
        choices=tuple(_deputy(scene, a, a.ref == deputy) for a in _standing(scene)),
        buttons=(to_page(scene, "care"), nobody),
    )


def _standing(scene: Scene) -> tuple[Adult, ...]:
    """Teachers: a technician needs no deputy to return a drill."""
    known = scene.kiosk.adults.find
    roles = [(a, state.role) for a in scene.adults if (state := known(a.ref))]
    return tuple(a for a, role in roles if role in STANDING and role != "technician")


def _deputy(scene: Scene, adult: Adult, is_named: bool) -> Button:
    label = scene.say("form.picked", job=adult.name) if is_named else adult.name
    look = "picked" if is_named else "choice"
    return choice(label, Act("name_deputy", adult.ref), look=look)


def fault_log_view(scene: Scene) -> View:
    """The times the drill was out of use, the newest first, as far as they are kept here."""
    faults = scene.kiosk.care.faults
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("fault_log.title"),
        lines=tuple(_fault(scene, f) for f in faults) or (scene.say("fault_log.none"),),
        buttons=(to_page(scene, "care"),),
    )


def _fault(scene: Scene, fault: Fault) -> str:
    why, since = why_text(scene, fault.why), day_named(fault.since)
    if fault.why not in KINDS:
        why = scene.say("out_of_use.not_right", why=why)
    if not fault.until:
        return scene.say("fault_log.open", why=why, since=since)
    return scene.say("fault_log.ended", why=why, since=since, until=day_named(fault.until))


def why_text(scene: Scene, why: str) -> str:
    """Why the drill is out of use: a kind of fault, or what of a check was not right."""
    keys = (f"pre_use.{why}", f"out.{why}")
    return scene.say(next((key for key in keys if scene.words.has(key)), f"control.{why}"))


def data_view(scene: Scene) -> View:
    """The machine's data as they count, where they are written, and what can be set here."""
    machine = scene.shop.machine
    spell = scene.say("data.yes" if machine.spell_allowed else "data.no")
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("data.title", machine=scene.say(f"machine.{machine.id}")),
        lines=(
            _speeds(scene),
            scene.say("data.chuck", chuck=machine.chuck_capacity, stroke=machine.stroke),
            scene.say("data.file", file=f"machines/{machine.id}.yaml"),
        ),
        choices=(
            choice(scene.say("data.run_down", time=machine.run_down), Act("datum", "run_down")),
            choice(scene.say("data.spell", answer=spell), Act("datum", "spell")),
            choice(scene.say("data.widest", size=machine.chuck_capacity), Act("datum", "widest")),
        ),
        buttons=(to_page(scene, "care"),),
    )


def _speeds(scene: Scene) -> str:
    """Every speed, or from where to where a dial goes."""
    speeds = scene.shop.machine.speeds
    if scene.shop.machine.drive == "dial":
        return scene.say("data.dial", slowest=speeds[0], fastest=speeds[-1])
    return scene.say("data.speeds", speeds=", ".join(f"{s.rpm:.0f}" for s in speeds))


def datum_view(scene: Scene) -> View:
    """One datum and what it may be."""
    what = scene.kiosk.desk.about
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"datum.{what}"),
        lines=(scene.say("datum.say"),),
        choices=tuple(
            choice(label, Act("set_datum", f"{what} {value}"))
            for value, label in _answers(scene, what)
        ),
        buttons=(to_page(scene, "data"),),
    )


def _answers(scene: Scene, what: str) -> tuple[tuple[str, str], ...]:
    """What a datum may be set to, and how that is written."""
    match what:
        case "spell":
            return (("0", scene.say("data.no")), ("1", scene.say("data.yes")))
        case "widest":
            return tuple((str(mm), scene.words.number(Length(float(mm)))) for mm in WIDEST_MM)
    return tuple((str(s), scene.say("data.seconds", n=s)) for s in RUN_DOWN_S)


# --- the kiosk itself ----------------------------------------------------------------------------


def down_view(scene: Scene) -> View:
    """The wall sheet, entered afterwards: three questions, one after the other."""
    said = tuple(scene.kiosk.desk.about.split())
    keys = ("ago", "minutes", "holes")
    answers = (DOWN_AGO_DAYS, DOWN_MIN, DOWN_HOLES)[len(said)]
    back = ("down", " ".join(said[:-1])) if said else ("menu", "")
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"down.{keys[len(said)]}"),
        lines=(scene.say("down.say"),),
        choices=tuple(
            choice(_down(scene, len(said), n), Act("down", " ".join((*said, str(n)))))
            for n in answers
        ),
        buttons=(to_page(scene, *back),),
    )


def _down(scene: Scene, question: int, n: int) -> str:
    if question == 0:
        return day_named(today(scene.kiosk, scene.now) - n)
    return scene.say("form.minutes", n=n) if question == 1 else str(n)


def ask_restart_view(scene: Scene) -> View:
    """Asked once more: the screen is dark for a moment."""
    yes = Button(scene.say("kiosk_restart.yes"), Act("restart"), "adult")
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("kiosk_restart.title"),
        lines=scene.lines("kiosk_restart.say"),
        buttons=(to_page(scene, "care"), yes),
    )


def restarting_view(scene: Scene) -> View:
    """The kiosk is about to go dark."""
    return View(screen="menu", head=head(scene), title=scene.say("kiosk_restart.now"))
