"""What can be read beside a step: why, how each number was worked out, its shop words."""

from __future__ import annotations

import re

import pytest

from kiosk.content.wording import sentences
from kiosk.core.inputs import AskAdult, PickJob, PickPupil, SeenRight
from tests.core.story import CONTENT, WORDS, Story, lesson_open


def at_the_steps(job: str = "pen_block") -> Story:
    story = lesson_open((job, "shelf_bracket"))
    story.touch(PickPupil(5))
    story.touch(PickJob(job, 0))
    return story


def every_step(story: Story) -> list[tuple[str, object]]:
    """Each step's id and view, up to the adult check."""
    seen = []
    while story.view.screen != "adult_check":
        seen.append((story.kiosk.session.step.id, story.view))
        story.do_step()
    return seen


def labelled(view, label):
    return [aside for aside in view.asides if aside.label == label]


@pytest.fixture(scope="module")
def steps():
    return every_step(at_the_steps())


def test_every_step_says_why(steps) -> None:
    for step, view in steps:
        (why,) = labelled(view, "Why?")
        said = tuple(WORDS.say(f"step.{step}.why", material="pine").split("\n"))
        assert why.lines == said


def test_why_is_the_hazard_in_a_sentence_or_two_and_no_list_of_measures() -> None:
    shown = [step for step in CONTENT.drilling.steps if step.part not in ("check", "drill")]

    for code in ("en", "cy", "pl", "uk"):
        for step in shown:
            why = WORDS.of(code).say(f"step.{step.id}.why", material="pine")
            assert 1 <= len(sentences(why)) <= 2, (code, step.id)


def test_no_why_speaks_of_a_vice_to_a_pupil_who_has_clamps_or_the_other_way_round() -> None:
    for step in CONTENT.drilling.steps:
        why = WORDS.maybe(f"step.{step.id}.why", material="pine").lower()
        ways = [words for name, words in step.when.tests if name == "way"]
        if ways == [("clamps",)]:
            assert "vice" not in why, step.id
        if ways == [("vice",)]:
            assert "clamp" not in why, step.id


def test_no_line_can_end_between_a_number_and_its_unit(steps) -> None:
    told = [line for _, view in steps for aside in view.asides for line in aside.lines]

    parted = [line for line in told if re.search(r"\d (mm|rpm|m/min|ft/min|s|N)\b", line)]

    assert "mm" in " ".join(told)
    assert parted == []


def test_every_number_on_a_step_says_how_it_was_worked_out(steps) -> None:
    (stop,) = [view for step, view in steps if view.title == "Set the depth stop"]

    (worked,) = labelled(stop, "How was this worked out?")

    told = "\n".join(worked.lines)
    for name in ("Stop: 32.5\u00a0mm", "Point: 2.9\u00a0mm", "Floor: 12.5\u00a0mm"):
        assert name in told
    told = told.replace("\u00a0", " ")
    assert "30 mm + 2.9 mm point = 32.9 mm, set 32.5 mm: the floor stays thicker" in told
    assert "32.5 mm - 2.9 mm point = 29.6 mm" in told
    assert "45 mm - 32.5 mm = 12.5 mm" in told
    assert "Source: geometry; zero is the point touching the work" in told


def test_a_number_that_was_not_summed_up_has_no_sum(steps) -> None:
    (belt,) = [view for _, view in steps if view.title == "Belt, an adult's job"]

    (worked,) = labelled(belt, "How was this worked out?")

    (groove,) = [line for line in worked.lines if line.startswith("Groove")]
    assert "Sum" not in groove
    assert groove.endswith("Source: the machine's plate.")


def test_a_source_that_is_no_handbook_is_called_a_starting_value(steps) -> None:
    told = "\n".join(line for _, view in steps for a in view.asides for line in a.lines)

    assert "from memory" in "".join(b.source for m in CONTENT.materials for b in m.bands)
    assert "from memory" not in told
    assert "starting value, not from a handbook" in told


def test_the_note_on_the_depth_step_adds_up_to_the_stop_and_the_thickness(steps) -> None:
    (stop,) = [view for _, view in steps if view.title == "Set the depth stop"]

    deep, point, floor = (float(n) for n in re.findall(r"([\d.]+)\u00a0mm", stop.note))

    assert (deep, point, floor) == (29.6, 2.9, 12.5)
    assert deep + point == pytest.approx(32.5)
    assert deep + point + floor == pytest.approx(45)


def test_a_step_without_numbers_has_no_working(steps) -> None:
    (eyes,) = [view for _, view in steps if view.title == "Eyes"]

    assert labelled(eyes, "How was this worked out?") == []


def test_every_worked_number_has_a_name_in_words() -> None:
    for job in ("pen_block", "hook_bar", "key_tag"):
        story = at_the_steps(job)
        for figure in story.kiosk.session.plan.figures:
            assert WORDS.has(f"worked.{figure.name}.name"), figure.name
            assert WORDS.has(f"worked.{figure.name}"), figure.name


def test_shop_words_of_the_sentences_come_with_their_meaning_and_drawing(steps) -> None:
    (chuck,) = [view for _, view in steps if view.title == "Fit the bit"]

    (aside,) = labelled(chuck, "")

    found = {word.name: word for word in aside.words}
    assert found["chuck"].means == WORDS.say("word.chuck")
    assert found["chuck"].picture.name == "word_chuck"
    assert all(f in "\n".join(chuck.lines) for word in aside.words for f in word.forms)


def test_the_longer_of_two_shop_words_counts() -> None:
    found = dict(WORDS.shop_words_in("Set the depth stop."))

    assert found == {"depth_stop": "depth stop"}


def test_a_part_of_another_word_is_no_shop_word() -> None:
    assert WORDS.shop_words_in("A bitter tablet.") == ()


def test_the_adult_sees_how_the_numbers_of_the_check_were_worked_out() -> None:
    story = at_the_steps()
    story.do_steps("adult_check")

    (worked,) = story.view.asides

    assert any(line.startswith("Speed: 1200\u00a0rpm") for line in worked.lines)


def test_nothing_is_to_be_read_beside_the_drilling_screen() -> None:
    story = at_the_steps()
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))
    story.pin()

    assert story.view.screen == "drilling"
    assert story.view.asides == ()


def test_still_there_takes_away_what_is_read() -> None:
    story = at_the_steps()

    story.wait(61)

    assert story.view.asides == ()
    assert not [b for b in story.view.buttons if isinstance(b.touch, SeenRight)]
