"""The running kiosk: one loop thread owns the state; everything else posts to it or shows it.

`start(settings)` composes it. Neither the touch screen's library nor the serial one is
imported here.
"""

from __future__ import annotations

from kiosk.runtime.settings import Settings
from kiosk.runtime.start import Running, start

__all__ = ["Running", "Settings", "start"]
