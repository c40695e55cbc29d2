"""What the contacts say: samples in, readings out, by one pure function.

`hardware` posts a `Sample` for each poll or loss; the runtime feeds it here and hands every
`Change` to `decide`.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Sample:
    """What one poll brought: the level of each discrete input by number, or why there is none.

    `us` is the time since boot in microseconds, taken by the reader when the answer was whole.
    `lost` is empty for a good answer, else a short word: `no_port`, `no_permission`, `in_use`,
    `no_lines`, `silent`, `bad_answer`, `refused`, `unplugged`.
    """

    us: int
    levels: tuple[tuple[int, bool], ...] = ()
    lost: str = ""
