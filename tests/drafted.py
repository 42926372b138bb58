"""Bodice blocks drafted once for all tests that alter them, from published bodies."""

from functools import cache

from published.bodies import chart_bodies, posture_bodies

from tracker.drafting.bodice import draft_bodice
from tracker.drafting.bodice_wants import BodiceChoices
from tracker.pattern.pattern import Pattern


@cache
def drafted(number: int = 0) -> Pattern:
    """Return a block: an even size with a shoulder dart, or a posture with an eased shoulder."""
    if number == 0:
        return draft_bodice(chart_bodies()[3].body).pattern
    body = posture_bodies()[number % len(posture_bodies())].body
    return draft_bodice(body, choices=BodiceChoices(back_shoulder="ease")).pattern
