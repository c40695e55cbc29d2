"""What adults asked for in lessons, what was asked on the way, who was let in, what was changed."""

from __future__ import annotations

from collections.abc import Mapping

from kiosk.core.report import Report
from kiosk.export.report.names import Told
from kiosk.export.report.table import Row, Table
from kiosk.export.rows import said_plainly

ROOM = {
    "confirmed": "lesson taken up again after a restart",
    "longer": "lesson made longer",
    "tighter": "more asked for",
    "everyone_stopped": "everyone stopped",
    "resumed": "work let go on",
    "spell": "an adult stayed, one touch a hole",
    "spell_ended": "that stay ended",
    "silence": "silent hours asked for",
    "overruled": "timetable's silent hours ended: the clock was wrong",
}
OWN = {"times": "times an adult drilled", "holes": "holes, where the adult cared to count"}
ASKED = {
    "ready": "got ready in line",
    "passed_over": "not there when the turn came",
    "questions": "questions before you drill answered",
    "pilots": "pilots seen that were drilled elsewhere",
    "there_asked": "asked whether somebody is still there",
    "there_said": "somebody answered that",
    "no_run": "asked once more, since no run had been seen",
    "still": "seen still after a restart",
}
SEEN = {"wrong": "Something wrong? was touched", "reading_lost": "the reading was lost"}
OFFICE = {
    "adult_added": "adults added, or given another role",
    "adult_revoked": "adults revoked",
    "pin_issued": "PINs issued",
    "badge_issued": "badges read in",
    "codes_issued": "sets of spare codes issued",
    "roster": "rosters taken in",
    "package": "packages taken in from a stick",
    "package_refused": "packages refused",
    "deputy": "deputy named",
    "datum": "data of the drill set at the screen",
    "job_made": "jobs made at the screen",
    "job_dropped": "jobs taken away again",
    "sheet": "printed sheets asked for on a stick",
    "download": "downloads",
    "download_failed": "downloads that failed",
    "erased": "erased, of what is kept apart",
}
DOOR = (("pin", "PIN"), ("badge", "badge"), ("code", "spare code"))
WHYS = {
    "said": "as said",
    "time": "by time",
    "touch": "by a touch",
    "interruption": "by an interruption",
    "lesson": "with the lesson",
    "every_hole": "a look at every hole",
    "no_spell": "a PIN or badge for every OK",
    "no_more": "nobody begins any more",
}


def room(report: Report) -> Table:
    """What adults asked for in lessons, with how many minutes where it is for a time."""
    minutes = {word: seconds // 60 for word, seconds in report.counts("seconds")}
    rows = tuple(
        (_named(ROOM, words), count, minutes.get(words[0]))
        for words, count in report.ranks.get("room", ())
    )
    heads = ("what", "times", "minutes together")
    note = "– where it is for no time."
    return Table("room", "In lessons, by adults", heads, rows, note=note)


def own(report: Report) -> Table:
    """Adults' own use of the drills."""
    return _counted("own", "Adults' own use", OWN, report)


def asked(report: Report) -> Table:
    """What was asked on the way, and answered."""
    return _counted("on_the_way", "Asked on the way", ASKED, report)


def seen(report: Report, told: Told) -> Table:
    """What added a line while the drill may have been turning."""
    rows = tuple(
        (SEEN.get(why) or told.interruption(why), count)
        for (_, why), count in report.ranks.get("seen", ())
    )
    heads = ("why", "times")
    return Table("seen", "Warned while the drill may have been turning", heads, rows, alert=True)


def door(report: Report) -> Table:
    """How adults were let in, and how often not."""
    found = dict(report.counts("door"))
    rows = tuple(
        (name, found.get(way, 0), found.get(f"{way}_wrong", 0))
        for way, name in DOOR
        if way in found or f"{way}_wrong" in found
    )
    note = "All adults together: whose it was is not in this report."
    return Table("door", "Letting adults in", ("by", "let in", "not let in"), rows, note=note)


def office(report: Report) -> Table:
    """What was changed, taken in and taken away."""
    return _counted("office", "Changed, taken in, taken away", OFFICE, report)


def _counted(of: str, title: str, words: Mapping[str, str], report: Report) -> Table:
    rows: tuple[Row, ...] = tuple(
        (_named(words, found), count) for found, count in report.ranks.get(of, ())
    )
    return Table(of, title, ("what", "times"), rows)


def _named(words: Mapping[str, str], found: tuple[str, ...]) -> str:
    """What was counted, and with it the word that tells one from another."""
    what, why = found
    name = words.get(what, said_plainly(what))
    if not why:
        return name
    return f"{name}: {WHYS.get(why, said_plainly(why))}"
