"""Collecting many drills' records."""
