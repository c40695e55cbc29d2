"""The one loop: the only holder of the state and the only writer of the record.

It is driven: `turn(now)` takes all that has come in, decides on the newest state, writes the
events in one transaction, takes them in and publishes a view. Progress waits for its commit; a
warning never does.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from kiosk.clock import Clock
from kiosk.core import contacts as wires
from kiosk.core.contacts import Sample
from kiosk.core.inputs import (
    AdultNamed,
    ClockMoved,
    Input,
    NoteKept,
    PickLanguage,
    SomethingWrong,
    Touched,
    TurnHabit,
    TypeName,
    TypeNote,
)
from kiosk.core.kiosk import Kiosk, Shop, next_deadline
from kiosk.core.kiosk.people_acts import may_name
from kiosk.core.units import Moment
from kiosk.core.view import View, show
from kiosk.core.view.fault_views import record_fault_view
from kiosk.core.words import Words
from kiosk.runtime.inbox import Command, Inbox, Lot
from kiosk.runtime.partners import Errands, Fault, Keeper
from kiosk.runtime.sending import send
from kiosk.runtime.speaking import learned, may_wish, said_on
from kiosk.runtime.turning import Standing, Unwritten, ahead, take, take_sample, take_time
from kiosk.runtime.typed import Typed

ANSWER_FOR_US = 5_000_000  # how long a refusal stays on the screen
BUSY_FOR_US = ANSWER_FOR_US // 3  # how long it is said that a touch came while one was being saved
WARN_AFTER_US = 50_000  # a commit that takes longer no longer holds back a warning
SLOW_AFTER_US = 2_000_000  # a commit that takes longer is said, and nothing goes further
RETRY_S = 1.0
LONGEST_WAIT_S = 30.0


class Loop:
    """Owns the state. `post` and `latest` may be called from any thread, `turn` from one."""

    def __init__(
        self,
        shop: Shop,
        words: Words,
        keeper: Keeper,
        clock: Clock,
        errands: Errands,
        kiosk: Kiosk,
        faults: tuple[type[Exception], ...] = (Fault,),
    ) -> None:
        self.shop, self.words = shop, words
        self._keeper, self._clock, self._errands = keeper, clock, errands
        self._faults = faults
        self.kiosk = kiosk
        self.inbox = Inbox()
        now = clock.now()
        self._contacts = wires.at_start(shop.machine.wiring, now.us)
        self._trouble: Unwritten | None = None
        self._typed = Typed()
        self._answers: list[tuple[Command, Any]] = []
        self._refusal, self._refused_us = "", 0
        self._writing: tuple[int, Standing] | None = None
        self._touch_waits = False
        self._busy_us = 0
        self._stopping = False
        self._thread: threading.Thread | None = None
        self._turned = threading.Condition()
        self._turns = 0
        self.on_turn: Callable[[], None] = lambda: None
        self.on_news: Callable[[], None] = lambda: None  # the view has changed; from any thread
        self._view = replace(show(shop, kiosk, words, now), number=1, seq=keeper.head[0])

    # --- from any thread -------------------------------------------------------------------

    def post(self, given: Sample | Input | Command) -> None:
        """Hand in a sample, input or command.

        One touch may await its turn and its commit; further ones are visibly refused.
        """
        if isinstance(given, Touched) and not isinstance(given.touch, SomethingWrong):
            if self._touch_waits:
                self._busy_us = self._clock.us()
                return
            self._touch_waits = True
        self.inbox.put(given)
        if self._writing is not None:
            self.on_news()

    def post_and_wait(self, given: Touched, seconds: float = 0.02) -> None:
        """Hand in a touch and wait a moment for its turn, so that most answers come at once."""
        with self._turned:
            before = self._turns
            self.post(given)
            self._turned.wait_for(lambda: self._turns > before, seconds)

    @property
    def is_restless(self) -> bool:
        """Whether the view may soon be another one with no news of it: a commit takes long."""
        return self._writing is not None or self._clock.us() - self._busy_us < BUSY_FOR_US

    def latest(self) -> View:
        """The newest view; during a long commit a warning or the slow card itself."""
        view, writing, us = self._view, self._writing, self._clock.us()
        if writing is not None and us - writing[0] > WARN_AFTER_US:
            view = self._view_while_writing(view, writing, us)
        if us - self._busy_us < BUSY_FOR_US:
            view = replace(view, answer=said_on(view, self.words, "answer.saving"))
        return view

    def _view_while_writing(self, view: View, writing: tuple[int, Standing], us: int) -> View:
        since, standing = writing
        now = self._clock.now()
        if us - since > SLOW_AFTER_US:
            slow = record_fault_view(self.shop, self.kiosk, self.words, now, "slow")
            return replace(slow, number=view.number, seq=view.seq)
        coming = ahead(self.shop, standing, self.inbox.look(), now)
        if not coming.warning:
            return replace(view, unsaved=said_on(view, self.words, "unsaved.saving"))
        warned = show(self.shop, coming.kiosk, self.words, now)
        return self._numbered(
            replace(warned, unsaved=said_on(warned, self.words, "unsaved.warning"))
        )

    # --- the loop's own thread ---------------------------------------------------------------

    def start(self) -> None:
        """Begin turning in a thread of its own."""
        self._thread = threading.Thread(target=self._run, name="loop", daemon=True)
        self._thread.start()

    def stop(self) -> bool:
        """Stop turning and wait for the last turn; false if an error had ended it before."""
        turned, self._stopping = self._thread is None or self._thread.is_alive(), True
        self.inbox.wake()
        if self._thread is not None:
            self._thread.join(5.0)
        return turned

    def _run(self) -> None:
        while not self._stopping:
            self.inbox.wait(self._seconds_to_next(self._clock.now()))
            self.turn(self._clock.now())

    def turn(self, now: Moment) -> None:
        """Take all that has come in; then write, take in and publish."""
        lot = self.inbox.take()
        if self._trouble is not None:
            self._turn_in_trouble(self._trouble, lot, now)
        else:
            standing = self._take_lot(self._fresh_standing(now), lot, now)
            self._finish(standing, now)
        if lot.touches:
            self._touch_waits = False
        with self._turned:
            self._turns += 1
            self._turned.notify_all()
        self.on_turn()

    def _fresh_standing(self, now: Moment) -> Standing:
        standing = Standing(self.kiosk, self._contacts, self._keeper.head[0])
        moved = self._clock.step(now)
        if moved:
            standing = take(self.shop, standing, ClockMoved(moved, now.quality), now)
        return standing

    def _take_lot(self, standing: Standing, lot: Lot, now: Moment) -> Standing:
        for sample in lot.samples:
            standing = take_sample(self.shop, standing, sample, now)
        standing = take_time(self.shop, standing, now)
        for touched in lot.touches:
            before, standing = standing, self._take_touch(standing, touched, now)
            if standing != before:
                break  # what follows was made from a view that no longer stands
        for result in lot.results:
            standing = self._take_result(standing, result, now)
        return standing

    def _take_touch(self, standing: Standing, touched: Touched, now: Moment) -> Standing:
        """A touch made from an older view is dropped: bounces and late releases do nothing."""
        if touched.view != self._view.number and not isinstance(touched.touch, SomethingWrong):
            return standing
        self._typed.keep(touched.touch)
        try:
            return take(self.shop, standing, self._kept_apart(standing, touched, now), now)
        except self._faults:  # what was typed could not be kept: the screen stays
            return replace(standing, refusal="recording")

    def _kept_apart(self, standing: Standing, touched: Touched, now: Moment) -> Input:
        """What a touch comes to once what is kept apart from the events is kept."""
        match touched.touch:
            case TypeName(role, name) if may_name(self.shop, standing.kiosk, now):
                return AdultNamed(self._errands.name_adult(name, role, standing.kiosk), role)
            case (PickLanguage() | TurnHabit()) as wish if may_wish(self.words, wish):
                self.shop = learned(self.shop, standing.kiosk, wish, self._keeper, self._faults)
            case TypeNote(what, hazard, text) if standing.kiosk.desk.signed:
                note, digest = self._keeper.keep_note(what, hazard, text)
                self.shop = self.shop.noting(note, text)
                return NoteKept(note, what, hazard, digest)
        return touched

    def _take_result(self, standing: Standing, result: Input | Command, now: Moment) -> Standing:
        if not isinstance(result, Command):
            return take(self.shop, standing, result, now)
        try:
            given, answer = self._errands.carry_out(result.request, standing.kiosk)
        except self._faults as fault:
            given, answer = None, {"ok": False, "why": str(fault)}
        self._answers.append((result, answer))
        return take(self.shop, standing, given, now) if given else standing

    # --- writing, and what follows -------------------------------------------------------------

    def _finish(self, standing: Standing, now: Moment) -> None:
        if standing.refusal:
            self._refusal, self._refused_us = standing.refusal, now.us
        elif standing.entries or standing.kiosk != self.kiosk:
            self._refusal = ""
        if standing.warning:
            warned = show(self.shop, standing.kiosk, self.words, now)
            self._publish(replace(warned, unsaved=said_on(warned, self.words, "unsaved.warning")))
        if self._write(standing, now):
            self._adopt(standing, now)

    def _write(self, standing: Standing, now: Moment) -> bool:
        if not standing.entries:
            return True
        self._writing = (self._clock.us(), standing)
        try:
            self._keeper.append(standing.entries, standing.kiosk, standing.plan)
        except self._faults as fault:
            why = str(getattr(fault, "why", "failing"))
            held = self._trouble.held if self._trouble else ()
            self._trouble = Unwritten(why, standing, now.us + round(RETRY_S * 1e6), held)
            self._publish_trouble(now)
            return False
        finally:
            self._writing = None
        return True

    def _adopt(self, standing: Standing, now: Moment) -> None:
        self.kiosk, self._contacts = standing.kiosk, standing.contacts
        for entry in standing.entries:
            send(self._errands, self._typed, entry.event)
        for command, answer in self._answers:
            command.answer(answer)
        self._answers.clear()
        if now.us - self._refused_us >= ANSWER_FOR_US:
            self._refusal = ""
        self._publish(show(self.shop, self.kiosk, self.words, now, self._refusal))

    def _turn_in_trouble(self, trouble: Unwritten, lot: Lot, now: Moment) -> None:
        """Readings and warnings still count; touches and results wait for the record."""
        standing = ahead(self.shop, trouble.standing, lot, now)
        trouble.standing, trouble.held = standing, (*trouble.held, *lot.results)
        if now.us >= trouble.next_try_us and self._write(standing, now):
            held, self._trouble = trouble.held, None
            self._adopt(standing, now)
            for result in held:
                self.inbox.put(result)
        else:
            self._publish_trouble(now)

    def _publish_trouble(self, now: Moment) -> None:
        assert self._trouble is not None
        kiosk, why = self._trouble.standing.kiosk, self._trouble.why
        self._publish(record_fault_view(self.shop, kiosk, self.words, now, why))

    def _publish(self, view: View) -> None:
        before, self._view = self._view, self._numbered(view)
        if self._view != before:
            self.on_news()

    def _numbered(self, view: View) -> View:
        """The view with its number: one more than the last if what can be touched has changed."""
        number = self._view.number + (view.touchable != self._view.touchable)
        return replace(view, number=number, seq=self._keeper.head[0])

    def _seconds_to_next(self, now: Moment) -> float:
        due = [now.us + round(LONGEST_WAIT_S * 1e6)]
        deadline = next_deadline(self.shop, self.kiosk, now)
        if deadline:
            due.append(deadline.us)
        lapse = wires.next_deadline(self._contacts, self.shop.machine.wiring)
        due += [lapse] if lapse is not None else []
        due += [self._trouble.next_try_us] if self._trouble else []
        due += [self._refused_us + ANSWER_FOR_US] if self._refusal else []
        return max(0.0, (min(due) - now.us) / 1e6)
