"""What is refused, leads to nothing or to less, since one thing stands in the way.

In most lessons another guard holds as well; here only the one asked about does.
"""

from __future__ import annotations

from typing import Any

import pytest

from kiosk.core import events as ev
from kiosk.core import inputs as given
from kiosk.core.inputs import Act, Choose, Input, TypePin
from kiosk.core.kiosk import decide
from kiosk.core.session import Halt
from kiosk.core.values import replace
from kiosk.core.walk.grounds import WORK
from kiosk.core.walk.spots import NOW, later
from tests.core.guarded import (
    A1,
    LOST,
    OFF,
    ON,
    SOON,
    adult,
    desk,
    ground,
    kinds,
    kiosk_at,
    lesson,
    machine,
    reading,
    session,
    session_at,
    shop_with,
    standing_at,
    trying,
)

JOB = desk("lesson", page="job", about="1")
MENU = desk("lesson", page="menu", signed=A1)
NO_LESSON = replace(MENU, lesson=None)
AT_CHECK = session_at("check").step.id
AT_DRILL = session_at("drilling").step.id
SPELL = lesson("check", spell=lesson("drilling").lesson.spell)  # type: ignore[union-attr]
WAITS = trying("check", purpose="ok", adult=A1)
BY_BADGE = trying("check", purpose="ok", adult="", way="badge")
STRANGER = adult(desk("check", page="pin", purpose="ok", adult=A1, typed=True), role="trainee")
PAUSED = replace(kiosk_at("check"), adults=replace(kiosk_at("check").adults, slipped=SOON))
CODE = replace(PAUSED, desk=desk("check", page="code", purpose="ok", adult=A1).desk)
LENGTH = desk("lesson", page="length", signed=A1, answers=(("group", "g"), ("jobs", WORK)))
LAST = session("wrong", halt=replace(session_at("wrong").halt, at=1))
CLEAR = replace(LAST, desk=desk("wrong", page="clear", signed=A1).desk)
FREED = session(CLEAR, halt=Halt("wrong", "bit_broken", 3), way="sensed")


@pytest.mark.parametrize(
    ("kiosk", "what", "refusal"),
    [
        (machine("lesson", own_use=A1), given.PickPupil(1), "no_lesson"),
        (kiosk_at("lesson"), given.PickJob(WORK, 0), "no_lesson"),
        (JOB, given.PickJob("nothing", 0), "no_lesson"),
        (reading(JOB, starter=ON), given.PickJob(WORK, 0), "still_running"),
        (lesson(JOB, waiting="p9"), given.PickJob(WORK, 0), "in_line"),
        (lesson("lesson", waiting="p9"), given.PickPupil(1), "in_line"),
        (standing_at("adult"), given.SeenRight(standing_at("adult").session.step.id), "adult_step"),  # type: ignore[union-attr]
        (
            reading(kiosk_at("hands"), isolator=ON),
            given.SeenRight(session_at("hands").step.id),
            "isolator_not_off",
        ),
        (LAST, given.SeenRight("alarm_adult"), "adult_step"),
        (session(kiosk_at("hands"), at=0), given.GoBack(), "no_way_back"),
        (reading(kiosk_at("drilling"), starter=ON), given.Still(), "still_running"),
        (session(kiosk_at("drilling"), off_since=SOON), given.Still(), "run_down"),
        (kiosk_at("drilling"), given.AskAdult("ok"), "drilling"),
        (STRANGER, TypePin(A1, "1"), "not_allowed"),
        (
            replace(desk("check", page="pin", purpose="ok", adult=A1), adults=WAITS.adults),
            TypePin(A1, "1"),
            "pin_busy",
        ),
        (replace(SPELL, adults=STRANGER.adults), given.SpellOk(), "not_allowed"),
        (
            replace(reading(standing_at("adult"), isolator=ON), lesson=SPELL.lesson),
            given.SpellOk(),
            "isolator_not_off",
        ),
        (WAITS, given.BadgeRead("1"), "pin_busy"),
        (PAUSED, given.BadgeRead("1"), "pause"),
        (CODE, given.TypeCode(A1, "1"), "pause"),
        (reading(CLEAR, starter=ON), Act("again"), "still_running"),
        (reading(CLEAR, isolator=LOST), Act("again"), "isolator_unread"),
        (reading(FREED, isolator=ON), Act("end"), "isolator_not_off"),
        (
            replace(NO_LESSON, machine=machine("lesson", out_of_use="belt").machine),
            Act("open"),
            "out_of_use",
        ),
    ],
)
def test_it_is_refused(kiosk: Any, what: Input, refusal: str) -> None:
    assert decide(ground().shop, kiosk, what, SOON).refusal == refusal


