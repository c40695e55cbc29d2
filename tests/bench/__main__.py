"""`python -m tests.bench NAME`: one of the benches beside this file."""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path


def names() -> list[str]:
    """Every bench there is."""
    return sorted(p.stem for p in Path(__file__).parent.glob("*.py") if p.stem[0] != "_")


def main(words: list[str]) -> int:
    """Run one bench. Returns its exit code."""
    if len(words) != 1 or words[0] not in names():
        print(f"python -m tests.bench NAME; NAME is one of: {', '.join(names())}")
        return 2
    code: int = import_module(f"tests.bench.{words[0]}").main()
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
