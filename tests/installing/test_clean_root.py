"""Installed in a clean Debian, started by the unit's own command line, stopped, taken back."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.installing.clean_root import CleanRoot, why_not

SET_UP = "cd /opt/pillarside && sh tests/run.sh --version"
INSTALL = "cd /opt/pillarside && .venv/bin/pillarside install --yes"
UNITS = "pillarside.service pillarside-stopped.service pillarside-clock.service"
VERIFY = f"systemd-analyze verify {UNITS} 2>&1"
UNDO = "cd /opt/pillarside && .venv/bin/pillarside install --undo --yes"
START = r"""
Xvfb :77 -screen 0 800x480x24 >/dev/null 2>&1 &
i=0; until [ -S /tmp/.X11-unix/X77 ] || [ $i -gt 50 ]; do i=$((i+1)); sleep 0.1; done
mkdir -m 700 /run/kiosk; chown pillarside /run/kiosk
python3 - <<'P' &
import os, socket
s = socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM)
s.bind("/run/kiosk/notify"); os.chmod("/run/kiosk/notify", 0o777); s.settimeout(90)
print(*[s.recv(100).decode() for _ in range(3)], flush=True)
os.system("pkill -TERM -f kiosk.main")
P
told=$!
cd /var/lib/pillarside
runuser -u pillarside -- env DISPLAY=:77 WLR_BACKENDS=x11 WLR_RENDERER=pixman \
    XDG_RUNTIME_DIR=/run/kiosk SDL_VIDEODRIVER=x11 MESA_SHADER_CACHE_DISABLE=true \
    NOTIFY_SOCKET=/run/kiosk/notify WATCHDOG_USEC=4000000 \
    timeout 120 $(sed -n 's/^ExecStart=//p' /etc/systemd/system/pillarside.service) \
    >/tmp/said 2>&1 || true
wait $told
grep -c "First start" /tmp/said
"""


@pytest.mark.install
@pytest.mark.timeout(3600)
@pytest.mark.parametrize("suite", ["bookworm", "trixie"])
def test_a_clean_debian_is_made_a_kiosk_and_taken_back(
    suite: str, tmp_path: Path, root: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    if not full:
        pytest.skip("a clean Debian takes minutes: -m install --full")
    if why := why_not():
        pytest.skip(why)
    clean = CleanRoot(tmp_path / suite, suite)
    clean.put(root)
    clean.run(SET_UP)
    before = clean.files()

    clean.run(INSTALL)
    again = clean.run(INSTALL)
    verified = clean.run(VERIFY)
    told = clean.run(START)
    record = clean.folder / "var/lib/pillarside"
    kept = sorted(path.name for path in record.iterdir() if path.suffix != ".sqlite-shm")
    undone = clean.run(UNDO)
    protected = clean.files_of(undone)
    left = clean.files() - before

    assert "Everything stands already." in again
    assert verified == ""
    assert told.split() == ["READY=1", "WATCHDOG=1", "WATCHDOG=1", "1"]
    assert "record.sqlite" in kept
    left -= set(protected)
    assert all(path.startswith("/var/lib/pillarside") for path in left), sorted(left)
    sum_up(f"install: {suite} made a kiosk, {len(told.split()) - 2} beats, nothing left behind")
