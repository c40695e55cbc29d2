"""When the screen rests: dimmed while nobody uses it, deaf for a while so that it can be wiped."""

from __future__ import annotations

from collections.abc import Callable

DIM_AFTER_S = 180.0
HOLD_S = 1.0  # a cloth moves on before that


class Rest:
    """Knows how long nobody has touched. `now` gives seconds that never step."""

    def __init__(self, now: Callable[[], float]) -> None:
        self._now = now
        self._since = now()
        self._pause_s = 0.0
        self._shown_s = 0
        self.is_dim = False

    def end(self) -> bool:
        """Somebody is there, or something has changed; whether the screen was dimmed."""
        was, self.is_dim = self.is_dim, False
        if not self._pause_s:
            self._since = self._now()
        return was

    def pause(self, seconds: float) -> None:
        """Begin a pause of so many seconds; with 0 it is over, and the screen lit."""
        self._pause_s, self._since, self._shown_s = seconds, self._now(), 0
        self.is_dim = False

    @property
    def is_paused(self) -> bool:
        """Whether the screen may be wiped just now."""
        return self._pause_s > 0

    @property
    def hold_s(self) -> float:
        """Seconds that a finger must stay on a target, so that it is no cloth."""
        return HOLD_S if self.is_paused else 0.0

    @property
    def waited(self) -> float:
        """Seconds that a pause has lasted, or that nobody has touched."""
        return self._now() - self._since

    @property
    def ends_now(self) -> bool:
        """Whether a pause is over."""
        return self.is_paused and self.waited >= self._pause_s

    def moves_on(self, may_dim: bool) -> bool:
        """Whether the screen must be drawn anew: a second of a pause has gone, or it dims."""
        if self.is_paused:
            before, self._shown_s = self._shown_s, int(self.waited)
            return self._shown_s != before
        dim = may_dim and self.waited >= DIM_AFTER_S
        before_dim, self.is_dim = self.is_dim, dim
        return dim != before_dim
