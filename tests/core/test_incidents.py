"""A near miss or an incident followed up: cause, action, review, closing; its hazard is marked."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.events import (
    FollowedUp,
    IncidentClosed,
    ReviewSaid,
    SessionEnded,
    TakenOutOfUse,
)
from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    LeavePage,
    NameTrouble,
    NoteKept,
    SomethingWrong,
)
from kiosk.core.kiosk import EMPTY, replay
from tests.core.adults_story import signed_in
from tests.core.care_story import at_the_menu, broken, shown
from tests.core.story import TEACHER, Story, begun
from tests.core.test_lesson import at_the_check

DIGEST = "0" * 64


def noted(what: str = "near_miss", hazard: str = "grabbed_work", note: str = "n1") -> Story:
    """A teacher has noted what happened; its text lies apart."""
    story = signed_in(TEACHER)
    story.shop = story.shop.noting(note, "The bit caught\nand the tag spun.")
    story.touch(Act("note"))
    story.touch(Choose("note_what", what))
    story.touch(Choose("note_hazard", hazard))
    story.give(NoteKept(note, what, hazard, DIGEST))
    story.touch(Act("incidents"))
    return story


def written(story: Story, part: str, note: str) -> None:
    story.touch(Act("follow", f"n1 {part}"))
    story.give(NoteKept(note, "near_miss", "grabbed_work", DIGEST))


def followed() -> Story:
    story = noted()
    story.touch(Act("incident", "n1"))
    written(story, "cause", "n2")
    written(story, "action", "n3")
    return story


def test_a_near_miss_marks_its_hazard_for_review() -> None:
    story = noted()

    assert story.kiosk.incidents.marked == ("grabbed_work",)
    labels = [b.label for b in story.view.choices]
    assert any(label.startswith("Review in the assessment") for label in labels)


def test_a_near_miss_is_noted_from_where_near_misses_are_listed() -> None:
    story = signed_in(TEACHER)
    story.touch(Act("incidents"))

    story.touch(Act("note"))

    labels = [b.label for b in story.view.choices]
    assert labels[0] == "Near miss: nobody was hurt"


def test_a_plain_note_is_not_followed_up() -> None:
    story = noted("note", "dust")

    assert story.kiosk.incidents.open == ()
    assert story.kiosk.incidents.marked == ()


def test_what_happened_is_shown_and_never_logged() -> None:
    story = noted()

    story.touch(Act("incident", "n1"))

    assert "The bit caught and the tag spun." in story.view.secret[0]
    assert not any("caught" in line for line in (*story.view.lines, story.view.title))


def test_who_must_be_told_is_left_to_the_responsible_person() -> None:
    story = noted()

    story.touch(Act("incident", "n1"))

    assert "responsible person" in " ".join(story.view.lines)
    assert "local law" in " ".join(story.view.lines)


def test_it_is_closed_only_with_cause_action_and_review() -> None:
    story = followed()
    assert Act("close_incident", "n1") not in shown(story)
    story.give(Act("close_incident", "n1"))
    assert story.refusal == "follow_first"

    story.touch(Act("review", "n1 yes"))
    story.touch(Act("close_incident", "n1"))

    assert story.kiosk.incidents.open == ()
    assert story.kiosk.incidents.marked == ()
    assert story.events(FollowedUp) == [
        FollowedUp("a1", "n1", "cause", "n2", DIGEST),
        FollowedUp("a1", "n1", "action", "n3", DIGEST),
    ]
    assert story.events(IncidentClosed) == [IncidentClosed("a1", "n1")]
    assert broken(story) == set()


def test_closed_with_no_review_the_hazard_stays_marked_until_it_is_reviewed() -> None:
    story = followed()
    story.touch(Act("review", "n1 no"))
    story.touch(Act("close_incident", "n1"))
    assert story.kiosk.incidents.marked == ("grabbed_work",)

    story.touch(Act("hazard_reviewed", "grabbed_work"))

    assert story.kiosk.incidents.marked == ()
    assert story.events(ReviewSaid)[-1] == ReviewSaid("a1", "", "grabbed_work", "yes")


def test_another_near_miss_marks_a_reviewed_hazard_anew() -> None:
    story = followed()
    story.touch(Act("review", "n1 yes"))
    assert story.kiosk.incidents.marked == ()
    story.touch(Act("incidents"))
    story.touch(Act("menu"))
    story.touch(Act("note"))
    story.touch(Choose("note_what", "incident"))
    story.touch(Choose("note_hazard", "grabbed_work"))

    story.give(NoteKept("n9", "incident", "grabbed_work", DIGEST))

    assert story.kiosk.incidents.marked == ("grabbed_work",)


def test_an_erased_text_says_so() -> None:
    story = followed()
    story.shop = replace(story.shop, notes=())

    assert all("erased" in line for line in story.view.secret)


def test_it_all_stands_after_a_replay_and_nobody_else_may_do_it() -> None:
    story = followed()
    assert replay(story.record, EMPTY).incidents == story.kiosk.incidents

    story.give(LeavePage())
    story.give(Act("close_incident", "n1"))

    assert story.events(IncidentClosed) == []
    assert AskAdult("menu") in shown(story)
    at_the_menu(story, TEACHER)
    assert Act("incidents") in shown(story)


def test_back_from_the_keyboard_leads_to_what_is_noted_and_the_adult_stays_signed_in() -> None:
    story = signed_in(TEACHER)
    story.touch(Act("note"))
    story.touch(Choose("note_what", "near_miss"))
    story.touch(Choose("note_hazard", "grabbed_work"))

    story.touch(next(b.touch for b in story.view.buttons if b.label == "Back"))

    assert story.view.title == "What are you noting?"
    story.touch(Choose("note_what", "incident"))
    assert story.view.title == "What was it about?"


def somebody_hurt(story: Story) -> None:
    """Somebody was hurt, and the adult who came is let in."""
    story.touch(SomethingWrong())
    story.touch(NameTrouble("hurt"))
    story.touch(AskAdult("clear"))
    story.pin()


def test_a_note_kept_where_somebody_was_hurt_is_said_to_be_and_a_further_one_may_follow() -> None:
    story = begun()
    somebody_hurt(story)
    before = story.view
    story.touch(Act("note"))
    story.touch(Choose("note_what", "incident"))
    story.touch(Choose("note_hazard", "grabbed_work"))

    story.give(NoteKept("n1", "incident", "grabbed_work", "0" * 64))

    labels = [c.label for c in story.view.choices]
    assert story.view.lines == ("Note kept.", *before.lines)
    assert "Write another note" in labels
    assert "Write a note first" in [c.label for c in before.choices]
    assert "Note kept." not in before.lines


def test_where_somebody_was_hurt_the_drill_may_go_out_of_use_and_the_turn_ends() -> None:
    story = at_the_check()
    somebody_hurt(story)

    story.touch(Act("out"))
    story.touch(Act("out_why", "locked_off"))

    assert story.events(TakenOutOfUse) == [TakenOutOfUse("locked_off", TEACHER.ref)]
    assert story.events(SessionEnded) == [SessionEnded("ended")]
    assert story.view.screen == "out_of_use"
