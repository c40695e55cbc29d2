"""Commissioning: a technician is walked through the contacts and sees each in each state.

`walking.walk` does the work with a `Person` handed in; `terminal` is a person at a keyboard;
`machine_file` writes the school's machine file; `sheet` holds the values of the printed sheet.
"""
