"""`python -m hardware.simulator [SCRIPT]`: a drill and its unit on a port, played live.

Prints the port, plays the script if one is named, then takes one act a line until the input ends.
"""

from __future__ import annotations

import sys
from pathlib import Path

from hardware.simulator.drill import SimulatedDrill
from hardware.simulator.script import NotAnAct, act_of, play, read_script
from hardware.simulator.unit import SimulatedUnit


def say(text: str) -> None:
    """One line out, at once."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def live(drill: SimulatedDrill, unit: SimulatedUnit) -> None:
    """Take acts from the keyboard, one a line."""
    for line in sys.stdin:
        try:
            if line.strip():
                act_of(line)(drill, unit)
        except NotAnAct as wrong:
            say(str(wrong))
            continue
        closed = [number for number, level in sorted(unit.wires.peek().items()) if level]
        say(f"{drill.state}; closed at the unit: {closed}")


def main(words: list[str]) -> int:
    """Run until the input ends. Returns the exit code."""
    try:
        acts = read_script(Path(words[0]).read_text("utf-8")) if words else ()
    except (OSError, NotAnAct) as wrong:
        say(f"{words[0]}: {wrong}")
        return 2
    drill = SimulatedDrill()
    with SimulatedUnit(drill.levels, functions=(1, 2, 3)) as unit:
        say(f"port: {unit.port}")
        play(acts, drill, unit, told=lambda act: say(f"{act.at:g} s: {act.words}"))
        live(drill, unit)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
