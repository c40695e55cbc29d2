"""Questions that the reducer asks before anything goes on, each asked by itself.

In most lessons another question holds as well; here only the one asked about stands in the way.
"""

from __future__ import annotations

from typing import Any

import pytest

from kiosk.core import events as ev
from kiosk.core.kiosk import next_deadline
from kiosk.core.kiosk.adult_acts import is_wanted
from kiosk.core.kiosk.asks import (
    check_is_due,
    is_known_off,
    is_running_down,
    lesson_runs,
    pre_use_holds,
)
from kiosk.core.kiosk.badge_acts import badge_purpose
from kiosk.core.kiosk.everyone import can_resume, can_stop, stopped_again
from kiosk.core.kiosk.shop import PRE_USE_FOR_S
from kiosk.core.model import Reading
from kiosk.core.session import advance_session, step_back
from kiosk.core.values import replace
from kiosk.core.walk.spots import NOW, later
from tests.core.guarded import (
    A1,
    LOST,
    OFF,
    ON,
    SOON,
    desk,
    entry,
    ground,
    kiosk_at,
    lesson,
    machine,
    reading,
    session,
    session_at,
    shop_with,
    standing_at,
)


@pytest.mark.parametrize(
    ("spindle", "starter", "runs_down"),
    [(ON, OFF, True), (OFF, OFF, False), (ON, ON, False)],
)
def test_it_runs_down_while_the_spindle_turns_and_the_starter_is_off(
    spindle: Reading, starter: Reading, runs_down: bool
) -> None:
    kiosk = reading(kiosk_at("lesson"), spindle=spindle, starter=starter)

    assert is_running_down(shop_with("starter", "spindle"), kiosk) == runs_down


def test_where_no_contact_tells_nobody_knows_that_it_is_off() -> None:
    assert not is_known_off(shop_with("isolator"), kiosk_at("lesson"))
    assert is_known_off(shop_with("starter"), reading(kiosk_at("lesson"), starter=OFF))


def test_the_check_of_the_day_holds_for_fourteen_hours() -> None:
    kiosk = kiosk_at("lesson")

    assert pre_use_holds(kiosk, later(NOW, PRE_USE_FOR_S - 60.0))
    assert not pre_use_holds(kiosk, later(NOW, PRE_USE_FOR_S + 3600.0))


def test_nobody_begins_before_the_drill_was_seen_still() -> None:
    assert lesson_runs(ground().shop, kiosk_at("lesson"), SOON)
    assert not lesson_runs(ground().shop, machine("lesson", ask_still=True), SOON)


@pytest.mark.parametrize("every", ["session", "set-up"])
def test_after_a_change_an_adult_looks_whatever_was_looked_at_before(every: str) -> None:
    plan = replace(session_at("check").plan, checks_every=every)
    looked = replace(session_at("check"), plan=plan, checked=True, changed=False)

    assert not check_is_due(looked, kept_is_checked=True)
    assert check_is_due(replace(looked, changed=True), kept_is_checked=True)


def test_everyone_is_stopped_only_where_a_lesson_works_and_once() -> None:
    assert can_stop(kiosk_at("lesson"))
    assert not can_stop(lesson("lesson", confirmed=False))
    assert not can_stop(machine("lesson", own_use=A1))
    assert not can_stop(lesson("lesson", stopped=True))


def test_work_goes_on_only_once_the_drill_was_seen_still() -> None:
    assert can_resume(lesson("lesson", stopped=True))
    assert not can_resume(replace(lesson("lesson", stopped=True), machine=unsure()))
    assert stopped_again(kiosk_at("lesson")) == ()


def unsure() -> Any:
    return machine("lesson", ask_still=True).machine


def test_an_adult_is_wanted_only_for_what_is_due() -> None:
    shop = ground().shop
    adults = standing_at("adult")

    assert is_wanted(shop, adults, "step")
    assert not is_wanted(shop, session(adults, halt=session_at("wrong").halt), "step")
    assert is_wanted(shop, kiosk_at("unread"), "said")
    halted = session(kiosk_at("unread"), halt=session_at("wrong").halt)
    assert not is_wanted(shop, halted, "said")
    assert not is_wanted(shop, reading(kiosk_at("check"), starter=ON), "ok")
    assert not is_wanted(shop, kiosk_at("lesson"), "confirm")
    assert not is_wanted(shop, kiosk_at("lesson"), "nonsense")


def test_a_badge_is_read_for_what_the_page_asks() -> None:
    asked = desk("check", page="names", purpose="ok")

    assert badge_purpose(ground().shop, asked) == "ok"


@pytest.mark.parametrize(
    ("kiosk", "never"),
    [
        (kiosk_at("wrong"), ("ask", "gone")),
        (kiosk_at("check"), ("ask", "gone")),
        (standing_at("adult"), ("ask", "gone")),
        (session(reading(kiosk_at("drilling"), starter=LOST), off_since=NOW), ("ask", "gone")),
        (desk("lesson", page="download", since=NOW), ("desk",)),
        (desk("lesson", page="names", since=None), ("desk",)),
        (desk("lesson", page="pin", adult="nobody", since=NOW), ("look",)),
    ],
    ids=[
        "halted",
        "adult waited for",
        "adult at work",
        "not known off",
        "download",
        "no moment",
        "no such adult",
    ],
)
def test_time_leads_to_nothing_where_it_should_not(kiosk: Any, never: tuple[str, ...]) -> None:
    due = next_deadline(ground().shop, kiosk, SOON)

    assert due is None or due.kind not in never


def test_a_pupil_goes_back_only_where_hands_and_adults_allow_it() -> None:
    assert step_back(session_at("drilling")) is None
    assert step_back(replace(session_at("hands"), at=0)) is None
    after_adult = session(standing_at("adult"), at=session_of_adult() + 1).session
    assert after_adult is not None and step_back(after_adult) is None
    in_chuck = next(i for i, s in enumerate(session_at("hands").plan.fresh) if hands(s))
    after_hands = replace(session_at("hands"), at=in_chuck + 1, is_off=False)
    assert step_back(after_hands) is None
    assert step_back(replace(after_hands, is_off=True)) is not None


def hands(step: Any) -> bool:
    return step.who == "pupil" and step.needs.value == "isolator off"


def session_of_adult() -> int:
    found = standing_at("adult").session
    assert found is not None
    return found.at


def test_a_session_takes_only_what_is_about_it() -> None:
    drilling, hands_in = session_at("drilling"), session_at("hands")

    assert advance_session(drilling, entry(ev.SessionEnded("ended"))) is None
    off = advance_session(drilling, entry(ev.ReadingChanged("isolator", "off", "settled")))
    assert off is not None and off.off_since is None
    ran = advance_session(hands_in, entry(ev.ReadingChanged("starter", "on", "settled")))
    assert ran is not None and not ran.run_seen
    lost = advance_session(drilling, entry(ev.ReadingChanged("starter", "unknown", "settled")))
    assert lost is not None and lost.off_since is None
    step = advance_session(hands_in, entry(ev.RecoveryStepDone("x", "pupil")))
    assert step is not None and step.halt is None
