"""Digits on their way to the worker that hashes them: never in an event, a view or a log."""

from __future__ import annotations

from kiosk.core.events import BadgeTried, CodeTried, Event, PinTried, SecretAsked
from kiosk.core.inputs import BadgeRead, Touch, TypeCode, TypePin
from kiosk.runtime.partners import Errands

BADGE = ""  # nobody's reference: what a badge typed, until it is known whose it is


class Typed:
    """Keeps what was typed until the event that it was tried is on the card, then forgets it."""

    def __init__(self) -> None:
        self._digits: dict[str, str] = {}

    def keep(self, touch: Touch) -> None:
        """Keep the digits of a touch, if it has any."""
        match touch:
            case TypePin(adult, digits) | TypeCode(adult, digits):
                self._digits[adult] = digits
            case BadgeRead(digits):
                self._digits[BADGE] = digits

    def send(self, errands: Errands, event: Event) -> None:
        """Have what was tried checked, or what was asked for issued."""
        match event:
            case PinTried(adult):
                errands.check_pin(adult, self._digits.pop(adult, ""))
            case CodeTried(adult):
                errands.check_code(adult, self._digits.pop(adult, ""))
            case BadgeTried():
                errands.check_badge(self._digits.pop(BADGE, ""))
            case SecretAsked(adult, what, by):
                errands.issue(adult, what, by, self._digits.pop(BADGE, ""))
