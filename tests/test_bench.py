"""What the benches say of a figure, of all rows and of growing sizes: nothing is measured here."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.bench import __main__ as benches
from tests.bench import _figures
from tests.bench._chart import drawn, span
from tests.bench._figures import Figure, tell
from tests.bench._sizes import Curve


@pytest.mark.parametrize(
    ("figure", "met"),
    [
        (Figure("touch", 12.9, "ms", "times", 1.3, 10.0), True),
        (Figure("touch", 13.1, "ms", "times", 1.3, 10.0), False),
        (Figure("memory", 160.0, "MB", "plus", 60.0, 100.0), True),
        (Figure("memory", 161.0, "MB", "plus", 60.0, 100.0), False),
        (Figure("collect", 50.0, "lines/s", "least", 0.5, 100.0), True),
        (Figure("collect", 49.0, "lines/s", "least", 0.5, 100.0), False),
        (Figure("plan", 2.0, "ms", "most", 2.0), True),
        (Figure("plan", 2.1, "ms", "most", 2.0), False),
        (Figure("touch", 1.0, "ms", "times", 1.3), False),
    ],
)
def test_a_figure_is_met_as_its_way_says_and_never_without_its_floor(
    figure: Figure, met: bool
) -> None:
    assert figure.met is met
    assert (" NOT MET " in str(figure)) is not met


def figures(met: bool) -> list[Figure]:
    """One for each row of the table."""
    found = 1.0 if met else 3.0
    return [Figure(row, found, "s", "most", 2.0) for rows in benches.TABLE.values() for row in rows]


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[Figure]:
    """What a run has told; its file goes into the test's own folder."""
    found: list[Figure] = []
    monkeypatch.setattr(_figures, "TOLD", found)
    monkeypatch.setattr(benches, "TOLD", found)
    monkeypatch.setattr(benches, "OUT", tmp_path)
    return found


@pytest.mark.parametrize(("missing", "met", "code"), [(0, True, 0), (1, True, 1), (0, False, 1)])
def test_the_run_ends_well_only_if_every_row_was_measured_and_met(
    told: list[Figure], monkeypatch: pytest.MonkeyPatch, missing: int, met: bool, code: int
) -> None:
    rows = iter(figures(met)[missing:])

    def measure(name: str) -> int:
        for _ in benches.TABLE[name]:
            tell(next(rows, Figure("beside", 0.0, "s", "most", 1.0)))
        return 0

    monkeypatch.setattr(benches, "run", measure)

    assert benches.whole() == code
    (kept,) = benches.OUT.iterdir()
    assert len(json.loads(kept.read_text())) == len(told)


def test_a_bench_that_fails_leaves_its_rows_unmet_and_the_others_measured(
    told: list[Figure], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def measure(name: str) -> int:
        if name == "check":
            raise OSError("no room")
        return [tell(Figure(row, 1.0, "s", "most", 2.0)) for row in benches.TABLE[name]].count(
            False
        )

    monkeypatch.setattr(benches, "run", measure)

    assert benches.whole() == 1
    said = capsys.readouterr().out
    assert "check: OSError: no room" in said
    assert f"bench: {len(told)} of {len(told) + 1} rows met" in said


def test_every_bench_of_the_table_is_there() -> None:
    assert set(benches.TABLE) <= set(benches.names())


def test_the_chart_puts_equal_ratios_at_equal_distances() -> None:
    curves = [Curve("one", [(1, 10.0), (10, 100.0), (100, 1000.0)])]

    tree = ElementTree.fromstring(drawn({"sizes": curves}))
    marks = [
        (float(mark.get("cx", "0")), float(mark.get("cy", "0")))
        for mark in tree.iter("{http://www.w3.org/2000/svg}circle")
    ]

    (a, b, c) = marks
    assert b[0] - a[0] == pytest.approx(c[0] - b[0], abs=0.2)
    assert a[1] - b[1] == pytest.approx(b[1] - c[1], abs=0.2)
    assert a[1] > c[1], "what costs more lies higher"


@pytest.mark.parametrize(
    ("values", "low", "high"), [([3.0, 4.0], 0, 1), ([0.02, 700.0], -2, 3), ([10.0], 1, 2)]
)
def test_an_axis_goes_over_whole_powers_of_ten(values: list[float], low: int, high: int) -> None:
    assert span(values) == (low, high)
