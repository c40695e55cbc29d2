"""How the judge's memory of the room grows: adults, the lesson, the machine, a restart."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.rules.past import Here, House, Past, Try, made_stale
from kiosk.core.values import replace


def tried_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.PinTried)
    others = tuple(w for w in past.wrong if w[0] != event.adult)
    before = next((w[1] for w in past.wrong if w[0] == event.adult), 0)
    wrong = (*others, (event.adult, before + 1, entry.at))
    return replace(past, tried=Try(event.adult, event.purpose), wrong=wrong)


def passed_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    assert isinstance(event, ev.PinPassed)
    good = past.tried if past.tried and past.tried.adult == event.adult else None
    passed = good if good and good.stands and good.purpose == event.purpose else None
    signed = past.signed
    if passed:
        signed = event.adult if event.purpose in ("menu", "clear", "resume") else ""
    wrong = tuple(w for w in past.wrong if w[0] != event.adult)
    return replace(past, tried=None, passed=passed, signed=signed, wrong=wrong)


def failed_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return replace(past, tried=None)


def desk_left_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return replace(made_stale(past), signed="")


def page_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    left = isinstance(entry.event, ev.PageOpened) and entry.event.page == "wrong"
    return desk_left_fold(house, past, entry, here) if left else made_stale(past)


def lesson_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    fresh = replace(past, kept=None, spell="", spell_last=None, signed="", stopped=False)
    fresh = replace(fresh, ready=(), tighter=())
    if not isinstance(event, ev.LessonOpened):
        return replace(fresh, is_open=False, confirmed=False, opened=None)
    length = event.length_s
    return replace(fresh, is_open=True, confirmed=True, opened=entry.at, length_s=length)


def changed_lesson_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    if isinstance(event, ev.LessonLengthened):
        return replace(past, length_s=past.length_s + event.by_s)
    assert isinstance(event, ev.LessonTightened)
    if event.what == "no_spell":
        past = replace(past, spell="", spell_last=None)
    return replace(past, tighter=(*past.tighter, event.what))


def confirmed_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return replace(past, confirmed=True, opened=entry.at)


def everyone_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    stopped = isinstance(entry.event, ev.EveryoneStopped)
    if not stopped:
        return replace(past, stopped=False)
    past = made_stale(past)
    return replace(past, stopped=True, kept=None, spell="", spell_last=None, signed="")


def spell_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    event = entry.event
    if isinstance(event, ev.SpellStarted):
        return replace(past, spell=event.adult, spell_last=entry.at)
    return replace(past, spell="", spell_last=None)


def pre_use_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    if isinstance(entry.event, ev.PreUsePassed):
        return replace(past, pre_use=entry.at)
    assert isinstance(entry.event, ev.PreUseFailed)
    return replace(past, pre_use=None, out_of_use=_returns(entry.event.item), out_by="")


def use_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    match entry.event:
        case ev.TakenOutOfUse(reason, adult):
            by = adult if reason == "locked_off" else ""
            return replace(past, out_of_use=_returns(reason), out_by=by)
        case ev.ReturnedToUse():
            return replace(past, out_of_use="", out_by="")
        case ev.SilenceAsked() | ev.SilenceEnded() as event:
            return replace(past, silent=isinstance(event, ev.SilenceAsked))
        case ev.HoursOverruled(_, until_s):
            return replace(past, overruled_s=until_s)
        case ev.CheckDone(check, found):
            failed = past.failed - {check}
            return replace(past, failed=failed | {check} if found == "wrong" else failed)
        case ev.DeputyNamed(adult):
            return replace(past, deputy=adult)
        case ev.OwnUseStarted():
            return replace(past, own_use=True, kept=None)
        case ev.OwnUseEnded():
            return replace(past, own_use=False)
    return past


_SMALL = "belt chuck table light extraction belt_whole bolted key_hook".split()


def _returns(reason: str) -> str:
    """Who besides a technician returns the drill; nobody after a fault of guard or stop."""
    if reason in ("cleaning", "lesson"):
        return "teacher"
    if reason == "locked_off":
        return "own"
    return "deputy" if reason in _SMALL else "technician"


def began_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    """A restart: only what the record can know stands."""
    event = entry.event
    assert isinstance(event, ev.KioskStarted)
    cut = past.turn is not None
    return Past(
        pre_use=past.pre_use,
        is_open=past.is_open,
        stopped=past.stopped,
        length_s=past.length_s,
        tighter=past.tighter,
        out_of_use=past.out_of_use,
        out_by=past.out_by,
        deputy=past.deputy,
        silent=past.silent,
        unsure=past.unsure or cut or event.after == "cut",
        trouble=past.trouble if not cut else "",
        recovered=past.recovered if not cut else 0,
        technicians=past.technicians,
        roles=past.roles,
        until=past.until,
        machine=event.machine,
        levels=past.levels,
        beside=past.beside,
        failed=past.failed,
        made=past.made,
        piloted=past.piloted,
        wrong=tuple((a, n, entry.at) for a, n, _ in past.wrong),
        owed="cut_short" if cut else "",
    )


def seen_still_fold(house: House, past: Past, entry: ev.Entry, here: Here) -> Past:
    return replace(past, unsure=False)
