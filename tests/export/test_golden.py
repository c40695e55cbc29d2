"""The report over the recorded, invented term, against queries in SQL that share no code with it.

The queries read the downloads' event lines as they lie in the files: each different line once.
"""

from __future__ import annotations

import json
import sqlite3
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from functools import partial
from hashlib import sha256
from pathlib import Path

import pytest

from demo.recorded import write_downloads
from kiosk.cli.sources import of_downloads
from kiosk.content import load
from kiosk.core.events import RECORDED_KINDS, kind_of
from kiosk.core.report import Known, Report, others, report
from kiosk.export.report import Story, story, told_by

pytestmark = pytest.mark.golden

RECORDED_THEN = 75  # kinds of event in the recording; later ones are in tests of their own
ROOT = Path(__file__).parents[2]
LOADED = load(ROOT / "sequences")
STARTS_A_STEP = (
    "'session_started','step_done','stepped_back','not_right','hole_drilled',"
    "'mistake_cleared','interruption_cleared','said_allowed'"
)
ENDS_A_STEP = (
    "'check_asked','drilling_shown','ok_given','interrupted','trouble_named',"
    "'recovery_step_done','session_ended','kiosk_started'"
)


def bit_of(job: str, hole: int) -> str:
    assert LOADED.content is not None
    found = LOADED.content.job(job)
    return found.holes[hole].bit if found else ""


@pytest.fixture(scope="module")
def downloads(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, ...]:
    return write_downloads(tmp_path_factory.mktemp("term"))


@pytest.fixture(scope="module")
def found(downloads: tuple[Path, ...]) -> Report:
    return report(of_downloads(downloads, "all", lambda done, whole: None), Known(bit_of=bit_of))


@pytest.fixture(scope="module")
def told(found: Report) -> Story:
    assert LOADED.content is not None
    return story(found, told_by(LOADED.content, LOADED.words, {}))


@pytest.fixture(scope="module")
def query(downloads: tuple[Path, ...]) -> Iterator[Callable[..., list[tuple[object, ...]]]]:
    """Asks the lines in SQL; `place` is their order as they happened at each drill."""
    connection = sqlite3.connect(":memory:")
    connection.execute(
        "CREATE TABLE e (place INTEGER PRIMARY KEY, log TEXT, seq INT, hash TEXT, boot TEXT,"
        " us INT, wall_us INT, quality INT, kind TEXT, body TEXT, UNIQUE (log, seq, hash))"
    )
    for folder in downloads:  # in the order they were taken
        for line in (folder / "events.jsonl").read_bytes().splitlines():
            said = json.loads(line)
            row = [said[n] for n in ("log", "seq", "boot", "us", "wall_us", "quality", "kind")]
            row.insert(2, sha256(line).hexdigest())
            connection.execute(
                "INSERT OR IGNORE INTO e (log, seq, hash, boot, us, wall_us, quality, kind, body)"
                " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                (*row, json.dumps(said["body"])),
            )
    yield partial(asked, connection)
    connection.close()


def asked(connection: sqlite3.Connection, sql: str) -> list[tuple[object, ...]]:
    return connection.execute(sql).fetchall()


def by_word(query: Callable[..., list[tuple[object, ...]]], kind: str, *fields: str) -> object:
    """How often each word of the fields came with events of a kind."""
    told = ", ".join(f"json_extract(body, '$.{field}')" for field in fields)
    rows = query(f"SELECT {told}, count(*) FROM e WHERE kind = '{kind}' GROUP BY {told}")
    return Counter({tuple(row[:-1]): row[-1] for row in rows})


Query = Callable[..., list[tuple[object, ...]]]


def test_the_term_has_hundreds_of_sessions_and_most_kinds_of_event(query: Query) -> None:
    """Kinds of event that came to the project after the recording are not in it."""
    kinds = {kind for (kind,) in query("SELECT DISTINCT kind FROM e")}
    ((sessions,),) = query("SELECT count(*) FROM e WHERE kind = 'session_started'")

    assert int(str(sessions)) > 300
    assert len(kinds) == RECORDED_THEN
    assert kinds <= set(RECORDED_KINDS)


