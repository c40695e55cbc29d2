"""`contacts://NAME`: a loop-back port with two contacts between its handshake lines.

pyserial's own `loop://` joins RTS to CTS and DTR to DSR; here a contact sits in each joint, and
a short may lift a line. pyserial finds this file by its name once the package is listed.
"""

from __future__ import annotations

from dataclasses import dataclass

import serial
from serial.urlhandler.protocol_loop import Serial as Loop


@dataclass
class Joints:
    """The contacts between the lines; `lifted` is a short from a supply to CTS, `tries`
    counts openings, good or bad."""

    make: bool = False
    on_break: bool = True
    lifted: bool = False
    plugged: bool = True
    tries: int = 0


JOINTS: dict[str, Joints] = {}


class Serial(Loop):
    """The loop-back port with contacts in its joints."""

    def _reconfigure_port(self) -> None:
        self._joints().tries += 1
        if not self._joints().plugged:
            raise serial.SerialException(2, "no such port")
        super()._reconfigure_port()

    def from_url(self, url: str) -> None:
        """No options."""

    @property
    def cts(self) -> bool:
        """RTS through the make contact."""
        joints = self._here()
        return joints.lifted or (joints.make and self._rts_state)

    @property
    def dsr(self) -> bool:
        """DTR through the break contact."""
        return self._here().on_break and self._dtr_state

    def _here(self) -> Joints:
        if not self._joints().plugged:
            raise OSError(5, "Input/output error")
        return self._joints()

    def _joints(self) -> Joints:
        return JOINTS[str(self.port).removeprefix("contacts://")]


def joints(name: str) -> Joints:
    """New contacts behind `contacts://NAME`."""
    if __package__ not in serial.protocol_handler_packages:
        serial.protocol_handler_packages.append(__package__)
    JOINTS[name] = Joints()
    return JOINTS[name]
