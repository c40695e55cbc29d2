"""One finger at a time, and none of its slips: what a touch may set off."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from kiosk.screens.parts.press import Press

QUIET_S = 0.3  # touches are ignored this long after a change of view or a sent touch
LOST_S = 10.0  # a finger whose lifting never came is forgotten after this long


class Finger:
    """Follows one touch from its beginning to its end. `now` gives seconds that never step."""

    def __init__(self, now: Callable[[], float]) -> None:
        self.held_s = 0.0  # a touch counts only after a target was held this long
        self._now = now
        self._touch: object = None
        self._target: Press | None = None
        self._began = 0.0
        self._quiet_until = 0.0

    def quieten(self) -> None:
        """Ignore touches for a while: a bounce must not reach what has just appeared."""
        self._quiet_until = self._now() + QUIET_S

    def settle(self, changed: bool) -> None:
        """After a view was drawn: show the press again, or forget a target that has gone."""
        if self._target is None:
            return
        if changed and not self._target.steady:
            self._target = None
        else:
            self._target.feel(not self._target.refused, self._target.refused)

    def down(self, touch: object, point: tuple[float, float], targets: Iterable[Press]) -> None:
        """A finger comes down."""
        if self._touch is not None and self._now() - self._began < LOST_S:
            return
        if self._target is not None:
            self._target.feel(False)
        self._touch, self._began, self._target = touch, self._now(), None
        hit = next((target for target in targets if target.collide_point(*point)), None)
        if hit is None or not hit.live:
            return
        quiet = self._now() < self._quiet_until and not (hit.steady or hit.local)
        hit.feel(not quiet, refused=quiet)
        self._target = hit

    def move(self, touch: object, point: tuple[float, float]) -> None:
        """The finger moves: off its target the press is taken back, on it again shown."""
        if touch == self._touch and self._target is not None and not self._target.refused:
            self._target.feel(self._target.collide_point(*point))

    def up(self, touch: object, point: tuple[float, float]) -> Press | None:
        """The finger is lifted: the target to act, or None."""
        if touch != self._touch:
            return None
        target, self._touch, self._target = self._target, None, None
        if target is None:
            return None
        right = target.live and not target.refused and target.collide_point(*point)
        target.feel(False)
        return target if right and self._now() - self._began >= self.held_s else None
