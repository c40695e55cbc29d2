"""The shipped content, which the published bands are held against."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.model import Content

SEQUENCES = Path(__file__).parents[2] / "sequences"


@pytest.fixture(scope="package")
def content() -> Content:
    """All that is shipped."""
    loaded = load(SEQUENCES)
    assert loaded.content is not None, loaded.problems
    return loaded.content
