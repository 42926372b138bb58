"""Patterns to show an alteration on: blocks of a woman nobody is, drafted once when asked for.

Each kind of step builds its own example on one of them.
"""

from functools import cache
from typing import TYPE_CHECKING

from tracker.pattern.pattern import Pattern

if TYPE_CHECKING:
    from tracker.body.body import Body
    from tracker.drafting.sleeve_wants import Arm

#: Made up; what a block needs beside it is estimated.
_GIVEN = {
    "height": 1670.0,
    "bust-girth": 920.0,
    "waist-girth": 750.0,
    "hip-girth": 990.0,
    "upper-arm-girth": 290.0,
}


def _body(*needs: str) -> "Body":
    from tracker.body.body import Body
    from tracker.body.estimate import estimate

    return estimate(Body.of(_GIVEN), needs)


@cache
def bodice() -> Pattern:
    """A bodice: front on the fold with bust and waist dart, back with waist and shoulder dart.

    Its seams are side, shoulder and centre back.
    """
    from tracker.body.estimate import BODICE_NEEDS
    from tracker.drafting.bodice import draft_bodice

    return draft_bodice(_body(*BODICE_NEEDS)).pattern


def arm() -> "Arm":
    """Her arm, for a sleeve."""
    from tracker.body.estimate import SLEEVE_NEEDS
    from tracker.drafting.sleeve_wants import Arm

    return Arm.of(_body(*SLEEVE_NEEDS))


@cache
def sleeved() -> Pattern:
    """The bodice with a set-in sleeve; its seams are armhole and underarm besides."""
    from tracker.alterations.engine import apply_step
    from tracker.alterations.kinds.add_a_sleeve import AddSleeve

    return apply_step(AddSleeve.to_fit(arm()), bodice(), "example").pattern


@cache
def lined() -> Pattern:
    """The bodice with a lining copied from its back, before it is said to be one."""
    from dataclasses import replace

    block = bodice()
    copy = replace(block.piece("back"), name="back lining")
    return replace(block, pieces=(*block.pieces, copy))


@cache
def faced() -> Pattern:
    """The bodice with its front neckline faced, and lowered after that."""
    from tracker.alterations.along_seams import AmountAt
    from tracker.alterations.engine import apply_step
    from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
    from tracker.alterations.kinds.trace_a_facing import TraceFacing
    from tracker.alterations.tracing import EdgeOf

    edges = (EdgeOf(piece="front", edge="neckline"),)
    facing = TraceFacing(name="front facing", edges=edges)
    block = apply_step(facing, bodice(), "example").pattern
    lower = AmountAt(corner="centre front neck", distance_mm=0.0, amount_mm=10.0)
    keep = AmountAt(corner="neck point", distance_mm=0.0, amount_mm=0.0)
    step = ReshapeEdge(piece="front", edge="neckline", amounts=(lower, keep))
    return apply_step(step, block, "example").pattern


@cache
def panelled() -> Pattern:
    """The bodice in four panels, front from the shoulder, back from the armhole."""
    from tracker.alterations.engine import apply_step
    from tracker.alterations.kinds.panel_the_back import PanelBack
    from tracker.alterations.kinds.panel_the_front import PanelFront

    front = apply_step(PanelFront(), bodice(), "example").pattern
    return apply_step(PanelBack(), front, "example").pattern


@cache
def torso() -> Pattern:
    """A torso block: the bodice run on to the hip."""
    from tracker.drafting.torso import TO_ESTIMATE, draft_torso

    return draft_torso(_body(*TO_ESTIMATE)).pattern


@cache
def skirt() -> Pattern:
    """A straight skirt to the knee: front on the fold, back with a centre seam."""
    from tracker.drafting.skirt import TO_ESTIMATE, draft_skirt

    return draft_skirt(_body(*TO_ESTIMATE)).pattern


@cache
def trousers() -> Pattern:
    """Trousers from waist to hem; their seams are side, inside leg and the two centres."""
    from tracker.drafting.trousers import TO_ESTIMATE, draft_trousers

    return draft_trousers(_body(*TO_ESTIMATE)).pattern


@cache
def shifted() -> Pattern:
    """The bodice with its side seam moved back at the underarm, which bends the armhole there."""
    from tracker.alterations.along_seams import AmountAt
    from tracker.alterations.engine import apply_step
    from tracker.alterations.kinds.shift_a_seam import ShiftSeam

    amounts = (
        AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=12.0),
        AmountAt(corner="side waist", distance_mm=0.0, amount_mm=0.0),
    )
    step = ShiftSeam(seam="side", towards="back", amounts=amounts)
    return apply_step(step, bodice(), "example").pattern
