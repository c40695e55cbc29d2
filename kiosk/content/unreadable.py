"""Why a file can't be read as YAML: the line of the mistake, and plain words for it.

The library names what it stumbled over and where, which is often a line after the mistake.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

import yaml

NO_COLON = "a line without a colon and a space after its first word"
ADVICE = "write each line as key: value"


class _Said(NamedTuple):
    """What is told for one of the library's sentences; `begun`: of the line where it began."""

    found: str
    advice: str
    begun: bool = False


_PLAIN = {
    "could not find expected ':'": _Said(NO_COLON, ADVICE, begun=True),
    "mapping values are not allowed in this context": _Said(
        "a colon where none can stand",
        "begin the line as far left as the one above, or put the value in quotes",
    ),
    "did not find expected key": _Said("what is no key and value", ADVICE),
    "did not find expected '-' indicator": _Said(
        "a key in a list", "begin each line of a list with a dash"
    ),
    "found unexpected end of stream": _Said(
        "a quote that is never closed", "close it on the same line", begun=True
    ),
    "did not find expected ',' or ']'": _Said(
        "a [ that is not closed", "close it with ]", begun=True
    ),
    "did not find expected ',' or '}'": _Said(
        "a { that is not closed", "close it with }", begun=True
    ),
    "found character that cannot start any token": _Said(
        "a sign that no value can begin with", "put the value in quotes, and use no tabs"
    ),
    "found a tab character that violates indentation": _Said(
        "a tab", "use spaces in its place, and as many as the line above"
    ),
    "found undefined alias": _Said("a value that begins with *", "put the value in quotes"),
    "did not find expected alphabetic or numeric character": _Said(
        "a value that begins with & or *", "put the value in quotes"
    ),
    "found unknown escape character": _Said(
        "a backslash between double quotes", "use single quotes"
    ),
    "did not find expected <document start>": _Said(
        "a line that begins further left than those before it", "begin each key at the same place"
    ),
    "but found another document": _Said("a line of three dashes", "take it out"),
    "control characters are not allowed": _Said("a sign that can't be seen", "write it anew"),
}
_ELSE = _Said("what is no key and value", ADVICE)


def why_unreadable(fault: yaml.YAMLError, text: str) -> tuple[int, str, str]:
    """The line of the mistake, what was found there, and what to do."""
    told: Any = fault
    problem = getattr(told, "problem", None) or getattr(told, "reason", None) or ""
    said = _PLAIN.get(problem, _ELSE)
    begun = getattr(told, "context_mark", None) if said.begun else None
    mark = begun or getattr(told, "problem_mark", None)
    line = mark.line + 1 if mark else _of_byte(told, text)
    written = text.splitlines() or [""]
    line = min(line, len(written))
    if problem.startswith("mapping values") and (before := _without_colon(written, line)):
        return before, NO_COLON, ADVICE
    return line, said.found, said.advice


def _of_byte(told: Any, text: str) -> int:
    """The line of the place that a reader's fault names."""
    place = getattr(told, "position", None)
    before = text.encode("utf-8")[:place] if isinstance(place, int) else b""
    return before.count(b"\n") + 1


def _without_colon(written: list[str], line: int) -> int:
    """The line above without a colon, which was read on into this one; 0 if there is none."""
    if written[line - 1][:1].isspace():
        return 0
    for number in range(line - 1, 0, -1):
        above = written[number - 1]
        if not above.strip() or above.startswith("#"):
            continue
        starts_anew = above[0].isspace() or above.startswith("-") or re.search(r":(\s|$)", above)
        return 0 if starts_anew else number
    return 0
