"""`python -m tests.bench._jobs SCHOOL`: milliseconds to read content, and to show its jobs."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from time import perf_counter

from kiosk.content import load
from kiosk.core.inputs import Act, AskAdult, Choose
from kiosk.core.view import show
from kiosk.runtime.settings import TREE
from tests.core.story import begun


def main(school: Path) -> None:
    """Read the content with the school's folder; then the page on which a teacher finds jobs."""
    began = perf_counter()
    found = load(TREE / "sequences", school)
    read = perf_counter() - began
    assert found.content is not None, found.problems[:3]
    story = begun()
    story.touch(AskAdult("menu"))
    story.pin()
    for touch in (Act("open"), Act("pre_use_right"), Choose("group", "8b")):
        story.touch(touch)
    shop = replace(story.shop, content=found.content)
    began = perf_counter()
    view = show(shop, story.kiosk, found.words, story.now)
    assert len(view.choices) >= len(found.content.jobs) - 1
    print(read * 1000, (perf_counter() - began) * 1000)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
