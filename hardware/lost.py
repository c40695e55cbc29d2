"""Why a poll brought nothing, as one short word that travels in a `Sample`."""

from __future__ import annotations


class Lost(Exception):
    """A poll or an opening failed; `word` is one of the losses that `Sample.lost` names."""

    def __init__(self, word: str) -> None:
        super().__init__(word)
        self.word = word
