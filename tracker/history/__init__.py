"""Versions and their steps: replay, compare, why."""
