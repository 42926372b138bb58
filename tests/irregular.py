"""Blocks of every sort, drafted once a session for irregular bodies and for the odd regular one."""

from collections.abc import Callable
from functools import cache

from published.bodies import bdims_bodies, posture_bodies
from wardrobe import bodice as by_hand

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.body.body import Body
from tracker.body.estimate import SLEEVE_NEEDS, estimate
from tracker.drafting import skirt, torso, trousers
from tracker.drafting.bodice import draft_bodice
from tracker.drafting.sleeve_wants import Arm
from tracker.errors import TrackerError
from tracker.pattern.pattern import Pattern


def _body(number: int) -> Body:
    """One of 260 women drawn from published measurements, or of the postures."""
    postures = posture_bodies()
    if number % 3 == 2:
        return estimate(postures[number // 3 % len(postures)].body)
    women = bdims_bodies()
    return estimate(women[number * 37 % len(women)].body)


def _done(pattern: Pattern, *steps: Kind) -> Pattern:
    for number, step in enumerate(steps):
        pattern = apply_step(step, pattern, f"style {number}").pattern
    return pattern


def _sleeved(body: Body) -> Pattern:
    arm = Arm.of(estimate(body, SLEEVE_NEEDS))
    return _done(draft_bodice(body).pattern, AddSleeve.to_fit(arm))


def _panelled(body: Body) -> Pattern:
    return _done(draft_bodice(body).pattern, PanelFront(), PanelBack())


_SORTS: dict[str, Callable[[Body], Pattern]] = {
    "bodice by hand": lambda _: by_hand(),
    "bodice": lambda body: draft_bodice(body).pattern,
    "torso": lambda body: torso.draft_torso(estimate(body, torso.TO_ESTIMATE)).pattern,
    "sleeved bodice": _sleeved,
    "panelled bodice": _panelled,
    "joined bodice": lambda body: _done(_panelled(body), JoinSidePanels()),
    "skirt": lambda body: skirt.draft_skirt(estimate(body, skirt.TO_ESTIMATE)).pattern,
    "trousers": lambda body: trousers.draft_trousers(estimate(body, trousers.TO_ESTIMATE)).pattern,
}
SORTS = tuple(_SORTS)


@cache
def block(sort: str, number: int = 0) -> Pattern:
    """Return a block of a sort; a woman it cannot be drafted for makes room for the next."""
    for other in range(number, number + 60, 3):
        try:
            return _SORTS[sort](_body(other))
        except TrackerError:
            continue
    raise AssertionError(f"no {sort} can be drafted for any of twenty women")
