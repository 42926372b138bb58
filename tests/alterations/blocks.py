"""Blocks drafted once for all tests of alterations."""

from functools import cache

from published.bodies import chart_bodies

from tracker.drafting.bodice import draft_bodice
from tracker.pattern.pattern import Pattern


@cache
def drafted(number: int = 0) -> Pattern:
    """A block drafted from one of the chart bodies."""
    return draft_bodice(chart_bodies()[number].body).pattern
