"""YAML as written: every text with its line, nothing guessed.

`off` stays the text off and `12:30` stays 12:30. Keys written twice, aliases and anything
that is not plain YAML become problems; nothing raises.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import yaml

from kiosk.content.unreadable import why_unreadable
from kiosk.core.problems import Place, Problem


class Text(str):
    """A word or sentence as written, with its line and the name of its file."""

    line: int = 0
    file: str = ""

    @classmethod
    def at(cls, text: str, line: int, file: str = "") -> Text:
        """The text with its line and file."""
        made = cls(text)
        made.line = line
        made.file = file
        return made


class Listing(list["Node"]):
    """A list as written, with its line."""

    line: int = 0


class Mapping(dict[Text, "Node"]):
    """Keys and values as written, with the line where they begin."""

    line: int = 0


Node: TypeAlias = Text | Listing | Mapping

EMPTY_ADVICE = "write at least one key and its value"


@dataclass(frozen=True)
class Page:
    """One file read: its name for problems, what is in it, and its problems."""

    name: str
    node: Node | None
    problems: tuple[Problem, ...]


def read_page(path: Path, name: str) -> Page:
    """The page in the file at `path`, called `name` in problems."""
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as fault:
        return _unread(name, 0, f"byte {fault.start} is not UTF-8 text", "save it as UTF-8")
    except OSError as fault:
        return _unread(name, 0, f"cannot be read: {fault.strerror}", "")
    return page_of(text, name)


def page_of(text: str, name: str) -> Page:
    """The page written as `text`."""
    try:
        root = yaml.compose(text, Loader=yaml.CBaseLoader)
    except yaml.YAMLError as fault:
        return _unread(name, *why_unreadable(fault, text))
    except RecursionError:
        return _unread(name, 1, "lists or keys inside each other too deeply", "")
    if root is None:
        return _unread(name, 1, "nothing is written here", EMPTY_ADVICE)
    found: list[Problem] = []
    node = _Walk(name, found, set()).node(root)
    return Page(name, node, tuple(found))


def _unread(name: str, line: int, found: str, advice: str) -> Page:
    return Page(name, None, (Problem(Place(name, line), found, advice=advice),))


@dataclass(frozen=True)
class _Walk:
    name: str
    found: list[Problem]
    seen: set[int]

    def node(self, node: yaml.Node) -> Node:
        line = node.start_mark.line + 1
        if id(node) in self.seen:
            self._wrong(line, "an alias (* and &)", "write the value out again")
            return Text.at("", line)
        self.seen.add(id(node))
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, line)
        if isinstance(node, yaml.SequenceNode):
            made = Listing(self.node(n) for n in node.value)
            made.line = line
            return made
        return Text.at(node.value, line, self.name)

    def _mapping(self, node: yaml.MappingNode, line: int) -> Mapping:
        made = Mapping()
        made.line = line
        for key_node, value_node in node.value:
            key, value = self.node(key_node), self.node(value_node)
            if not isinstance(key, Text):
                self._wrong(key.line, "a key that is not one word", "write a word before the colon")
            elif key in made:
                self._wrong(key.line, f"key {str(key)!r} is written twice", "keep one of them")
            else:
                made[key] = value
        return made

    def _wrong(self, line: int, found: str, advice: str) -> None:
        self.found.append(Problem(Place(self.name, line), found, advice=advice))
