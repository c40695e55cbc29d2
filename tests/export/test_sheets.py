"""Printed sheets: what stands on them, that nothing is cut, and that they follow the content."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import html5lib
import pypdfium2
import pytest

from kiosk.content import Loaded, load
from kiosk.core.inputs import PickJob, PickPupil
from kiosk.core.machining import choose_groove
from kiosk.core.model import Level
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.view import View, show
from kiosk.export.sheets import FOR_ONE_MACHINE, KINDS, Asked, NoSheet, page_of, pdf_of
from tests.core.story import lesson_open

LANGUAGES = ("en", "cy", "pl", "uk")
ROOT = Path(__file__).parents[2]
MARGIN_MM = 9.0  # what a printer can't reach is less: common practice
MM = 72 / 25.4


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    return load(ROOT / "sequences")


def asked_for(
    loaded: Loaded, kind: str, machine: str = "drill-1", work: str = "hook_bar", **more: object
) -> Asked:
    content = loaded.content
    assert content is not None
    chosen = content.machine(machine) if kind in FOR_ONE_MACHINE else None
    job = content.job(work) if kind == "card" else None
    return Asked(content, loaded.words, chosen, job, **more)  # type: ignore[arg-type]


def every(loaded: Loaded) -> Iterator[tuple[str, Asked]]:
    """Every kind for every machine in every language."""
    assert loaded.content is not None
    for language in LANGUAGES:
        spoken = Loaded(loaded.content, loaded.words.of(language), ())
        for kind in KINDS:
            machines = [m.id for m in loaded.content.machines] if kind in FOR_ONE_MACHINE else [""]
            yield from ((kind, asked_for(spoken, kind, each)) for each in machines)


def text_of(page: str) -> str:
    body = page[page.index("<body>") :]
    return " ".join(re.sub(r"<[^>]+>", " ", body).split())


def test_every_sheet_is_valid_says_every_word_and_asks_for_nothing_elsewhere(
    loaded: Loaded,
) -> None:
    for kind, asked in every(loaded):
        page = page_of(kind, asked)

        parser = html5lib.HTMLParser(strict=True)  # raises at the first mistake
        parser.parse(page)
        assert not re.findall(r"\b(?:sheet|step|bit|job|hazard|control)\.[a-z_.]+", text_of(page))
        assert not re.search(r"(?:src|href)=|url\(|@import", page)
        assert "{" not in text_of(page)


@pytest.mark.parametrize(("kind", "paper"), [*((kind, "A4") for kind in KINDS), ("wall", "A3")])
def test_nothing_on_paper_is_cut(loaded: Loaded, kind: str, paper: str) -> None:
    spoken = Loaded(loaded.content, loaded.words.of("uk"), ())  # the longest words
    page = page_of(kind, asked_for(spoken, kind, "drill-2", paper=paper))

    document = pypdfium2.PdfDocument(pdf_of(page))

    wide = {"A4": 210, "A3": 297}[paper] * MM
    for sheet in document:
        assert sheet.get_width() == pytest.approx(wide, abs=1)
        letters = sheet.get_textpage()
        boxes = [letters.get_charbox(n) for n in range(letters.count_chars())]
        assert min(left for left, *_ in boxes) > MARGIN_MM * MM
        assert max(right for _, _, right, _ in boxes) < wide - MARGIN_MM * MM
        assert min(bottom for _, bottom, *_ in boxes) > 4 * MM
        assert no_ink_near_the_edge(sheet)
    assert "  " not in text_of(page)


def no_ink_near_the_edge(sheet: pypdfium2.PdfPage) -> bool:
    """Whether no drawing or line comes near an edge either, in a picture without colours."""
    picture = sheet.render(scale=1.0, grayscale=True).to_pil()
    wide, high = picture.size
    edge = int(MARGIN_MM * MM)
    strips = ((0, 0, edge, high), (wide - edge, 0, wide, high), (0, 0, wide, edge))
    darkest = picture.getextrema()[0]
    return darkest < 60 and all(picture.crop(s).getextrema() == (255, 255) for s in strips)


def test_paper_uses_the_letters_of_the_screens_and_no_font_of_the_computer(loaded: Loaded) -> None:
    pdf = pdf_of(page_of("accident", asked_for(loaded, "accident")))

    names = set(re.findall(rb"/FontName /\w+\+([A-Za-z-]+)", pdf)) or set(
        re.findall(rb"/BaseFont /\w+\+([A-Za-z-]+)", pdf)
    )

    assert all(name.startswith(b"Inter") for name in names), names


def test_a_changed_control_measure_changes_record_and_wall(tmp_path: Path) -> None:
    own = tmp_path / "sequences"
    shutil.copytree(ROOT / "sequences", own)
    written = (own / "assessment.yaml").read_text("utf-8")
    assert "Long hair tied back and tucked in" in written
    changed_text = written.replace("Long hair tied back and tucked in", "Hair under a cap")
    (own / "assessment.yaml").write_text(changed_text, "utf-8")

    changed = load(own)

    assert changed.content is not None, changed.problems
    record = text_of(page_of("assessment", asked_for(changed, "assessment")))
    wall = text_of(page_of("wall", asked_for(changed, "wall")))
    assert "Hair under a cap" in record
    assert "Hair under a cap" in wall
    assert "Long hair tied back" not in f"{record} {wall}"


def test_a_measure_that_a_step_quotes_changes_the_step_on_the_screen_too(tmp_path: Path) -> None:
    """One line of the assessment: the step, its card, the record and the wall sheet say it."""
    own = tmp_path / "sequences"
    shutil.copytree(ROOT / "sequences", own)
    written = (own / "assessment.yaml").read_text("utf-8")
    before, after = "No gloves at the drill", "Bare hands and bare fingers"
    assert before in written
    (own / "assessment.yaml").write_text(written.replace(before, after), "utf-8")

    changed, unchanged = load(own), load(ROOT / "sequences")

    assert changed.content is not None, changed.problems
    assert f"{before}." in step_of("clothes", unchanged).lines
    view = step_of("clothes", changed)
    assert view.screen == "step" and f"{after}." in view.lines
    for kind in ("assessment", "wall", "card"):
        text = text_of(page_of(kind, asked_for(changed, kind)))
        assert after in text and before not in text, kind


def step_of(step: str, loaded: Loaded) -> View:
    """The step as it stands on the screen of a pupil."""
    assert loaded.content is not None
    story = lesson_open()
    story.shop = replace(story.shop, content=loaded.content)
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    while story.kiosk.session and story.kiosk.session.step.id != step:
        story.do_step()
    return show(story.shop, story.kiosk, loaded.words, story.now)


def test_the_record_has_every_hazard_measure_and_date(loaded: Loaded) -> None:
    assert loaded.content is not None
    assessment = loaded.content.assessment

    text = text_of(page_of("assessment", asked_for(loaded, "assessment")))

    for hazard in assessment.hazards:
        wanted = (hazard.name, hazard.harm, *(control.text for control in hazard.controls))
        assert all(each.replace("'", "&#39;") in text for each in wanted), hazard.id
    assert assessment.review in text
    assert assessment.owner in text
    assert "Invented example" in text


def test_a_card_has_the_numbers_of_the_plan(loaded: Loaded) -> None:
    content = loaded.content
    assert content is not None
    machine, job = content.machine("drill-1"), content.job("pen_block")
    assert machine is not None and job is not None
    plan = compile_plan(content, machine, job, 0, Level.SHOWN)
    assert isinstance(plan, Plan) and plan.set_up.stop is not None

    text = text_of(page_of("card", asked_for(loaded, "card", work="pen_block")))

    values = dict(plan.values)
    for number in (plan.set_up.stop, plan.set_up.diameter, values["speed"]):
        assert loaded.words.number(number).replace("\xa0", " ") in text
    assert f"groove {plan.set_up.groove}" in text


def test_the_chart_on_the_wall_is_what_the_sums_choose(loaded: Loaded) -> None:
    content = loaded.content
    assert content is not None
    machine, steel = content.machine("drill-1"), content.material("mild_steel")
    twist = content.bit("twist")
    assert machine and steel and twist
    page = page_of("wall", asked_for(loaded, "wall"))
    chart = page[page.index("<h3>twist bit") :]
    heads = re.findall(r'<th scope="col">([^<]+)</th>', chart[: chart.index("</thead>")])[1:]
    row = chart[chart.index("mild steel") :]
    cells = re.findall(r'<td class="number">([^<]+)</td>', row[: row.index("</tr>")])

    chosen = [
        choose_groove(machine, steel, twist, size)
        for size in twist.sizes
        if loaded.words.number(size) in heads
    ]

    assert cells == [f"{each.groove}: {each.speed.rpm:.0f}" for each in chosen]  # type: ignore[union-attr]


def test_a_sheet_that_can_not_be_made_says_why(loaded: Loaded) -> None:
    content = loaded.content
    assert content is not None

    with pytest.raises(NoSheet, match="for one machine"):
        page_of("wall", Asked(content, loaded.words))
    with pytest.raises(NoSheet, match="for one job"):
        page_of("card", Asked(content, loaded.words, content.machines[0]))