@pytest.mark.parametrize(
    ("kiosk", "what"),
    [
        (lesson("lesson", stopped=True), given.StopEveryone()),
        (kiosk_at("hands"), given.SeenRight("nothing")),
        (kiosk_at("check"), given.SeenRight(AT_CHECK)),
        (kiosk_at("drilling"), given.SeenRight(AT_DRILL)),
        (kiosk_at("unread"), given.SeenRight(session_at("unread").step.id)),
        (kiosk_at("hands"), given.Still()),
        (kiosk_at("lesson"), given.EndSpell()),
        (kiosk_at("hands"), given.AskAdult("ok")),
        (desk("check", page="names", purpose="ok", adult=A1), TypePin(A1, "1")),
        (desk("check", page="pin", purpose="ok", adult="a2"), TypePin(A1, "1")),
        (BY_BADGE, given.PinChecked("", True)),
        (WAITS, given.PinChecked("a2", True)),
        (reading(SPELL, starter=ON), given.SpellOk()),
        (kiosk_at("lesson"), given.OpenPage("code")),
        (WAITS, given.CodeChecked(A1, 1)),
        (trying("check", purpose="ok", adult=A1, way="code"), given.CodeChecked("a2", 1)),
        (
            session(
                desk("check", page="names"), halt=replace(session_at("wrong").halt, trouble="")
            ),
            given.NameTrouble("bit_broken"),
        ),
        (kiosk_at("wrong"), given.SeenRight("nothing")),
        (CLEAR, Act("out_why", "nothing")),
        (session(kiosk_at("drilling"), trouble="reading_lost"), given.SomethingWrong()),
        (kiosk_at("hands"), given.OpenPage("not_right")),
        (kiosk_at("lesson"), Act("own_use_end")),
        (kiosk_at("lesson"), Act("own_hole")),
        (kiosk_at("lesson"), Act("menu")),
        (kiosk_at("lesson"), Choose("group", "g")),
        (desk("lesson", page="group"), Choose("group", "g")),
        (kiosk_at("lesson"), given.PickLanguage("pl")),
        (MENU, Act("jobs_done")),
        (NO_LESSON, Act("close")),
        (MENU, Act("resume")),
        (MENU, Choose("group", "g")),
        (desk("lesson", page="group", signed=A1), Choose("group", "nothing")),
        (desk("lesson", page="jobs", signed=A1), Choose("jobs", "nothing")),
        (desk("lesson", page="length", signed=A1), Choose("length", "x")),
        (replace(LENGTH, lesson=None), Choose("length", "61")),
        (
            replace(
                desk("lesson", page="length", signed=A1, answers=(("group", "g"),)), lesson=None
            ),
            Choose("length", "60"),
        ),
        (desk("lesson", page="note_what", signed=A1), Choose("note_what", "nothing")),
        (MENU, Act("pre_use_right")),
        (MENU, Act("pre_use_item", "no")),
        (MENU, Act("out_why", "nothing")),
        (replace(MENU, machine=machine("lesson", out_of_use="belt").machine), Act("own_use")),
        (MENU, Act("return")),
    ],
)
def test_it_leads_to_nothing(kiosk: Any, what: Input) -> None:
    decided = decide(ground().shop, kiosk, what, SOON)

    assert (decided.events, decided.refusal) == ((), "")


SAID = session(kiosk_at("hands"), way="said")
GONE = session(kiosk_at("hands"), halt=replace(session_at("wrong").halt, why="gone"))
READ, RAN = "ReadingChanged", "RunWithoutOkSeen"


@pytest.mark.parametrize(
    ("kiosk", "what", "events"),
    [
        (kiosk_at("hands"), given.ReadingIs("guard", LOST, "settled"), (READ,)),
        (SAID, given.ReadingIs("isolator", LOST, "settled"), (READ,)),
        (GONE, given.ReadingIs("starter", ON, "settled"), (READ, RAN)),
        (kiosk_at("lesson"), given.LeavePage(), ("DeskCleared",)),
        (kiosk_at("lesson"), given.PickPupil(1), ("PageOpened",)),
        (BY_BADGE, given.BadgeChecked(""), ("BadgeUnknown",)),
        (
            replace(STRANGER, adults=replace(STRANGER.adults, trying=WAITS.adults.trying)),
            given.PinChecked(A1, True),
            ("PinPassed",),
        ),
    ],
)
def test_it_leads_to_this_and_no_more(kiosk: Any, what: Input, events: tuple[str, ...]) -> None:
    assert kinds(decide(ground().shop, kiosk, what, SOON)) == events


def test_a_record_of_newer_kinds_opens_no_lesson() -> None:
    shop = replace(ground().shop, reads_all=False)

    assert decide(shop, NO_LESSON, Act("open"), SOON).refusal == "newer_record"


def test_a_hole_without_a_plan_begins_no_session() -> None:
    shop = replace(ground().shop, content=replace(ground().shop.content, bits=()))

    assert decide(shop, JOB, given.PickJob(WORK, 0), SOON).refusal == "no_plan"


def test_without_an_isolator_contact_a_session_goes_by_what_is_said() -> None:
    begun = decide(shop_with("starter"), JOB, given.PickJob(WORK, 0), SOON).events[0]

    assert isinstance(begun, ev.SessionStarted) and begun.way == "said"


def test_how_long_it_ran_down_is_not_told_across_a_restart() -> None:
    before = later(NOW, -60.0, "another boot")
    kiosk = kiosk_at("lesson")
    readings = (("spindle", ON, before), ("starter", OFF, before))
    kiosk = replace(kiosk, machine=replace(kiosk.machine, readings=readings))

    stopped = decide(ground().shop, kiosk, given.ReadingIs("spindle", OFF, "settled"), SOON)

    assert kinds(stopped) == (READ,)
