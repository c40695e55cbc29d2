"""The screens for adults: idle, names, PIN, menu, forms, notes."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import Act, AskAdult, Choose, LeavePage, PickPupil
from kiosk.core.kiosk.allowed import may
from kiosk.core.kiosk.asks import is_tightened, may_drill, pre_use_holds
from kiosk.core.kiosk.everyone import can_resume
from kiosk.core.kiosk.hours import span_now
from kiosk.core.kiosk.office_acts import LENGTHS_MIN, NOTE_KINDS
from kiosk.core.kiosk.piloting import piloted_choices
from kiosk.core.kiosk.returning import KINDS, may_return, returned_by
from kiosk.core.model import Job
from kiosk.core.view.care_views import why_text
from kiosk.core.view.check_views import checks_due
from kiosk.core.view.computer_views import forgets
from kiosk.core.view.contact_views import contact_lines
from kiosk.core.view.jobs import job_name
from kiosk.core.view.lesson_views import hours_lines, quiet_choices, unsure_lines
from kiosk.core.view.line_views import line_up, waiting_view
from kiosk.core.view.people_views import ending_note
from kiosk.core.view.scene import Scene, adult, choice, head, leave, to_page
from kiosk.core.view.shape import Band, Button, Keys, Picture, View


def idle_view(scene: Scene) -> View:
    """The lesson is open: numbers to touch. Otherwise what is open or missing, in words."""
    lesson, kiosk = scene.kiosk.lesson, scene.kiosk
    if lesson and may_drill(scene.shop, kiosk, scene.now):
        return _open_lesson(scene)
    if lesson and not lesson.confirmed:
        return _closed(scene, "idle.unconfirmed", "confirm")
    if lesson and lesson.stopped:
        return _closed(scene, "idle.stopped", "resume")
    if lesson and is_tightened(kiosk, "no_more"):
        return _closed(scene, "idle.no_more", "menu")
    if kiosk.care.silence:
        return _closed(scene, "idle.silent", "menu")
    if span := span_now(scene.shop, kiosk, scene.now):
        return replace(_closed(scene, "idle.silent", "menu"), lines=hours_lines(scene, span))
    if lesson and not pre_use_holds(kiosk, scene.now):
        return _closed(scene, "idle.no_pre_use", "menu")
    return _closed(scene, "idle.no_lesson", "menu")


def _open_lesson(scene: Scene) -> View:
    lesson = scene.kiosk.lesson
    group = scene.shop.roster.group(lesson.group) if lesson else None
    pupils = group.pupils if group else ()
    view = View(
        screen="idle",
        head=head(scene),
        title=scene.say("idle.title", group=group.name if group else ""),
        lines=(*_set_up_line(scene), *contact_lines(scene), *forgets(scene)),
        choices=tuple(
            choice(f"{p.number}\n{p.name}".strip(), PickPupil(p.number), look="number")
            for p in pupils
        ),
        buttons=(Button(scene.say("button.adults"), AskAdult("menu")),),
    )
    return waiting_view(scene, view) or replace(view, buttons=(*view.buttons, *line_up(scene)))


def _set_up_line(scene: Scene) -> tuple[str, ...]:
    kept = scene.kiosk.machine.set_up
    if kept is None:
        why = scene.words.maybe(f"idle.void.{scene.kiosk.machine.void_why}")
        return (why or scene.say("idle.not_set_up"),)
    bit = scene.say(f"bit.{kept.spec.bit}")
    return (scene.say("idle.set_up", diameter=kept.spec.diameter, bit=bit),)


def _closed(scene: Scene, key: str, purpose: str) -> View:
    band = Band("adult", scene.say("band.adult_needed")) if purpose == "confirm" else None
    more = (Button(scene.say("button.adults"), AskAdult("menu")),) if purpose == "resume" else ()
    return View(
        screen="idle",
        head=head(scene),
        band=band,
        title=scene.say(f"{key}.title"),
        lines=(*scene.lines(f"{key}.say"), *contact_lines(scene), *forgets(scene)),
        note=scene.say("idle.informs"),
        picture=scene.stops,
        buttons=(*more, adult(scene, purpose, f"button.{purpose}")),
    )


def out_of_use_view(scene: Scene) -> View:
    """The machine is not to be used; what for, and who can return it."""
    why = scene.kiosk.machine.out_of_use
    said = "why" if why in KINDS else "not_right"
    name = _returner(scene)
    by = returned_by(scene.kiosk) if name else "technician"
    who = scene.say(f"out_of_use.by_{by}", name=name)
    return View(
        screen="out_of_use",
        head=head(scene),
        band=Band("stop", scene.say("band.out_of_use")),
        title=scene.say("out_of_use.title"),
        lines=(
            scene.say(f"out_of_use.{said}", why=why_text(scene, why)),
            who,
            *scene.lines("out_of_use.say"),
        ),
        picture=scene.stops,
        buttons=(adult(scene, "menu", "button.adults"),),
    )


def _returner(scene: Scene) -> str:
    """Who may return the drill beside a technician: any teacher, the deputy, its own adult."""
    match returned_by(scene.kiosk):
        case "teacher":
            return scene.say("role.teacher")
        case "own":
            who = scene.kiosk.machine.out_by
        case "deputy":
            who = scene.kiosk.care.deputy
        case _:
            return ""
    return scene.adult_name(who) if who else ""


def own_use_view(scene: Scene) -> View:
    """An adult drills for themselves."""
    name, holes = scene.adult_name(scene.kiosk.machine.own_use), scene.kiosk.machine.own_holes
    return View(
        screen="own_use",
        head=head(scene),
        title=scene.say("own_use.title", name=name),
        lines=scene.lines("own_use.say"),
        picture=Picture("guard"),
        buttons=(
            Button(scene.say("button.own_hole", holes=holes), Act("own_hole")),
            Button(scene.say("button.own_use_end"), Act("own_use_end"), "main"),
        ),
    )


# --- the menu and its forms ----------------------------------------------------------------------


def menu_view(scene: Scene) -> View:
    """What a signed-in adult can do just now; who does no checks is told whom to tell."""
    acts = _allowed(scene)
    due = "care.due" if "care" in acts else "care.due_tell"
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("menu.title", name=scene.adult_name(scene.kiosk.desk.signed)),
        lines=(
            *ending_note(scene, scene.kiosk.desk.signed),
            *checks_due(scene, due),
            *unsure_lines(scene),
        ),
        choices=tuple(choice(scene.say(f"menu.{a}"), Act(a)) for a in acts),
        buttons=(Button(scene.say("button.done"), LeavePage()),),
    )


def _allowed(scene: Scene) -> tuple[str, ...]:
    """What the signed-in adult may do of what can be done now."""
    shop, kiosk, signed = scene.shop, scene.kiosk, scene.kiosk.desk.signed
    return tuple(a for a in _acts(scene) if may(shop, kiosk, signed, a, scene.now))


def _acts(scene: Scene) -> tuple[str, ...]:
    kiosk = scene.kiosk
    lesson: tuple[str, ...] = ("open",)
    if kiosk.lesson:
        pilots = ("pilots",) if piloted_choices(scene.shop, kiosk) else ()
        lesson = ("close", "longer", "tighter", *pilots)
    if can_resume(kiosk):
        lesson = ("resume", "close")
    office = (
        *("note", "incidents", "jobs_made", "sheets"),
        *("download", "package", "down", "people", "care"),
    )
    if kiosk.machine.out_of_use:
        back = ("return",) if may_return(scene.shop, kiosk, kiosk.desk.signed, scene.now) else ()
        return (*back, "help_start", *office)
    quiet = quiet_choices(scene)
    level = ("level",) if scene.shop.content.people.watched else ()
    return (
        *(*lesson, "pre_use", *quiet, *level),
        *("help_start", "out", *office),
    )


def pre_use_view(scene: Scene) -> View:
    """The machine's pre-use check: at most seven plain lines, looked at, not ticked."""
    items = scene.shop.machine.pre_use
    wrong = Button(scene.say("button.pre_use_wrong"), Act("pre_use_wrong"))
    right = Button(scene.say("button.pre_use_right"), Act("pre_use_right"), "adult")
    return View(
        screen="pre_use",
        head=head(scene),
        title=scene.say("pre_use.title"),
        lines=tuple(scene.pre_use(i.id) for i in items),
        buttons=(leave(scene), wrong, right),
    )


