"""The worker thread that hashes: PINs, badges and spare codes, checked and issued.

Everything that costs a hash waits in one queue, so that nothing of it can be told by the time.
No number of a badge and no PIN leaves this thread but as a hash, or to be shown once.
"""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable

from kiosk.core.inputs import BadgeChecked, CodeChecked, Input, PinChecked, SecretReady
from kiosk.core.model import Adult
from kiosk.people import (
    hash_badge,
    hash_code,
    hash_pin,
    is_badge,
    issue_codes,
    issue_pin,
    pin_is_right,
)
from kiosk.store import Record, RecordFault

Post = Callable[[Input], None]
AGAIN_S = 1.0


class Doorkeeper:
    """Checks and issues what adults are let in with; every answer is posted."""

    def __init__(self, record: Record, pepper: bytes, post: Post) -> None:
        self._record, self._pepper, self._post = record, pepper, post
        self._work: queue.Queue[Callable[[], Input] | None] = queue.Queue()
        self._ending = threading.Event()
        self._worker = threading.Thread(target=self._run, name="pins", daemon=True)
        self._worker.start()

    def stop(self) -> None:
        """End the thread."""
        self._ending.set()
        self._work.put(None)
        self._worker.join(2.0)

    def _run(self) -> None:
        while (work := self._work.get()) is not None:
            self._do(work)

    def _do(self, work: Callable[[], Input]) -> None:
        """Work that a card does not let be done is tried again: somebody waits for the answer."""
        while not self._ending.is_set():
            try:
                self._post(work())
                return
            except RecordFault:
                self._ending.wait(AGAIN_S)

    def check_pin(self, adult: str, digits: str) -> None:
        """Compare a PIN; the answer comes as `PinChecked`."""
        self._work.put(lambda: PinChecked(adult, self._is_right(adult, digits)))

    def _is_right(self, adult: str, digits: str) -> bool:
        return pin_is_right(self._record.pin_hash(adult), digits, self._pepper)

    def check_badge(self, digits: str) -> None:
        """Look for a badge; the answer comes as `BadgeChecked`."""
        self._work.put(lambda: BadgeChecked(self._owner(digits)))

    def _owner(self, digits: str) -> str:
        return self._record.badge_owner(hash_badge(digits, self._pepper))

    def check_code(self, adult: str, digits: str) -> None:
        """Look for a spare code; the answer comes as `CodeChecked`."""
        self._work.put(lambda: CodeChecked(adult, self._number(adult, digits)))

    def _number(self, adult: str, digits: str) -> int:
        return self._record.code_number(adult, hash_code(digits, self._pepper))

    def issue(self, adult: str, what: str, by: str, digits: str) -> None:
        """Issue a new `pin` or `codes`, or keep a `badge`; the answer comes as `SecretReady`."""
        self._work.put(lambda: self._issued(adult, what, by, digits))

    def _issued(self, adult: str, what: str, by: str, digits: str) -> SecretReady:
        try:
            if what == "badge":
                return SecretReady(adult, what, by, why=self._keep_badge(adult, digits))
            lines = issue_codes() if what == "codes" else (issue_pin(),)
            self._keep(adult, what, lines)
        except RecordFault as fault:
            return SecretReady(adult, what, by, why=fault.why)
        return SecretReady(adult, what, by, lines)

    def _keep_badge(self, adult: str, digits: str) -> str:
        if not is_badge(digits):
            return "no_badge"
        kept = self._record.keep_badge(adult, hash_badge(digits, self._pepper))
        return "" if kept else "taken"

    def _keep(self, adult: str, what: str, lines: tuple[str, ...]) -> None:
        if what == "codes":
            hashes = [hash_code(code, self._pepper) for code in lines]
            self._record.keep_codes(adult, hashes)
            return
        known = next((a for a in self._record.adults() if a.ref == adult), Adult(adult, "?", ""))
        self._record.keep_adult(known, hash_pin(lines[0], self._pepper))
