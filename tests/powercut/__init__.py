"""Power cuts: the real store's own system calls recorded, then cut at every point and replayed."""