def form_view(scene: Scene, page: str) -> View:
    """One question of a form with its choices."""
    makers = {
        "pre_use_wrong": _pre_use_items,
        "out": _out_reasons,
        "group": _groups,
        "jobs": _jobs,
        "length": _lengths,
        "note_what": _note_kinds,
        "note_hazard": _hazards,
    }
    extra: tuple[Button, ...] = ()
    if page == "jobs":
        live = bool(scene.kiosk.desk.picked("jobs"))
        extra = (Button(scene.say("button.jobs_done"), Act("jobs_done"), "main", live),)
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"form.{page}"),
        choices=makers[page](scene),
        buttons=(leave(scene), *extra),
    )


def _pre_use_items(scene: Scene) -> tuple[Button, ...]:
    items = scene.shop.machine.pre_use
    return tuple(choice(scene.pre_use(i.id), Act("pre_use_item", i.id)) for i in items)


def _out_reasons(scene: Scene) -> tuple[Button, ...]:
    return tuple(choice(scene.say(f"out.{r}"), Act("out_why", r)) for r in KINDS)


def _groups(scene: Scene) -> tuple[Button, ...]:
    return tuple(choice(g.name, Choose("group", g.id)) for g in scene.shop.roster.groups)


def _jobs(scene: Scene) -> tuple[Button, ...]:
    """The jobs of the files, and those made for the group."""
    kiosk, group = scene.kiosk, scene.kiosk.desk.answer("group")
    jobs = (j for j in scene.shop.content.jobs if kiosk.made.is_for(j.id, group))
    return tuple(_job(scene, j, j.id in kiosk.desk.picked("jobs")) for j in jobs)


def _job(scene: Scene, job: Job, is_picked: bool) -> Button:
    name = job_name(scene, job)
    label = scene.say("form.picked", job=name) if is_picked else name
    return choice(label, Choose("jobs", job.id), look="picked" if is_picked else "choice")


def _lengths(scene: Scene) -> tuple[Button, ...]:
    return tuple(
        choice(scene.say("form.minutes", n=n), Choose("length", str(n))) for n in LENGTHS_MIN
    )


def _note_kinds(scene: Scene) -> tuple[Button, ...]:
    return tuple(choice(scene.say(f"note.{k}"), Choose("note_what", k)) for k in NOTE_KINDS)


def _hazards(scene: Scene) -> tuple[Button, ...]:
    hazards = scene.shop.content.assessment.hazards
    return tuple(choice(scene.say(f"hazard.{h.id}"), Choose("note_hazard", h.id)) for h in hazards)


def note_view(scene: Scene) -> View:
    """An adult types what happened; no names."""
    desk = scene.kiosk.desk
    what, hazard = desk.answer("what"), desk.answer("hazard")
    return View(
        screen="note",
        head=head(scene),
        title=scene.say("note.title", what=scene.say(f"note.{what}")),
        keys=Keys(what, hazard, scene.say("note.prompt"), scene.say("button.note_done")),
        buttons=(to_page(scene, "note"),),
    )