@pytest.mark.parametrize(
    ("kind", "fields", "of"),
    [
        ("interrupted", ("why",), "interruptions"),
        ("trouble_named", ("trouble",), "troubles"),
        ("not_right", ("step",), "not_right"),
        ("ok_given", ("by",), "checks"),
        ("run_without_ok_seen", ("input",), "runs_without_ok"),
        ("session_ended", ("how",), "endings"),
        ("session_started", ("way",), "ways"),
        ("hole_drilled", ("run",), "run"),
        ("stepped_back", ("step",), "back"),
        ("pre_use_failed", ("item",), "pre_use_failed"),
        ("taken_out_of_use", ("reason",), "out_of_use"),
        ("kiosk_started", ("after",), "restarts"),
        ("noted", ("what",), "notes"),
        ("level_granted", ("level",), "granted"),
        ("level_set", ("level",), "listed"),
    ],
)
def test_what_is_counted_by_word_is_what_sql_counts(
    found: Report, query: Query, kind: str, fields: tuple[str, ...], of: str
) -> None:
    assert Counter(dict(found.ranks[of])) == by_word(query, kind, *fields) != Counter()


@pytest.mark.parametrize("kind", [kind_of(kind) for kind in others.OF])
def test_what_adults_asked_for_and_changed_is_what_sql_counts(
    found: Report, query: Query, kind: str
) -> None:
    """Kinds that came after the recording have no lines in it, and none in the report."""
    of, word, field = others.OF[RECORDED_KINDS[kind]]
    told = f"json_extract(body, '$.{field}')" if field else "''"
    rows = query(f"SELECT {told}, count(*) FROM e WHERE kind = '{kind}' GROUP BY 1")

    counted = {why: n for (what, why), n in found.ranks.get(of, ()) if what == word}

    assert counted == dict(rows)


def test_minutes_are_those_that_sql_adds_up(found: Report, query: Query) -> None:
    for kind, field in others.LENGTHS.items():
        name = kind_of(kind)
        asked = f"SELECT sum(json_extract(body, '$.{field}')) FROM e WHERE kind = '{name}'"
        ((seconds,),) = query(asked)
        assert dict(found.counts("seconds")).get(others.OF[kind][1]) == seconds, kind


def test_holes_while_the_kiosk_was_down_and_bits_are_what_sql_counts(
    found: Report, query: Query
) -> None:
    down = query(
        "SELECT count(*), sum(json_extract(body, '$.minutes')), sum(json_extract(body, '$.holes'))"
        " FROM e WHERE kind = 'down_said'"
    )

    known = dict(found.counts("down"))
    assert [(known.get("days", 0), known.get("minutes"), known.get("holes"))] == down
    changed = by_word(query, "bits_changed", "bit", "what")
    assert Counter(dict(found.ranks.get("bits_changed", ()))) == changed


def test_holes_go_to_the_job_and_bit_of_their_session(found: Report, query: Query) -> None:
    rows = query(
        "SELECT json_extract(s.body, '$.job'), json_extract(s.body, '$.hole'), count(*)"
        " FROM e h LEFT JOIN e s ON s.place = (SELECT max(place) FROM e o WHERE o.log = h.log"
        " AND o.place < h.place AND o.kind IN ('session_started', 'session_ended'))"
        " AND s.kind = 'session_started' WHERE h.kind = 'hole_drilled' GROUP BY 1, 2"
    )
    sums = Counter[tuple[str, str]]()
    for job, hole, count in rows:
        sums[str(job or ""), bit_of(str(job), int(str(hole))) if job else ""] += int(str(count))

    assert Counter({(job, bit): count for job, bit, count in found.holes}) == sums


def test_steps_took_what_sql_says(found: Report, query: Query) -> None:
    """Median, number and how many over a minute of every step of pupils."""
    rows = query(
        f"""WITH r AS (SELECT *, lag(kind) OVER w AS before, lag(us) OVER w AS since,
                lag(boot) OVER w AS was
            FROM e WHERE kind IN ({STARTS_A_STEP}, {ENDS_A_STEP})
            WINDOW w AS (PARTITION BY log ORDER BY place)),
        t AS (SELECT json_extract(body, '$.step') AS step, (us - since) / 1000000 AS s,
                place FROM r WHERE kind = 'step_done' AND json_extract(body, '$.by') = 'pupil'
                AND before IN ({STARTS_A_STEP}) AND was = boot),
        n AS (SELECT step, s, row_number() OVER (PARTITION BY step ORDER BY s) AS at,
                count(*) OVER (PARTITION BY step) AS times FROM t)
        SELECT step, max(times), max(CASE WHEN at = (times + 1) / 2 THEN s END), sum(s > 60)
        FROM n GROUP BY step"""
    )
    expected = {step: (times, middle, slow) for step, times, middle, slow in rows}

    steps = {row.step: row.times for row in found.steps if row.times}

    assert len(steps) > 20
    for step, times in steps.items():
        assert (times.times, times.middle_s, times.slow) == expected[step], step


