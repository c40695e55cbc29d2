"""*Questions before you drill*: one question, and the reason after its answer."""

from __future__ import annotations

from kiosk.core.inputs import Choose
from kiosk.core.kiosk.mixing import mixed
from kiosk.core.kiosk.question_acts import question_asked
from kiosk.core.view.scene import Scene, choice, head, leave
from kiosk.core.view.shape import Button, View


def question_view(scene: Scene) -> View:
    """One question, its answers mixed."""
    question, desk = question_asked(scene.shop, scene.kiosk), scene.kiosk.desk
    id, answers = (question.id, question.answers) if question else ("", ())
    seed = int(desk.answer("seed") or 0) + len(desk.picked("left"))
    return View(
        screen="form",
        head=head(scene),
        title=scene.say(f"question.{id}"),
        choices=tuple(
            choice(scene.say(f"question.{id}.{a}"), Choose("answer", a))
            for a in mixed(answers, seed)
        ),
        buttons=(leave(scene),),
    )


def reason_view(scene: Scene) -> View:
    """Whether it was right, and why: for the pupil alone."""
    question, desk = question_asked(scene.shop, scene.kiosk), scene.kiosk.desk
    id = question.id if question else ""
    right = question is not None and desk.answer("said") == question.right
    told = scene.say(f"question.{id}.{question.right}") if question else ""
    return View(
        screen="menu",
        head=head(scene),
        title=scene.say("reason.right" if right else "reason.not"),
        lines=(told, *scene.lines(f"question.{id}.why")),
        buttons=(Button(scene.say("reason.go_on"), Choose("go_on", ""), "main"),),
    )
