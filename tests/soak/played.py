"""`python -m tests.soak.played FOLDER LESSONS WARM EVERY`: a year played in a process of its own.

So what it holds is a kiosk's own, and nothing of the tests'. It prints one line of JSON: what was
held after how many lessons, what came about, what was raised beside the loop, how many events the
record has.
"""

from __future__ import annotations

import json
import random
import sys
import threading
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

from tests.holding import Held
from tests.soak.year import Year

SEED, LOOKS = 20_261_128, 20


def main(words: Sequence[str]) -> None:
    """Play, prove and tell."""
    folder, (lessons, warm, every) = Path(words[0]), map(int, words[1:])
    raised: list[str] = []
    threading.excepthook = sys.unraisablehook = lambda told: raised.append(str(told))
    held: dict[int, Held] = {}

    def look(number: int) -> None:
        if number == warm or (number > warm and number % max(1, lessons // LOOKS) == 0):
            held[number] = Held.now()

    year = Year(folder, lessons, random.Random(SEED), every, max(8, lessons // 28))
    year.run(look)
    events = year.proved()
    told = {
        "held": [asdict(one) for _, one in sorted(held.items())],
        "raised": raised,
        "events": events,
        "told": year.told(),
        "came": [year.purges, len(year.downloads), year.card_faults, year.cuts],
    }
    print(json.dumps(told))


if __name__ == "__main__":
    main(sys.argv[1:])
