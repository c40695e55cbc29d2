"""The screens on which an adult follows a near miss or an incident up."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.incidents import PARTS, Incident
from kiosk.core.units import day_named
from kiosk.core.view.scene import Scene, choice, head, leave, to_page
from kiosk.core.view.shape import Button, Keys, View

TEXT_SHOWN = 120


def incidents_view(scene: Scene) -> View:
    """What is not closed yet, and the hazards to look at again in the assessment."""
    incidents = scene.kiosk.incidents
    told = "incidents.say" if incidents.open or incidents.marked else "incidents.none"
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("incidents.title"),
        lines=scene.lines(told),
        choices=(
            *(choice(_label(scene, i), Act("incident", i.note)) for i in incidents.open),
            *(_marked(scene, hazard) for hazard in incidents.marked),
        ),
        buttons=(to_page(scene, "menu"), Button(scene.say("incidents.note"), Act("note"))),
    )


def _label(scene: Scene, incident: Incident) -> str:
    hazard, day = scene.say(f"hazard.{incident.hazard}"), day_named(incident.day)
    return f"{scene.say(f'incidents.{incident.what}')}\n{day}: {hazard}"


def _marked(scene: Scene, hazard: str) -> Button:
    label = scene.say("incidents.marked", hazard=scene.say(f"hazard.{hazard}"))
    return choice(label, Act("hazard_reviewed", hazard))


def incident_view(scene: Scene) -> View:
    """One of them: what happened, what is still to be said, and who judges about reporting."""
    incident = scene.kiosk.incidents.find(scene.kiosk.desk.about)
    assert incident is not None
    close = Act("close_incident", incident.note)
    return View(
        screen="incident",
        head=head(scene),
        title=_label(scene, incident).replace("\n", ". "),
        secret=_texts(scene, incident),
        lines=scene.lines("incidents.report"),
        choices=(
            *(_part(scene, incident, part) for part in PARTS),
            *(_review(scene, incident, answer) for answer in ("yes", "no")),
        ),
        buttons=(
            to_page(scene, "incidents"),
            Button(scene.say("incidents.close"), close, "adult", live=incident.is_answered),
        ),
    )


def _texts(scene: Scene, incident: Incident) -> tuple[str, ...]:
    """What was written, each shortened to a line or two; what was erased says so."""
    found = dict(scene.shop.notes)
    written = (("happened", incident.note), ("cause", incident.cause), ("action", incident.action))
    return tuple(
        scene.say(f"incidents.text_{part}", text=_short(scene, found.get(note)))
        for part, note in written
        if note
    )


def _short(scene: Scene, text: str | None) -> str:
    if text is None:
        return scene.say("incidents.erased")
    flat = " ".join(text.split())
    return flat if len(flat) <= TEXT_SHOWN else f"{flat[: TEXT_SHOWN - 1]}…"


def _part(scene: Scene, incident: Incident, part: str) -> Button:
    label = scene.say(f"incidents.{part}")
    is_said = bool(incident.cause if part == "cause" else incident.action)
    label = scene.say("form.picked", job=label) if is_said else label
    return choice(label, Act("follow", f"{incident.note} {part}"), look=_look(is_said))


def _review(scene: Scene, incident: Incident, answer: str) -> Button:
    label, is_said = scene.say(f"incidents.review_{answer}"), incident.reviewed == answer
    label = scene.say("form.picked", job=label) if is_said else label
    return choice(label, Act("review", f"{incident.note} {answer}"), look=_look(is_said))


def _look(is_said: bool) -> str:
    return "picked" if is_said else "choice"


def follow_view(scene: Scene) -> View:
    """An adult types the cause, or what was done; no names."""
    of, _, part = scene.kiosk.desk.about.partition(" ")
    incident = scene.kiosk.incidents.find(of)
    what, hazard = (incident.what, incident.hazard) if incident else ("note", "")
    return View(
        screen="note",
        head=head(scene),
        title=scene.say(f"incidents.{part}"),
        keys=Keys(what, hazard, scene.say(f"incidents.ask_{part}"), scene.say("button.note_done")),
        buttons=(leave(scene),),
    )
