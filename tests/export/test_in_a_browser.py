"""Every page in headless Chromium: no message, no request, and nothing for axe-core to say.

Only with `--full`, and only where Debian's `chromium` is installed.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from demo.recorded import unpacked
from kiosk.content import Loaded, load
from kiosk.core.report import Log, Report, report
from kiosk.core.units import Moment
from kiosk.export.report import Made, Told, report_page, told_by
from kiosk.export.sheets import FOR_ONE_MACHINE, KINDS, Asked, page_of

ROOT = Path(__file__).parents[2]
MADE = Made("term", "pillarside", Moment("boot", 1, 1_788_768_000_000_000, 2))
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SIZES = ((1280, 800), (400, 800))


@pytest.fixture
def browser(full: bool) -> Iterator[Any]:
    if not full:
        pytest.skip("pages in a browser are looked at with --full only")
    chromium = shutil.which("chromium")
    if chromium is None:
        (pytest.fail if os.environ.get("CI") else pytest.skip)("chromium is not installed")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        yield opened
        opened.close()


def pages() -> Iterator[tuple[str, str]]:
    """The report of the term and of nothing, and every sheet."""
    loaded = load(ROOT / "sequences")
    assert loaded.content is not None
    told = told_by(loaded.content, loaded.words, {})
    term = report(Log(branch.entries, branch.log) for branch in unpacked())
    yield "report", report_page(term, told, MADE)
    yield "nothing", report_page(Report(), Told(), MADE)
    for kind in KINDS:
        yield kind, page_of(kind, asked_for(loaded, kind))


def asked_for(loaded: Loaded, kind: str) -> Asked:
    content = loaded.content
    assert content is not None
    machine = content.machines[0] if kind in FOR_ONE_MACHINE else None
    return Asked(content, loaded.words, machine, content.jobs[0] if kind == "card" else None)


def test_pages_open_quietly_and_can_be_used_by_everyone(
    browser: Any, tmp_path: Path, sum_up: Any
) -> None:
    from axe_playwright_python.sync_playwright import Axe

    looked = 0
    for name, text in pages():
        (tmp_path / f"{name}.html").write_text(text, "utf-8")
        for wide, high in SIZES:
            page = browser.new_page(viewport={"width": wide, "height": high})
            said: list[str] = []
            asked: list[str] = []
            page.on("console", lambda message, said=said: said.append(message.text))
            page.on("pageerror", lambda error, said=said: said.append(str(error)))
            page.on("request", lambda request, asked=asked: asked.append(request.url))
            page.goto((tmp_path / f"{name}.html").as_uri())
            page.screenshot(path=tmp_path / f"{name}-{wide}.png", full_page=True)
            assert said == [], name
            assert asked == [(tmp_path / f"{name}.html").as_uri()], name
            found = Axe().run(page, options={"runOnly": RULES})
            assert found.violations_count == 0, f"{name}: {found.generate_report()}"
            page.close()
            looked += 1
    sum_up(f"browser: {looked} pages, no message, no request, no barrier")
