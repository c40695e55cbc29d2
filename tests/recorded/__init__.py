"""How the invented term in `demo/term/` was made: `python -m tests.recorded`.

Seeded dice choose what people at three drills do; the real `decide` and `advance` say what follows,
and only buttons that are shown are touched. Nobody and nothing in it is real.
"""
