"""The schema steps of the collected database."""
