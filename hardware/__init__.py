"""Contact readers over a serial port, and the simulator beside them."""

from hardware.reader import Reader, reader_for

__all__ = ["Reader", "reader_for"]
