"""`show`: the state as one screen, in the words of one language. Pure."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.kiosk.fitted import fitted
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.kiosk.trouble_acts import is_naming
from kiosk.core.session import Session
from kiosk.core.units import Moment
from kiosk.core.view.adult_check import check_view, not_right_view
from kiosk.core.view.adult_views import (
    form_view,
    idle_view,
    menu_view,
    note_view,
    out_of_use_view,
    own_use_view,
    pre_use_view,
)
from kiosk.core.view.asides import wipe_aside
from kiosk.core.view.care_views import (
    ask_restart_view,
    care_view,
    data_view,
    datum_view,
    deputy_view,
    down_view,
    fault_log_view,
    rack_view,
    racks_view,
    restarting_view,
)
from kiosk.core.view.check_views import check_view as installation_view
from kiosk.core.view.check_views import checks_view
from kiosk.core.view.computer_views import computer_view, part_view
from kiosk.core.view.contact_views import help_start_view
from kiosk.core.view.incident_views import follow_view, incident_view, incidents_view
from kiosk.core.view.job_views import (
    job_made_view,
    jobs_made_view,
    made_view,
    make_view,
    pilots_view,
)
from kiosk.core.view.language_views import language_view
from kiosk.core.view.lesson_views import longer_view, quiet_view, tighter_view
from kiosk.core.view.level_views import level_view
from kiosk.core.view.line_views import line_job_view, line_ready_view, line_view
from kiosk.core.view.people_views import (
    badge_view,
    issuing_view,
    name_view,
    not_issued_view,
    people_view,
    person_view,
    revoke_view,
    role_view,
    secret_view,
    until_view,
)
from kiosk.core.view.pin_views import code_view, names_view, pin_view
from kiosk.core.view.pupil_views import (
    drilling_view,
    finished_view,
    job_view,
    step_view,
)
from kiosk.core.view.question_views import question_view, reason_view
from kiosk.core.view.scene import Scene, as_used, scene_of
from kiosk.core.view.shape import AT_REST, View
from kiosk.core.view.sheet_views import cards_view, sheet_view, sheets_view
from kiosk.core.view.stick_views import download_view, package_view, span_view
from kiosk.core.view.trouble_views import (
    clear_view,
    interruption_view,
    no_reading_view,
    recovery_view,
    restart_view,
    wrong_view,
)
from kiosk.core.words import Words

_PAGES = {
    "names": names_view,
    "pin": pin_view,
    "clear": clear_view,
    "help_start": help_start_view,
    "note_text": note_view,
    "menu": menu_view,
    "pre_use": pre_use_view,
    "job": job_view,
    "language": language_view,
    "finished": finished_view,
    "span": span_view,
    "download": download_view,
    "package": package_view,
    "sheets": sheets_view,
    "cards": cards_view,
    "sheet": sheet_view,
    "longer": longer_view,
    "tighter": tighter_view,
    "quiet": quiet_view,
    "line": line_view,
    "line_job": line_job_view,
    "line_ready": line_ready_view,
    "code": code_view,
    "people": people_view,
    "person": person_view,
    "role": role_view,
    "name": name_view,
    "until": until_view,
    "badge": badge_view,
    "issuing": issuing_view,
    "not_issued": not_issued_view,
    "secret": secret_view,
    "revoke_ask": revoke_view,
    "care": care_view,
    "checks": checks_view,
    "check": installation_view,
    "racks": racks_view,
    "rack": rack_view,
    "deputy": deputy_view,
    "fault_log": fault_log_view,
    "computer": computer_view,
    "part": part_view,
    "data": data_view,
    "datum": datum_view,
    "down": down_view,
    "incidents": incidents_view,
    "incident": incident_view,
    "follow": follow_view,
    "jobs_made": jobs_made_view,
    "job_made": job_made_view,
    "make": make_view,
    "made": made_view,
    "pilots": pilots_view,
    "ask_restart": ask_restart_view,
    "restarting": restarting_view,
    "level": level_view,
    "question": question_view,
    "reason": reason_view,
}
_FORMS = ("pre_use_wrong", "out", "group", "jobs", "length", "note_what", "note_hazard")


def show(shop: Shop, kiosk: Kiosk, words: Words, now: Moment, refusal: str = "") -> View:
    """The screen for this state. `refusal` is why the last touch was not taken."""
    scene = scene_of(fitted(shop, kiosk), kiosk, words, now)
    view = _view(scene)
    if view.screen in AT_REST:
        view = replace(view, asides=(*view.asides, wipe_aside(scene)))
    view = as_used(scene, view)
    return replace(view, answer=scene.say(f"answer.{refusal}")) if refusal else view


def _view(scene: Scene) -> View:
    kiosk = scene.kiosk
    if kiosk.machine.ask_still and not kiosk.machine.halt and kiosk.desk.page != "wrong":
        return restart_view(scene)
    if kiosk.session and kiosk.session.is_drilling:
        return drilling_view(scene, kiosk.session)
    page = _desk_view(scene)
    if page is not None:
        return page
    return _session_view(scene, kiosk.session) if kiosk.session else _room_view(scene)


def _desk_view(scene: Scene) -> View | None:
    """The page on the desk, if one is open."""
    page, session = scene.kiosk.desk.page, scene.kiosk.session
    if page == "wrong":
        return wrong_view(scene, session)
    if page == "not_right" and session:
        return not_right_view(scene, session)
    if page in _FORMS:
        return form_view(scene, page)
    return _PAGES[page](scene) if page in _PAGES else None


def _session_view(scene: Scene, session: Session) -> View:
    if session.halt:
        if session.halt.trouble:
            return recovery_view(scene, session.halt)
        if is_naming(scene.kiosk):
            return wrong_view(scene, session)
        return interruption_view(scene, session.halt)
    if not session.allowed:
        return no_reading_view(scene)
    if session.is_waiting_for_adult:
        return check_view(scene, session)
    return step_view(scene, session)


def _room_view(scene: Scene) -> View:
    """No session: a trouble, an adult's own use, out of use, or the lesson."""
    machine = scene.kiosk.machine
    if machine.halt:
        return recovery_view(scene, machine.halt)
    if machine.own_use:
        return own_use_view(scene)
    return out_of_use_view(scene) if machine.out_of_use else idle_view(scene)
