"""What was found of an invented computer: each part, the longest texts among them."""

from __future__ import annotations

from kiosk.core.kiosk import Looked

FOUND = (
    Looked("display", "good", "connected: card0-DSI-1"),
    Looked("touch", "good", "10-0038 generic ft5x06 (79)"),
    Looked(
        "record",
        "bad",
        "/var/lib/pillarside lies on overlay: all of it is lost with the power",
        "give the record a part of the card (record: in the settings)",
    ),
    Looked("storage", "good", "a small write is safe after 6.4 ms"),
    Looked("disk_space", "look", "412 MB left", "make room on the card before it is full"),
    Looked("download", "look", "none was ever taken away", "put a stick in, or use download"),
    Looked("clock", "look", "running on from before", "connect the network once"),
    Looked("ports", "good", "/dev/serial/by-id/usb-Invented_Serial_Adapter_A1B2C3D4-if00-port0"),
    Looked(
        "font", "good", "2 weights in /var/lib/pillarside/.cache/pillarside/fonts-4.1-0123456789"
    ),
    Looked("speech", "good", "/usr/bin/espeak-ng"),
    Looked("watchdog", "good", "a screen that stands still starts anew after 20 s"),
)
