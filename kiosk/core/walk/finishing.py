"""From every state a finish can be reached by people who want to get on."""

from __future__ import annotations

from collections import defaultdict, deque

from kiosk.core.walk.spots import Spot
from kiosk.core.walk.walking import Walk


def is_finish(spot: Spot) -> bool:
    """Whether nobody is at the drill and nothing is wrong: the next pupil or lesson may come."""
    machine = spot.kiosk.machine
    busy = machine.halt or machine.ask_still or machine.own_use
    return spot.kiosk.session is None and not busy


def stuck(walked: Walk) -> int | None:
    """The first state from which touches shown, right PINs, readings and time lead to no finish.

    The search goes backwards over the ways that the walk took.
    """
    before: dict[int, list[int]] = defaultdict(list)
    for start, end in walked.edges:
        before[end].append(start)
    rooms = (node for node in walked.nodes if node.region == "room")
    reached = {node.number for node in rooms if is_finish(node.spot)}
    queue = deque(reached)
    while queue:
        for start in before[queue.popleft()]:
            if start not in reached:
                reached.add(start)
                queue.append(start)
    return next((node.number for node in walked.nodes if node.number not in reached), None)