def test_the_days_add_up_to_what_sql_has_by_day(found: Report, query: Query) -> None:
    """Of boots whose clock was synchronised once; days put together are added up."""
    rows = query(
        """WITH o AS (SELECT boot, wall_us - us AS ahead, min(place) FROM e
                WHERE quality = 2 GROUP BY boot)
        SELECT date((CASE WHEN e.quality = 2 THEN e.wall_us
                     ELSE e.us + ifnull(o.ahead, e.wall_us - e.us) END) / 1000000, 'unixepoch'),
            count(*) FROM e LEFT JOIN o ON o.boot = e.boot
        WHERE kind = 'session_started' AND (e.quality > 0 OR o.ahead IS NOT NULL) GROUP BY 1"""
    )
    by_day = {str(day): int(str(count)) for day, count in rows}

    for row in found.use_by_span:
        dated = [day for day in row.of if day]
        assert sum(by_day.get(day, 0) for day in dated) == row.sessions or "" in row.of
    assert sum(row.sessions for row in found.use_by_span) == found.total("sessions")


def test_groups_are_those_of_the_lessons_they_came_in(found: Report, query: Query) -> None:
    rows = query(
        "SELECT json_extract(l.body, '$.group'), count(*),"
        " count(DISTINCT json_extract(s.body, '$.pupil'))"
        " FROM e s LEFT JOIN e l ON l.place = (SELECT max(place) FROM e o WHERE o.log = s.log"
        " AND o.place < s.place AND o.kind IN ('lesson_opened', 'lesson_closed'))"
        " WHERE s.kind = 'session_started' GROUP BY 1"
    )
    sessions = {str(group): int(str(count)) for group, count, _ in rows}
    pupils = {str(group): int(str(count)) for group, _, count in rows}

    assert {group for row in found.use_by_group for group in row.of} == set(sessions)
    for row in found.use_by_group:
        assert row.sessions == sum(sessions[group] for group in row.of)
        assert row.pupils >= 5
        assert len(row.of) > 1 or pupils[row.of[0]] == row.pupils
    assert min(pupils.values()) < 5  # so that something had to be put together


def test_starts_and_time_run_are_those_of_the_contacts(found: Report, query: Query) -> None:
    rows = query(
        """WITH r AS (SELECT *, lag(json_extract(body, '$.reading')) OVER w AS before,
                lead(json_extract(body, '$.reading')) OVER w AS after,
                lead(us) OVER w AS until, lead(boot) OVER w AS next_boot
            FROM e WHERE kind = 'reading_changed' AND json_extract(body, '$.input') = 'starter'
            WINDOW w AS (PARTITION BY log, boot ORDER BY place))
        SELECT log, count(*), sum(CASE WHEN after = 'off' THEN until - us ELSE 0 END) / 1000000
        FROM r WHERE before = 'off' AND json_extract(body, '$.reading') = 'on' GROUP BY log"""
    )
    expected = {log: (starts, run_s) for log, starts, run_s in rows}

    knowing = [drill for drill in found.drills if drill.starts is not None]

    assert {d.log: (d.starts, d.run_s) for d in knowing} == expected
    assert {d.machine for d in found.drills} > {d.machine for d in knowing}  # blank elsewhere


def test_the_card_that_was_put_back_and_the_renewed_record_are_named(found: Report) -> None:
    faults = {(d.machine, f.what) for d in found.drills for f in d.faults}
    (fork,) = (f for d in found.drills for f in d.faults if f.what == "fork")

    assert faults == {("drill-2", "fork"), ("drill-3", "reset")}
    assert 1 < fork.first <= fork.last
    assert sum(d.begins > 1 for d in found.drills) == 1


def test_the_report_tells_bad_clocks_and_every_chapter(told: Story, found: Report) -> None:
    tables = {table.id: table for table in told.tables}

    assert {remark.what for d in found.drills for remark in d.clock} == {"not_set", "stepped"}
    assert {"clock", "notes", "due", "steps", "groups", "grants", "runs"} <= tables.keys()
    assert len(told.remarks) > 5


def test_lines_are_counted_once_however_downloads_overlap(
    found: Report, query: Query, sum_up: Callable[[str], None]
) -> None:
    ((lines, drills),) = query("SELECT count(*), count(DISTINCT log) FROM e")

    assert found.entries == lines
    sessions, holes = found.total("sessions"), found.drilled
    sum_up(f"golden: {lines} events of {drills} records, {sessions} turns, {holes} holes as in SQL")


def test_a_day_is_where_the_school_is(found: Report) -> None:
    days = [row.of[0] for row in found.use_by_span if len(row.of) == 1 and row.of[0]]

    assert all(datetime.fromisoformat(day).replace(tzinfo=UTC).year == 2026 for day in days)
