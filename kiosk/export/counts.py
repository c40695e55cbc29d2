"""The counts of a stretch in the order and words in which people read them."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.report import Counts, Week
from kiosk.export.rows import said_plainly

ENDINGS = {
    "finished": "finished",
    "left": "left early by the pupil",
    "closed": "closed, nobody there",
    "cut_short": "cut short by a restart or loss of power",
    "ended": "ended by an adult",
}
CHECKS = {"pin": "with a PIN", "spell": "with one touch, the adult at the drill"}
RESTARTS = {
    "first": "first start of this record",
    "clean": "after an orderly stop",
    "cut": "after a loss of power or a crash",
}
NOTES = {"near_miss": "near misses", "incident": "incidents", "note": "other notes"}


@dataclass(frozen=True)
class Count:
    """One line: what was counted, and how many; a text where it could not be counted."""

    what: str
    count: int | str


@dataclass(frozen=True)
class Section:
    """Some lines under a title. `alert` marks what asks to be followed up."""

    title: str
    rows: tuple[Count, ...]
    alert: bool = False

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to tell."""
        return not self.rows


def sections(week: Week) -> tuple[Section, ...]:
    """All sections, those with nothing to tell left out."""
    told = (*_work(week), *_to_follow_up(week), *_machine(week))
    return tuple(section for section in told if not section.is_empty)


def _work(week: Week) -> tuple[Section, ...]:
    unsaid = "begun before this stretch"
    holes = tuple(
        Count(f"{said_plainly(job)}, {said_plainly(bit)} bit" if job else unsaid, count)
        for job, bit, count in week.holes
    )
    return (
        Section(
            "Work",
            (
                Count("lessons opened", week.lessons),
                Count("sessions begun", week.sessions),
                Count("holes drilled", week.drilled),
                Count("OKs to start given", sum(count for _, count in week.checks)),
            ),
        ),
        Section("Holes by job and bit", holes),
        Section("Sessions by how they ended", _rows(week.endings, ENDINGS)),
        Section("OKs to start", _rows(week.checks, CHECKS)),
    )


def _to_follow_up(week: Week) -> tuple[Section, ...]:
    runs = (Count("runs without an OK", week.runs_without_ok),) if week.runs_without_ok else ()
    return (
        Section("Near misses, incidents and notes", _rows(week.notes, NOTES), alert=True),
        Section("Machine taken out of use", _rows(week.out_of_use), alert=True),
        Section("Pre-use check not right", _rows(week.pre_use_failed), alert=True),
        Section("Runs without an OK", runs, alert=True),
        Section("Troubles named", _rows(week.troubles), alert=True),
        Section("Interruptions by reason", _rows(week.interruptions)),
        Section("Not right at the adult check, by step", _rows(week.not_right)),
    )


def _machine(week: Week) -> tuple[Section, ...]:
    starts = "no contact tells" if week.starts is None else week.starts
    return (
        Section(
            "Contacts",
            (
                Count("starts counted", starts),
                Count("holes whose run a contact saw", week.sensed),
                Count("holes whose run was said", week.said),
                *(
                    Count(f"{said_plainly(name)} reading lost", count)
                    for name, count in week.readings_lost
                ),
            ),
        ),
        Section("Starts of the kiosk", _rows(week.restarts, RESTARTS)),
        Section("Clock", _clock(week)),
        Section("Record", _record(week), alert=bool(week.renewals)),
    )


def _clock(week: Week) -> tuple[Count, ...]:
    stepped = sum(remark.what == "stepped" for remark in week.clock)
    unset = sum(remark.what == "not_set" for remark in week.clock)
    rows = (Count("times the clock was moved", stepped), Count("starts with no clock set", unset))
    return tuple(row for row in rows if row.count)


def _record(week: Week) -> tuple[Count, ...]:
    rows = [Count("events", week.entries), Count("downloads", week.downloads)]
    if week.renewals:
        rows.append(Count("times a damaged record was set aside", week.renewals))
    return tuple(rows)


def _rows(counts: Counts, words: dict[str, str] | None = None) -> tuple[Count, ...]:
    return tuple(Count((words or {}).get(w, said_plainly(w)), count) for w, count in counts)
