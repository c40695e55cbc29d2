"""Measurements against stated targets: `python -m tests.bench NAME` runs the module NAME here.

Each module has `main() -> int`: it prints what it measured beside its target and returns 0 only if
every target is met. They are no tests: nothing here runs with the others.
"""
