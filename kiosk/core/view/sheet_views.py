"""The screens of printed sheets: which one, what it says, and on its way to a stick."""

from __future__ import annotations

from kiosk.core.inputs import Act
from kiosk.core.kiosk.sheet_acts import BUSY, CARD, SHEETS
from kiosk.core.view.jobs import job_name
from kiosk.core.view.scene import Scene, choice, head, to_page
from kiosk.core.view.shape import Button, Progress, View

OWN = (*BUSY, "done", "no_sheet")
"""What a sheet's page says in words of its own; a stick's faults are a download's."""


def sheets_view(scene: Scene) -> View:
    """Which sheet."""
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("sheets.title"),
        choices=tuple(choice(scene.say(f"sheets.{_key(s)}"), Act("sheet", s)) for s in SHEETS),
        buttons=(to_page(scene, "menu"),),
    )


def _key(sheet: str) -> str:
    return sheet.replace(" ", "_").lower()


def cards_view(scene: Scene) -> View:
    """Whose lesson card: a job of the files, or one made at the screen."""
    jobs = scene.shop.content.jobs
    return View(
        screen="form",
        head=head(scene),
        title=scene.say("sheets.which_job"),
        choices=tuple(choice(job_name(scene, j), Act("sheet", f"{CARD} {j.id}")) for j in jobs),
        buttons=(to_page(scene, "sheets"),),
    )


def sheet_view(scene: Scene) -> View:
    """A sheet to be read part by part; once it is on its way, how far it has come and its end."""
    desk = scene.kiosk.desk
    if desk.why:
        return _told(scene)
    at = int(desk.answer("part") or 0)
    heading, *lines = desk.parts[at]
    onward = Act("sheet_part", str((at + 1) % len(desk.parts)))
    return View(
        screen="sheet",
        head=head(scene),
        title=scene.say("sheets.part", at=at + 1, of=len(desk.parts), heading=heading),
        lines=tuple(lines),
        buttons=(
            to_page(scene, "sheets"),
            Button(scene.say("sheets.onward"), onward, live=len(desk.parts) > 1),
            Button(scene.say("sheets.to_stick"), Act("sheet_out", desk.about)),
        ),
    )


def _told(scene: Scene) -> View:
    """While somebody is at work on it, and how that ended."""
    desk = scene.kiosk.desk
    word = scene.say("sheets.progress", done=desk.done, whole=desk.whole)
    again = Button(scene.say("sheets.to_stick"), Act("sheet_out", desk.about))
    can_try = bool(desk.parts) and desk.why not in (*BUSY, "done")
    is_moving = desk.why == "writing" and desk.whole > 0
    return View(
        screen="sheet",
        head=head(scene),
        title=_name(scene, desk.about),
        lines=scene.lines(f"{'sheets' if desk.why in OWN else 'download'}.{desk.why}"),
        progress=Progress(desk.done, desk.whole, word) if is_moving else None,
        buttons=(to_page(scene, "sheets"), again) if can_try else (_done(scene),),
    )


def _done(scene: Scene) -> Button:
    """Back to the sheets; not while one is written."""
    is_live = scene.kiosk.desk.why != "writing"
    return Button(scene.say("button.done"), Act("sheets"), "main", live=is_live)


def _name(scene: Scene, sheet: str) -> str:
    kind, _, job = sheet.partition(" ")
    found = scene.shop.content.job(job) if kind == CARD else None
    if found is None:
        return scene.say(f"sheets.{_key(sheet)}")
    return f"{scene.say('sheets.card')}: {job_name(scene, found)}"
