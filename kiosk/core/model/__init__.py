"""What things are: machines, materials, bits, work, jobs, steps and hazards.

Frozen values without behaviour beyond simple questions about themselves. `content` makes
them from YAML; `plan` puts them together for one machine, job and pupil.
"""

from __future__ import annotations

from kiosk.core.model.checks import (
    Checks,
)
from kiosk.core.model.hazards import (
    Assessment,
    Control,
    Hazard,
    InstallationCheck,
)
from kiosk.core.model.library import (
    Content,
)
from kiosk.core.model.machines import (
    CheckItem,
    ContactPair,
    ContactTimes,
    Machine,
    Pulley,
    Pulleys,
    Wiring,
)
from kiosk.core.model.people import (
    MAY,
    STANDING,
    Adult,
    Group,
    Policy,
    Pupil,
    Question,
    Roster,
)
from kiosk.core.model.quiet import QuietSpan
from kiosk.core.model.steps import (
    Sequence,
    Step,
    When,
)
from kiosk.core.model.words import (
    Fact,
    Habit,
    Level,
    Needs,
    Part,
    Reading,
)
from kiosk.core.model.work import (
    BitKind,
    Cutting,
    Hole,
    Job,
    Material,
    Reach,
    SpeedBand,
    Work,
)

__all__ = [
    "MAY",
    "STANDING",
    "Adult",
    "Assessment",
    "BitKind",
    "CheckItem",
    "Checks",
    "ContactPair",
    "ContactTimes",
    "Content",
    "Control",
    "Cutting",
    "Fact",
    "Group",
    "Habit",
    "Hazard",
    "Hole",
    "InstallationCheck",
    "Job",
    "Level",
    "Machine",
    "Material",
    "Needs",
    "Part",
    "Policy",
    "Pulley",
    "Pulleys",
    "Pupil",
    "Question",
    "QuietSpan",
    "Reach",
    "Reading",
    "Roster",
    "Sequence",
    "SpeedBand",
    "Step",
    "When",
    "Wiring",
    "Work",
]
