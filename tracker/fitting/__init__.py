"""Fittings, observations and readings, and the alterations they propose."""
