"""YAML as written: lines, plain words, and nothing that raises."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from kiosk.content import load
from kiosk.content.forms import FORMS
from kiosk.content.structure import structure
from kiosk.content.written import Listing, Mapping, Page, Text, page_of, read_page
from kiosk.core.problems import Problem

SEQUENCES = Path(__file__).parents[2] / "sequences"
SHIPPED = [p.read_text("utf-8") for p in SEQUENCES.rglob("*.yaml")]
KINDS = (*FORMS, *(dict[str, form] for form in FORMS))  # type: ignore[valid-type]

scalars = st.one_of(st.none(), st.booleans(), st.integers(), st.text(), st.just("6 mm"))
keys = st.one_of(
    st.text(max_size=8),
    st.sampled_from(["name", "steps", "holes", "say", "hazards", "work", "pre_use", "when"]),
)
documents = st.recursive(
    scalars,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(keys, inner, max_size=5)),
    max_leaves=20,
)


def read_as_everything(page: Page) -> list[Problem]:
    """The page's problems as every form there is."""
    return [problem for kind in KINDS for problem in structure(page, kind)[1]]


def test_off_and_times_of_day_stay_the_words_they_are() -> None:
    page = page_of("isolator: off\nbreak: 12:30\nanswer: yes\n", "x.yaml")

    assert page.node == {"isolator": "off", "break": "12:30", "answer": "yes"}


def test_every_text_knows_its_line() -> None:
    page = page_of("a: one\nb:\n  - two\n  - three\n", "x.yaml")

    assert isinstance(page.node, Mapping)
    listing = page.node[Text("b")]
    assert isinstance(listing, Listing)
    assert [item.line for item in listing] == [3, 4]
    assert [key.line for key in page.node] == [1, 2]


@pytest.mark.parametrize(
    "text",
    ["[" * 50_000, "{a: " * 5_000, "a: *b", "&a [*a]", "? [a]\n: b", "a: !!python/object:x {}"],
    ids=["brackets", "braces", "no anchor", "itself", "list as key", "tag"],
)
def test_strange_yaml_is_a_problem_or_a_value_and_never_raises(text: str) -> None:
    page = page_of(text, "x.yaml")

    assert page.problems or page.node is not None
    read_as_everything(page)


def test_a_file_that_is_not_text_is_one_problem(tmp_path: Path) -> None:
    path = tmp_path / "x.yaml"
    path.write_bytes(b"name: \xff\xfe\n")

    page = read_page(path, "x.yaml")

    assert [str(p) for p in page.problems] == ["x.yaml: byte 6 is not UTF-8 text; save it as UTF-8"]


@settings(max_examples=60, deadline=None)
@given(st.text())
def test_any_text_is_read_without_raising(text: str) -> None:
    page = page_of(text, "x.yaml")

    for problem in read_as_everything(page):
        assert "\n" not in str(problem)


@settings(max_examples=60, deadline=None)
@given(documents)
def test_any_yaml_is_read_without_raising(document: object) -> None:
    page = page_of(yaml.safe_dump(document), "x.yaml")

    for problem in read_as_everything(page):
        assert problem.place.line >= 1


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(SHIPPED), st.integers(0, 4000), st.integers(0, 60), st.text(max_size=6))
def test_shipped_text_with_a_hole_torn_in_it_is_read_without_raising(
    text: str, start: int, length: int, patch: str
) -> None:
    torn = text[:start] + patch + text[start + length :]

    read_as_everything(page_of(torn, "x.yaml"))


@settings(max_examples=15, deadline=None)
@given(st.sampled_from(["materials.yaml", "drilling.yaml", "assessment.yaml"]), documents)
def test_a_folder_with_any_yaml_in_it_loads_or_says_why(
    tmp_path_factory: pytest.TempPathFactory, name: str, document: object
) -> None:
    school = tmp_path_factory.mktemp("school")
    (school / name).write_text(yaml.safe_dump(document), "utf-8")

    loaded = load(SEQUENCES, school)

    assert (loaded.content is None) == bool(loaded.problems)
