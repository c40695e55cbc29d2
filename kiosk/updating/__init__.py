"""A newer version from a stick: beside the old one, tried before it counts, and the way back.

`starting` is what the system starts: it chooses the version. It and `versions` import the
standard library alone, so that they run wherever Python does, whatever a version brings along.
"""
