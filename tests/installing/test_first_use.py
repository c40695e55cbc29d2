"""First use by the README's first command alone, in a new Debian: how long to a first drilled hole.

The tour plays the drill's electrics and the people's touches in the real app. What it takes is the
computer's part; whoever reads along and touches by hand needs some minutes more for the steps.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.installing.clean_root import CleanRoot, why_not

LIMIT_S = 600
TOUR = r"""
cd /opt/pillarside
began=$(date +%s)
sh demo/run.sh --tour /tmp/tour >/tmp/said 2>&1 &
tour=$!
first=0
while [ $first -eq 0 ] && [ $(($(date +%s) - began)) -lt 1800 ]; do
    sleep 1
    kill -0 $tour 2>/dev/null || { wait $tour || { tail -20 /tmp/said >&2; exit 1; }; }
    first=$(python3 - <<'P'
import glob, sqlite3
holes = 0
for path in glob.glob("/tmp/tour/record/*.sqlite"):
    try:
        asked = sqlite3.connect(f"file:{path}?mode=ro", uri=True)
        drilled = "SELECT count(*) FROM events WHERE kind = 'hole_drilled'"
        holes += asked.execute(drilled).fetchone()[0]
    except sqlite3.Error:
        pass
print(holes)
P
)
done
echo $(($(date +%s) - began))
kill $tour 2>/dev/null || true
"""


@pytest.mark.install
@pytest.mark.timeout(3600)
def test_a_first_hole_is_drilled_by_the_readmes_first_command(
    tmp_path: Path, root: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    if not full:
        pytest.skip("a clean Debian takes minutes: -m install --full")
    if why := why_not():
        pytest.skip(why)
    clean = CleanRoot(tmp_path / "bookworm", "bookworm")
    clean.put(root)
    assert "sh demo/run.sh" in (root / "README.md").read_text("utf-8")

    taken = int(clean.run(TOUR).split()[-1])

    sum_up(f"first use: {taken} s from nothing to a first drilled hole in a new Debian 12")
    assert taken < LIMIT_S
