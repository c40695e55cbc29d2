"""`python -m tests.recorded`: make `demo/term/` anew, the same each time."""

from __future__ import annotations

from collections import Counter

from demo.recorded import TERM, pack
from kiosk.core.events import RECORDED_KINDS, kind_of
from tests.recorded.term import term


def main() -> None:
    """Make the term, write it, and say what is in it."""
    branches = term()
    pack(branches, TERM)
    kinds = Counter(kind_of(entry.event) for branch in branches for entry in branch.entries)
    print(f"{sum(kinds.values())} events, {kinds['session_started']} sessions")
    print("kinds that never came:", *sorted(set(RECORDED_KINDS) - set(kinds)))


if __name__ == "__main__":
    main()
