"""Checks of a plan: pure functions that return findings."""
