"""The kept set-up looked at on one screen: only what can be seen on a drill that stands still."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.model import Level
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.plan.wording import named
from tests.core.story import CONTENT, WORDS

HOLES = [("hook_bar", 0), ("pen_block", 0), ("key_tag", 0)]


def looked_at(asked: tuple[str, int], keyed: bool, code: str = "en") -> str:
    """What a joining pupil reads of the set-up."""
    job, words = CONTENT.job(asked[0]), WORDS.of(code)
    assert job is not None
    drill = replace(CONTENT.machines[0], keyed_chuck=keyed)
    plan = compile_plan(CONTENT, drill, job, asked[1], Level.SHOWN)
    assert isinstance(plan, Plan)
    (look,) = [step for step in plan.joining if step.part == "look"]
    return words.say(f"step.{look.id}.say", **named(dict(plan.values), words))


@pytest.mark.parametrize("asked", HOLES)
def test_a_still_drill_is_not_said_to_run(asked: tuple[str, int]) -> None:
    told = looked_at(asked, keyed=True)

    assert "straight in all jaws" in told
    assert "run" not in told


@pytest.mark.parametrize("asked", HOLES)
@pytest.mark.parametrize(
    ("code", "key", "cover"),
    [
        ("en", "Key", "Belt cover shut."),
        ("cy", "allwedd", "Clawr y belt ar gau."),
        ("pl", "klucza", "Pokrywa paska zamknięta."),
        ("uk", "Ключа", "Кожух закрито."),
    ],
)
def test_only_a_chuck_with_a_key_asks_for_it_to_be_out(
    asked: tuple[str, int], code: str, key: str, cover: str
) -> None:
    keyed, keyless = looked_at(asked, True, code), looked_at(asked, False, code)

    assert key in keyed
    assert key not in keyless
    assert cover in keyed and cover in keyless


@pytest.mark.parametrize("level", list(Level))
def test_a_turn_in_wood_ends_with_the_vacuum_off_and_the_next_one_switches_it_on(
    level: Level,
) -> None:
    job = CONTENT.job("pen_block")
    assert job is not None
    plan = compile_plan(CONTENT, CONTENT.machines[0], job, 0, level)
    assert isinstance(plan, Plan)

    cleared = "\n".join(WORDS.say(f"step.{step.id}.say") for step in plan.clear)

    assert "switch the vacuum off" in cleared
    assert "Switch on. Hose or hood sucks at the bit." in looked_at(("pen_block", 0), keyed=True)
