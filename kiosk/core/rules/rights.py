"""Rules for rights: what each role may do, up to which day, and at which level a pupil begins."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.events import Entry
from kiosk.core.rules.past import House, Past
from kiosk.core.rules.rule import Rule

EVERYONE = ("teacher", "technician", "cover", "assistant", "trainee")
HELPERS = ("teacher", "technician", "cover", "assistant")
LEADERS = ("teacher", "technician", "cover")
STAFF = ("teacher", "technician")
OWN_DAY = ("cover", "assistant", "trainee")

ROLES: dict[type[ev.Event], tuple[str, ...]] = {
    ev.OkGiven: EVERYONE,
    ev.SaidAllowed: EVERYONE,
    ev.InterruptionCleared: EVERYONE,
    ev.PreUsePassed: HELPERS,
    ev.PreUseFailed: HELPERS,
    ev.LessonOpened: LEADERS,
    ev.LessonConfirmed: LEADERS,
    ev.LessonLengthened: LEADERS,
    ev.LessonTightened: LEADERS,
    ev.Resumed: LEADERS,
    ev.SilenceAsked: LEADERS,
    ev.HoursOverruled: LEADERS,
    ev.OwnUseStarted: STAFF,
    ev.DownloadAsked: STAFF,
    ev.SheetAsked: STAFF,
    ev.SheetAccepted: STAFF,
    ev.PackageAsked: ("technician",),
    ev.PackageAccepted: ("technician",),
    ev.LevelGranted: STAFF,
    ev.SecretAsked: ("technician",),
    ev.DeputyNamed: ("technician",),
    ev.CheckDone: ("technician",),
    ev.BitsChanged: ("technician",),
    ev.DatumSet: ("technician",),
    ev.RestartAsked: ("technician",),
    ev.DownSaid: STAFF,
    ev.JobMade: STAFF,
    ev.JobHoleAdded: STAFF,
    ev.JobDropped: STAFF,
    ev.FollowedUp: STAFF,
    ev.ReviewSaid: STAFF,
    ev.IncidentClosed: STAFF,
}
_BY = (
    *(ev.LevelGranted, ev.SecretAsked, ev.DeputyNamed, ev.DatumSet, ev.RestartAsked, ev.DownSaid),
    *(ev.JobMade, ev.JobHoleAdded, ev.JobDropped),
)
ISSUING = (ev.AdultAdded, ev.AdultAuthorised, ev.AdultRevoked, ev.BadgeIssued, ev.CodesIssued)
RANKS = ("adult_beside", "shown", "supervised", "signed_off")


def _wrong_role(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    who = str(getattr(event, "adult", ""))
    if isinstance(event, _BY):
        who = event.by
    return _may_not(past, who, ROLES[type(event)], entry)


def _may_not(past: Past, who: str, roles: tuple[str, ...], entry: Entry) -> str:
    role = dict(past.roles).get(who)
    if role not in roles:
        return f"a {role or 'stranger'} may not do that"
    until = next((day for a, where, day in past.until if (a, where) == (who, past.machine)), None)
    if until is None:
        return f"this {role} was never authorised here" if role in OWN_DAY else ""
    return f"this {role}'s authorisation has ended" if until and entry.at.day > until else ""


def _by_no_technician(house: House, past: Past, entry: Entry) -> str:
    """Adults are changed by a command, by the record itself, or by a technician at the screen."""
    by = str(getattr(entry.event, "by", ""))
    if by not in dict(past.roles):
        return ""
    return "" if by in past.technicians else "only a technician changes what an adult may do"


def _last_one(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.AdultRevoked)
    at_the_screen = event.by in dict(past.roles)
    last = past.technicians == (event.adult,)
    return "nobody could let an adult in any more" if at_the_screen and last else ""


def _level_too_high(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.SessionStarted)
    known = [RANKS.index(word) for pupil, word in past.levels if pupil == event.pupil]
    highest = 0 if event.pupil in past.beside else max(known, default=0)
    return "" if RANKS.index(event.level) <= highest else "nobody granted this level"


def _level_unwatched(house: House, past: Past, entry: Entry) -> str:
    event = entry.event
    assert isinstance(event, ev.LevelGranted)
    if not event.watched:
        return "nobody says what was watched"
    return "" if event.by == past.signed else "no adult is signed in at the desk"


RIGHTS = (
    Rule(
        "role",
        tuple(ROLES),
        "what an adult may do goes by training and trust",
        "PUWER 1998 reg 9; BS 4163",
        _wrong_role,
    ),
    Rule(
        "adults_by_technician",
        ISSUING,
        "somebody answers for who is let in",
        "PUWER 1998 reg 9; MHSWR 1999 reg 5",
        _by_no_technician,
    ),
    Rule(
        "one_technician_stays",
        (ev.AdultRevoked,),
        "somebody must be able to let adults in",
        "common practice",
        _last_one,
    ),
    Rule(
        "level_granted",
        (ev.SessionStarted,),
        "a pupil works at the level that an adult has seen",
        "PUWER 1998 reg 9; BS 4163",
        _level_too_high,
    ),
    Rule(
        "level_watched",
        (ev.LevelGranted,),
        "a level is raised by an adult who has watched",
        "PUWER 1998 reg 9",
        _level_unwatched,
    ),
)
