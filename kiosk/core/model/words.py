"""The fixed words of the trade that steps, rules and readings are made of."""

from __future__ import annotations

from enum import Enum


class Level(Enum):
    """A pupil's training level on one machine, lowest first."""

    ADULT_BESIDE = "adult beside"
    SHOWN = "shown"
    SUPERVISED = "supervised"
    SIGNED_OFF = "signed off"

    @property
    def word(self) -> str:
        """The level as one short word, as stored in events."""
        return self.value.replace(" ", "_")


class Habit(Enum):
    """How the school uses the isolator, from the machine file."""

    EVERY_HOLE = "every hole"
    BIT_AND_BELT = "bit and belt"
    DAY_END = "day end"
    PLUG = "plug"


class Reading(Enum):
    """What the contacts of one input say. Unknown is never shown as off."""

    OFF = "off"
    ON = "on"
    UNKNOWN = "unknown"
    FAULT = "fault"


class Part(Enum):
    """A part of the set-up or the work that a step touches."""

    BIT = "bit"
    CHUCK = "chuck"
    BELT = "belt"
    TABLE = "table"
    STOP = "stop"
    GUARD = "guard"
    HOLDING = "holding"
    WORK = "work"


class Fact(Enum):
    """What a step makes true: the things the rules of the house ask for before a start."""

    EYES = "eyes"
    HAIR = "hair"
    CLOTHES = "clothes"  # sleeves, ties and cords out of the way
    NO_GLOVES = "no gloves"
    STOPS_POINTED_AT = "stops pointed at"
    ISOLATOR_OFF = "isolator off"
    SPINDLE_STILL = "spindle still"
    BIT_FITTED = "bit fitted"
    BIT_TRUE = "bit true"
    KEY_OUT = "key out"
    SPEED_SET = "speed set"
    BELT_COVER_SHUT = "belt cover shut"
    TABLE_SET = "table set"
    DEPTH_SET = "depth set"
    DUST_CONTROLLED = "dust controlled"
    MARKED = "marked"
    HELD = "held"
    PUSHED = "pushed"  # the push test
    ON_MARK = "on mark"
    TRIAL_STROKE = "trial stroke"
    GUARD_DOWN = "guard down"
    SET_UP_SEEN = "set-up seen"  # a kept set-up looked at by this pupil


class Needs(Enum):
    """What must hold before hands go in at a step."""

    NOTHING = "nothing"
    ISOLATOR_OFF = "isolator off"
    STILL = "still"  # stop pressed and spindle seen still
