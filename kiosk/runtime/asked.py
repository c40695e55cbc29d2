"""The local socket: commands reach the running kiosk and become inputs like any other.

One JSON line comes in, one goes out. The socket lies beside the record as its name with
`.sock` and is open to the kiosk's own user only.
"""

from __future__ import annotations

import contextlib
import json
import os
import socket
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from kiosk.people import hashed
from kiosk.runtime.inbox import Command

LONGEST_LINE = 1 << 20  # a school's whole roster
WAIT_S = 10.0


class Asked:
    """Serves the local socket in a thread of its own."""

    def __init__(self, record: Path, pepper: bytes, put: Callable[[Command], None]) -> None:
        self.path = record.with_name(record.name + ".sock")
        self._pepper, self._put = pepper, put
        self._socket = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
        self.path.unlink(missing_ok=True)  # the record's lock says that no other kiosk runs
        self._socket.bind(str(self.path))
        os.chmod(self.path, 0o600)
        self._socket.listen(4)
        self._thread = threading.Thread(target=self._serve, name="asked", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Close the socket and take its file away."""
        with contextlib.suppress(OSError):
            self._socket.shutdown(socket.SHUT_RDWR)
        self._socket.close()
        self._thread.join(2.0)
        with contextlib.suppress(OSError):  # a card that has turned read-only keeps it
            self.path.unlink(missing_ok=True)

    def _serve(self) -> None:
        while True:
            try:
                caller, _ = self._socket.accept()
            except OSError:
                return
            with caller:
                self._answer_one(caller)

    def _answer_one(self, caller: socket.socket) -> None:
        caller.settimeout(WAIT_S)
        try:
            with caller.makefile("rwb") as line:
                answer = self._ask(line.readline(LONGEST_LINE))
                line.write(json.dumps(answer).encode() + b"\n")
        except (OSError, ValueError):
            return  # the caller went away; what was recorded stays

    def _ask(self, line: bytes) -> dict[str, Any]:
        try:
            request = json.loads(line)
        except ValueError:
            return {"ok": False, "why": "not a line of JSON"}
        if not isinstance(request, dict):
            return {"ok": False, "why": "not a request"}
        request, shown = hashed(request, lambda: self._pepper)  # in this thread: a hash takes time
        answer = self._put_and_wait(request)
        return {**answer, **shown} if answer.get("ok") else answer

    def _put_and_wait(self, request: dict[str, Any]) -> dict[str, Any]:
        came = threading.Event()
        answers: list[dict[str, Any]] = []

        def answered(answer: dict[str, Any]) -> None:
            answers.append(answer)
            came.set()

        self._put(Command(request, answered))
        if not came.wait(WAIT_S):
            return {"ok": False, "why": "the kiosk did not answer in time"}
        return answers[0]
