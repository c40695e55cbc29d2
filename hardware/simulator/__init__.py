"""A drill's electrics and a contact unit, played in software beside the readers they test."""

from hardware.simulator.drill import DrillState, SimulatedDrill
from hardware.simulator.unit import SimulatedUnit
from hardware.simulator.wires import Wires

__all__ = ["DrillState", "SimulatedDrill", "SimulatedUnit", "Wires"]
