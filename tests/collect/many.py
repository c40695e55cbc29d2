"""Many invented kiosks' downloads, made quickly, with what goes wrong planted in some of them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from kiosk.core.units import Moment
from kiosk.export import About, manifest
from kiosk.export.download import EVENTS
from kiosk.export.folder import Written
from kiosk.store.codec import BEFORE_FIRST

START_US = 1_777_800_000_000_000  # an invented Sunday in May 2026
SHAPE = (
    b'{"body":{"by":"pupil","step":"%b"},"boot":"%b","kind":"step_done","log":"%b","prev":"%b",'
    b'"quality":%d,"seq":%d,"us":%d,"v":1,"wall_us":%d}'
)
STEPS = tuple(f"step_{n}".encode() for n in range(40))


class Told(NamedTuple):
    """One line: its bytes and its hash."""

    data: bytes
    hash: str


@dataclass(frozen=True)
class History:
    """One way that a card went: `since` lines lie before it, whose last has hash `prev`."""

    log: str
    machine: str
    boot: str = "boot1"
    since: int = 0
    prev: str = BEFORE_FIRST
    start_us: int = START_US
    quality: int = 2

    def lines(self, count: int) -> Iterator[Told]:
        """So many lines, each a second after the one before."""
        boot, log, prev = self.boot.encode(), self.log.encode(), self.prev
        for seq in range(self.since + 1, self.since + count + 1):
            us = (seq - self.since) * 1_000_000
            step = STEPS[seq % len(STEPS)]
            clock = (self.quality, seq, us, self.start_us + us)
            data = SHAPE % (step, boot, log, prev.encode(), *clock)
            prev = sha256(data).hexdigest()
            yield Told(data, prev)

    def after(self, lines: list[Told], at: int, boot: str, later_us: int) -> History:
        """Another way on from line `at`, begun `later_us` after the first line of this one."""
        start = START_US + later_us
        return replace(self, boot=boot, since=at, prev=lines[at - 1].hash, start_us=start)


def put(to: Path, history: History, lines: list[Told], first: int = 1) -> Path:
    """A download of these lines, of which the first has the number `first`."""
    to.mkdir(parents=True)
    data = b"".join(line.data + b"\n" for line in lines)
    (to / EVENTS).write_bytes(data)
    last = json.loads(lines[-1].data)
    about = About(
        log=history.log,
        span="since-last",
        first=first,
        last=first + len(lines) - 1,
        prev=json.loads(lines[0].data)["prev"],
        head=lines[-1].hash,
        machine=history.machine,
        software="pillarside 0.1.0",
        schema="0005",
        made=Moment(history.boot, last["us"], last["wall_us"], history.quality),
    )
    file = Written(EVENTS, len(data), sha256(data).hexdigest())
    (to / manifest.NAME).write_bytes(manifest.to_bytes(about, (file,)))
    return to


def kiosk(number: int) -> History:
    """The first history of one kiosk."""
    return History(f"{number:032x}", f"drill-{number}")


def weeks(to: Path, history: History, count: int, parts: int = 4) -> list[Told]:
    """A kiosk's lines as so many downloads, each going on where the one before ended."""
    lines = list(history.lines(count))
    size = -(-count // parts)
    for part, at in enumerate(range(0, count, size)):
        put(to / history.machine / f"week-{part}", history, lines[at : at + size], at + 1)
    return lines


@dataclass
class Planted:
    """What was made: how many lines may be there at the end, and what must be named."""

    lines: int = 0
    named: tuple[str, ...] = ()
    set_aside: int = 0


def plant(to: Path, kiosks: int, each: int) -> Planted:
    """So many kiosks with so many lines, and one of each thing that goes wrong in the first."""
    done, half = Planted(), each // 2
    for number in range(kiosks):
        history = kiosk(number)
        if number == 1:
            _gap(to, history, each, done)
            continue
        lines = weeks(to, history, each)
        done.lines += each
        if number in FAULTS:
            FAULTS[number](to, history, lines, half, done)
    return done


def _named(done: Planted, history: History, what: str) -> None:
    done.named = (*done.named, f"{what}: record {history.log[:8]}")


def _gap(to: Path, history: History, each: int, done: Planted) -> None:
    lines, third = list(history.lines(each)), each // 3
    put(to / history.machine / "a", history, lines[:third])
    put(to / history.machine / "b", history, lines[2 * third :], 2 * third + 1)
    done.lines += each - third
    done.named += (f"lines {third + 1} to {2 * third} were never collected",)


def _another(to: Path, way: History, half: int, done: Planted, what: str, count: int = 0) -> None:
    more = list(way.lines(count or half + 5))
    put(to / way.machine / f"z-{what.replace(' ', '-')}", way, more, way.since + 1)
    done.lines += len(more)
    _named(done, way, what)


def _put_back(to: Path, h: History, lines: list[Told], half: int, done: Planted) -> None:
    way = h.after(lines, half, "boot2", 10 * len(lines) * 1_000_000)
    _another(to, way, half, done, "put back", len(lines))


def _cloned(to: Path, h: History, lines: list[Told], half: int, done: Planted) -> None:
    way = h.after(lines, half, "boot2", half * 1_000_000)
    _another(to, way, half, done, "cloned", len(lines))


def _fork(to: Path, h: History, lines: list[Told], half: int, done: Planted) -> None:
    way = replace(h.after(lines, half, "boot2", 0), quality=0)
    _another(to, way, half, done, "fork", len(lines))


def _changed(to: Path, h: History, lines: list[Told], half: int, done: Planted) -> None:
    """The second half written anew from one changed line on, its chain and list made to fit."""
    prev, forged = lines[half - 1].hash, []
    for at, line in enumerate(lines[half:]):
        said = json.loads(line.data)
        step = "another" if at == 7 else said["body"]["step"]
        said |= {"prev": prev, "body": {"by": "pupil", "step": step}}
        data = json.dumps(said, sort_keys=True, separators=(",", ":")).encode()
        prev = sha256(data).hexdigest()
        forged.append(Told(data, prev))
    put(to / h.machine / "z-changed", h, forged, half + 1)
    done.set_aside += 1
    done.named += (f"changed: line {half + 8} is there in other words",)


def _poison(to: Path, h: History, lines: list[Told], half: int, done: Planted) -> None:
    """A line in the middle that no table can hold, in a download of more than was there."""
    more = list(replace(h, since=len(lines), prev=lines[-1].hash).lines(20))
    folder = put(to / h.machine / "z-poison", h, more, len(lines) + 1)
    data = (folder / EVENTS).read_bytes().split(b"\n")
    data[9] = data[9].replace(b'"v":1', b'"v":' + b"9" * 40)
    (folder / EVENTS).write_bytes(b"\n".join(data))
    done.set_aside += 1
    done.named += (f"z-poison: broken: line {len(lines) + 10} is not what was recorded: v is",)


def _made_anew(to: Path, h: History, lines: list[Told], half: int, done: Planted) -> None:
    anew = replace(h, log="f" + h.log[1:])
    put(to / h.machine / "z-anew", anew, list(anew.lines(half)))
    done.lines += half
    _named(done, anew, "made anew")


FAULTS = {2: _put_back, 3: _cloned, 4: _fork, 5: _changed, 6: _poison, 7: _made_anew}
