"""Opens the kiosk in a window with its bench strip; plays the drill and the power.

`python -m demo.window`. This process is the bench: the drill's electrics and a contact unit that
speaks Modbus over a pseudo-terminal. The kiosk runs in a child, so that its power can be cut.
"""

from __future__ import annotations

import json
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any

import click

from demo.bench import Bench, BenchState
from demo.kiosk import ROSTER, TREE, issue_pins

OUT = TREE / "demo" / "out"
DARK_S = 2.0


class Power:
    """Runs the child, cuts its power on demand, and feeds it the bench's state."""

    def __init__(self, bench: Bench, words: list[str]) -> None:
        self._bench, self._words = bench, words
        self._boots = 0
        self._cut = False
        self.child = self._switch_on()

    def _switch_on(self) -> subprocess.Popen[str]:
        self._boots += 1
        boot = f"demo{int(time.monotonic())}-{self._boots}"
        return subprocess.Popen(
            [sys.executable, "-m", "demo.strip", *self._words, "--boot", boot],
            cwd=TREE,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def run(self) -> int:
        """Until the window is closed; a cut is followed by a new start. Returns the exit code."""
        threading.Thread(target=self._tell, daemon=True).start()
        while True:
            self._listen(self.child)
            code = self.child.wait()
            if not self._cut:
                return code
            self._cut = False
            time.sleep(DARK_S)
            self._bench.drill.restore_mains()
            self.child = self._switch_on()

    def _listen(self, child: subprocess.Popen[str]) -> None:
        assert child.stdout is not None
        for line in child.stdout:
            try:
                act = json.loads(line).get("act")
            except (ValueError, AttributeError):
                continue  # the kiosk's own words
            self._do(str(act))

    def _do(self, act: str) -> None:
        bench, state = self._bench, self._bench.state
        match act:
            case "isolator":
                bench.isolator_off() if state.drill.knob == "on" else bench.isolator_on()
            case "start":
                bench.press_start()
            case "stop":
                bench.press_stop()
            case "room_stop":
                bench.room_stop_reset() if state.drill.room_stop else bench.room_stop()
            case "slow_hand":
                bench.slow_hand(not state.slow)
            case "bounce":
                bench.bounce()
            case "wire":
                bench.wire_back() if state.wire_off else bench.wire_off()
            case "swap":
                bench.swap()
            case "plug":
                bench.unplug() if state.plugged else bench.plug()
            case "short" | "stuck" | "answer" | "move" | "guard":
                _do_more(bench, state, act)
            case "cut":
                self._cut = True
                bench.drill.cut_mains()
                self.child.kill()

    def _tell(self) -> None:
        while True:
            line = json.dumps(told(self._bench)) + "\n"
            try:
                if self.child.stdin is not None:
                    self.child.stdin.write(line)
                    self.child.stdin.flush()
            except (OSError, ValueError):
                pass  # between two boots nobody listens
            time.sleep(0.1)


def _do_more(bench: Bench, state: BenchState, act: str) -> None:
    match act:
        case "short":
            bench.short(not state.shorted)
        case "stuck":
            bench.stick(not state.stuck)
        case "answer":
            bench.next_answer()
        case "move":
            bench.move()
        case "guard":
            bench.guard(not state.drill.guard_down)


def told(bench: Bench) -> dict[str, Any]:
    """How the bench stands, as the strip shows it."""
    state = bench.state
    return {
        "knob": state.drill.knob,
        "turning": state.drill.turning,
        "isolator": state.drill.knob == "on",
        "start": state.drill.starter_in,
        "room_stop": state.drill.room_stop,
        "slow_hand": state.slow,
        "wire": state.wire_off,
        "swap": state.swapped,
        "plug": not state.plugged,
        "short": state.shorted,
        "stuck": state.stuck,
        "answer": state.answer,
        "guard": not state.drill.guard_down,
    }


def demo_pins(record: Path) -> dict[str, str]:
    """The invented adults' PINs, kept beside the demo's record so that the strip can show them."""
    kept = record.with_name("pins.json")
    if record.exists() and kept.exists():
        return dict(json.loads(kept.read_text("utf-8")))
    pins = issue_pins(record)
    kept.write_text(json.dumps(pins), "utf-8")
    return pins


@click.command()
@click.option("--panel", type=click.Choice(["7inch", "10inch"]), default="7inch")
@click.option("--language", default="en", show_default=True)
def window(panel: str, language: str) -> None:
    """Open the kiosk with its bench strip. The invented record lies in demo/out."""
    record = OUT / "record" / "record.sqlite"
    download = OUT / "download"
    for folder in (record.parent, download):
        folder.mkdir(parents=True, exist_ok=True)
    pins = "  ".join(f"{name} {pin}" for name, pin in demo_pins(record).items())
    with Bench() as bench:
        words = ["--record", str(record), "--roster", str(ROSTER), "--port", bench.port]
        words += ["--panel", panel, "--language", language, "--download-to", str(download)]
        sys.exit(Power(bench, [*words, "--pins", pins]).run())


if __name__ == "__main__":
    window()
