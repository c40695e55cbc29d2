"""What was kept long enough, found by a process of its own, as at a kiosk; the time is handed in.

`python -m tests.soak.kept_enough RECORD` takes `{"days", "roster", "now"}` as JSON on standard
input and prints what `to_tidy` finds.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from kiosk.cli.tidying import to_tidy
from kiosk.core.units import Moment

if __name__ == "__main__":
    asked = json.load(sys.stdin)
    found = to_tidy(
        Path(sys.argv[1]), asked["days"], frozenset(asked["roster"]), Moment(*asked["now"])
    )
    print(json.dumps(found))
