"""Steps made up at random for a pattern as it stands: sensible, bold and impossible ones."""

import random
from collections.abc import Callable

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.add_a_notch import AddNotch
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern

Maker = Callable[[random.Random, Pattern], Kind]


def _side(rng: random.Random) -> BodySide:
    return rng.choice([BodySide.BOTH] * 3 + [BodySide.RIGHT, BodySide.LEFT])


def _amounts(rng: random.Random, start: str, end: str, most: float) -> tuple[AmountAt, ...]:
    def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
        return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)

    amount = rng.uniform(-most, most)
    shape = rng.randrange(3)
    if shape == 0:
        return (at(start, amount),)
    if shape == 1:
        return (at(start, 0.0), at(end, amount))
    return (at(start, 0.0), at(start, amount, rng.uniform(20, 140)), at(end, 0.0))


def _seam_ends(pattern: Pattern, rng: random.Random) -> tuple[str, str, str]:
    seam = rng.choice(pattern.seams)
    one, last = seam.first[0], seam.first[-1]
    a, b = pattern.edge_of(one), pattern.edge_of(last)
    return (
        seam.name,
        a.end if one.backward else a.start,
        b.start if last.backward else b.end,
    )


def _take_in(rng: random.Random, pattern: Pattern) -> Kind:
    seam, start, end = _seam_ends(pattern, rng)
    return TakeIn(seam=seam, side=_side(rng), amounts=_amounts(rng, start, end, 14))


def _shift(rng: random.Random, pattern: Pattern) -> Kind:
    seam, start, end = _seam_ends(pattern, rng)
    run = rng.choice(pattern.seam(seam).first + pattern.seam(seam).second)
    return ShiftSeam(
        seam=seam, towards=run.piece, side=_side(rng), amounts=_amounts(rng, start, end, 8)
    )


def _edge(rng: random.Random, pattern: Pattern) -> tuple[str, str, str, str, float]:
    piece = rng.choice(pattern.pieces)
    edge = rng.choice(piece.edges)
    return piece.name, edge.name, edge.start, edge.end, edge.length


def _reshape(rng: random.Random, pattern: Pattern) -> Kind:
    piece, edge, start, end, _ = _edge(rng, pattern)
    return ReshapeEdge(
        piece=piece, edge=edge, side=_side(rng), amounts=_amounts(rng, start, end, 8)
    )


def _corner(rng: random.Random, pattern: Pattern) -> Kind:
    piece, edge, start, _, _ = _edge(rng, pattern)
    return MoveCorner(
        piece=piece, corner=start, edge=edge, along_mm=rng.uniform(-8, 8),
        across_mm=rng.uniform(-8, 8), side=_side(rng),
    )  # fmt: skip


def _dart(rng: random.Random, pattern: Pattern) -> Kind:
    piece, edge, start, _, length = _edge(rng, pattern)
    inside = rng.random() < 0.4
    return AddDart(
        piece=piece, edge=edge, corner=start, distance_mm=rng.uniform(0, length),
        name=f"dart {rng.randrange(10**6)}", width_mm=rng.uniform(3, 16),
        length_mm=rng.uniform(30, 110), inward_mm=rng.uniform(40, 90) if inside else 0.0,
        toward_edge_mm=rng.uniform(15, 38) if inside else 0.0, side=_side(rng),
    )  # fmt: skip


def _notch(rng: random.Random, pattern: Pattern) -> Kind:
    piece = rng.choice(pattern.pieces)
    if piece.notches and rng.random() < 0.7:
        notch = rng.choice(piece.notches)
        return MoveNotch(
            piece=piece.name, notch=notch.name, by_mm=rng.uniform(-30, 30), side=_side(rng)
        )
    edge = rng.choice(piece.edges)
    return AddNotch(
        piece=piece.name, edge=edge.name, corner=edge.start,
        distance_mm=rng.uniform(0, edge.length), name=f"notch {rng.randrange(10**6)}",
        side=_side(rng),
    )  # fmt: skip


def _length(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    return Lengthen(
        line=rng.choice(["waist line", "bust line"]), above_mm=rng.uniform(20, 150),
        by_mm=rng.choice([-1, 1]) * rng.uniform(3, 20), side=_side(rng),
    )  # fmt: skip


def _slash(rng: random.Random, pattern: Pattern) -> Kind:
    piece = rng.choice(pattern.pieces)
    mouth, hinge = rng.sample(piece.edges, 2)
    kind = rng.choice([SlashAndSpread, FoldOut])
    return kind(
        piece=piece.name, mouth_edge=mouth.name, mouth_corner=mouth.start,
        mouth_mm=rng.uniform(0.1, 0.9) * mouth.length, hinge_edge=hinge.name,
        hinge_corner=hinge.start, hinge_mm=rng.uniform(0.1, 0.9) * hinge.length,
        by_mm=rng.uniform(2, 12), side=_side(rng),
    )  # fmt: skip


def _slope(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    return ShoulderSlope(to=rng.choice(list(Slope)), by_mm=rng.uniform(2, 12), side=_side(rng))


def _panel(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    return rng.choice([PanelFront, PanelBack])(side=_side(rng))


MAKERS: tuple[Maker, ...] = (
    _take_in, _take_in, _take_in, _shift, _reshape, _corner, _dart, _notch, _length, _slash,
    _slope, _panel,
)  # fmt: skip


def a_step(rng: random.Random, pattern: Pattern) -> Kind:
    """Make up a step for a pattern.

    Raises:
        TrackerError: it refused its own parameters, as a kind may.
    """
    return rng.choice(MAKERS)(rng, pattern)
