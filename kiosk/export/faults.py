"""Why a download did not come about, in one short word and one line."""

from __future__ import annotations

import errno

TEXTS = {
    "full": "the stick is full; make room or take another one",
    "read_only": "the stick can't be written to; take another one",
    "gone": "the folder is not there; put the stick in and try again",
    "no_folder": "there is no such folder; make it first, or name one that is there",
    "not_folder": "not a folder; name the folder that the download shall go into",
    "failing": "the stick does not answer as it should; take another one",
    "changed": "what was read back is not what was written; take another stick",
    "damaged": "the record itself is not whole; nothing was taken away",
}

_BY_ERRNO = {
    errno.ENOSPC: "full",
    errno.EDQUOT: "full",
    errno.EFBIG: "full",
    errno.EROFS: "read_only",
    errno.EACCES: "read_only",
    errno.EPERM: "read_only",
    errno.ENOENT: "gone",
    errno.ENODEV: "gone",
    errno.ENXIO: "gone",
    errno.ESTALE: "gone",
    errno.ENOTDIR: "not_folder",
}


class DownloadFault(Exception):
    """The download did not come about, and nothing of it was left behind.

    `why` is one of the words of `TEXTS`; `text` is one line.
    """

    def __init__(self, why: str, where: object, more: str = "") -> None:
        self.why = why
        self.text = f"{where}: {TEXTS[why]}" + (f" ({more})" if more else "")
        super().__init__(self.text)


def fault_of(error: BaseException, where: object) -> DownloadFault:
    """The fault that an error stands for; an OSError inside another error counts."""
    if isinstance(error, DownloadFault):
        return error
    inner = error if isinstance(error, OSError) else _inside(error)
    if inner is None:
        return DownloadFault("failing", where, f"{type(error).__name__}: {error}")
    why = _BY_ERRNO.get(inner.errno or 0, "failing")
    return DownloadFault(why, where, inner.strerror or str(inner))


def _inside(error: BaseException) -> OSError | None:
    for one in (error.__cause__, error.__context__, *error.args):
        if isinstance(one, OSError):
            return one
    return None
