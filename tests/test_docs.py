"""The pages say what is there: commands, rooms, markers, links; each begins with prose."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import click
import pytest

ROOT = Path(__file__).parents[1]
PAGES = ("README.md", "DEVELOPERS.md")
ROOMS = ("kiosk", "hardware", "demo", "tests", "sequences")


def page(name: str) -> str:
    """The text of a page; a test that needs a missing one fails with its name."""
    path = ROOT / name
    assert path.is_file(), f"{name} is missing"
    return path.read_text("utf-8")


def first_paragraph(text: str) -> str:
    """The first block after the title."""
    blocks = [block.strip() for block in re.split(r"\n\s*\n", text.strip())]
    return next((block for block in blocks if not block.startswith("# ")), "")


def is_prose(block: str) -> bool:
    """Whether a block is a paragraph rather than a list, a picture, a heading or code."""
    return bool(block) and not re.match(r"[#>|!*+`\-<\[]|\d+\.", block)


def commands() -> dict[str, click.Command]:
    """Every command of `pillarside` by name."""
    import kiosk.main  # adds `run`
    from kiosk.cli import group

    assert kiosk.main.group is group
    with click.Context(group) as context:
        found = {name: group.get_command(context, name) for name in group.list_commands(context)}
    return {name: one for name, one in found.items() if one is not None}


def folders() -> list[str]:
    """Every folder with Python files in it, and those of content, from the root."""
    with_code = {path.parent for room in ROOMS for path in (ROOT / room).rglob("*.py")}
    return sorted(f"{folder.relative_to(ROOT)}/" for folder in with_code | {ROOT / "sequences"})


def rooms() -> list[str]:
    """The rooms a newcomer has to find: top folders, and the folders of the kiosk."""
    deep = (folder for folder in folders() if folder.startswith("kiosk/"))
    return sorted({f"{room}/" for room in ROOMS} | {f for f in deep if f.count("/") == 2})


@pytest.mark.parametrize("name", PAGES)
def test_a_page_begins_with_a_title_and_one_paragraph_of_prose(name: str) -> None:
    text = page(name)

    opening = first_paragraph(text)

    assert re.match(r"# \S", text)
    assert is_prose(opening), opening
    assert 25 <= len(opening.split()) <= 160, f"{len(opening.split())} words"


def test_the_first_paragraph_of_the_readme_says_the_job() -> None:
    opening = first_paragraph(page("README.md")).lower()

    assert all(word in opening for word in ("drill", "pupil", "adult", "record"))


@pytest.mark.parametrize(
    "said", ["sh demo/run.sh", "sh tests/run.sh", "--tour", "not a safety device", "DEVELOPERS.md"]
)
def test_the_readme_says_how_to_begin_and_what_it_is_not(said: str) -> None:
    assert said in page("README.md")


def test_the_readme_has_a_picture() -> None:
    assert re.search(r"!\[[^\]]{10,}\]\([^)]+\)", page("README.md")), "with words for it"


@pytest.mark.parametrize("name", PAGES)
def test_every_link_within_the_project_leads_somewhere(name: str) -> None:
    links = re.findall(r"\]\(([^)\s#]+)[^)]*\)", page(name))

    broken = [x for x in links if "://" not in x and not (ROOT / x).exists()]

    assert broken == []


def test_every_command_is_in_the_readme_and_has_help() -> None:
    text = page("README.md")

    unsaid = [name for name in commands() if not re.search(rf"pillarside {name}\b", text)]
    helpless = [name for name, command in commands().items() if not command.get_short_help_str()]

    assert (unsaid, helpless) == ([], [])


def test_every_command_the_readme_names_is_there() -> None:
    named = set(re.findall(r"(?m)(?:^|[`/ ])pillarside ([a-z][a-z-]+)", page("README.md")))

    assert named <= set(commands())


@pytest.mark.parametrize("room", rooms())
def test_every_room_is_in_the_file_map(room: str) -> None:
    assert room in page("DEVELOPERS.md") or f" {room.split('/')[-2]}/" in page("DEVELOPERS.md")


def test_every_path_in_the_developers_page_is_there() -> None:
    named = set(re.findall(r"`((?:kiosk|hardware|demo|tests|sequences)/[\w./-]*)`", page(PAGES[1])))

    assert sorted(path for path in named if not (ROOT / path).exists()) == []


def test_every_marker_is_in_the_developers_page() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    registered = [m.split(":")[0] for m in project["tool"]["pytest"]["ini_options"]["markers"]]

    text = page("DEVELOPERS.md")

    assert [marker for marker in registered if f"`{marker}`" not in text] == []
    assert "--full" in text


@pytest.mark.parametrize(
    ("block", "prose"),
    [
        ("A drill.", True),
        ("- a list", False),
        ("![x](y)", False),
        ("```sh", False),
        ("1. a", False),
    ],
)
def test_prose_is_told_from_everything_else(block: str, prose: bool) -> None:
    assert is_prose(block) is prose
