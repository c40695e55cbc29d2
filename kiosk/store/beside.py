"""What an event does beside the chain, in the event's own transaction."""

from __future__ import annotations

from sqlalchemy import Connection

from kiosk.core.events import AdultRevoked, CodePassed, Erased, Event, PackageTaken, RosterTaken
from kiosk.store import erasable, packages, people
from kiosk.store.packages import Lists


def carry_out(connection: Connection, event: Event, lists: Lists | None) -> None:
    """Take away what the event says is gone, and in what it says was taken in.

    `lists` is the roster that was handed in for it.
    """
    match event:
        case Erased(what, ref):
            erasable.erase(connection, what, ref)
        case AdultRevoked(ref):
            people.forget_keys(connection, ref)
            erasable.forget_pin(connection, ref)
        case CodePassed(ref, _, number):
            people.use_up(connection, ref, number)
        case RosterTaken() if lists is not None:
            people.keep_groups(connection, lists.groups, lists.names)
            if lists.started:
                packages.keep(connection, lists.started, 0, (packages.STARTED_WITH,))
        case PackageTaken(_, package, made_us, parts):
            packages.keep(connection, package, made_us, parts)
