"""Patterns of every sort to write out and trace in again, and what has to come back."""

from dataclasses import replace
from functools import cache

import pytest
from drafted import drafted
from published.bodies import chart_bodies
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations.bodyside import split_sides
from tracker.body.estimate import estimate
from tracker.drafting.skirt import TO_ESTIMATE, draft_skirt
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


@cache
def skirt() -> Pattern:
    return draft_skirt(estimate(chart_bodies()[2].body, TO_ESTIMATE)).pattern


def fish() -> Pattern:
    """The bodice with a double-pointed dart in its back, in two bent lines."""
    drawn = bodice()
    up, low = complex(120, 300), complex(120, 60)
    legs = (
        Curve(up, ((complex(108, 180),), (low,))),
        Curve.cubic(up, complex(133, 240), complex(134, 150), low),
    )
    dart = Dart("fish dart", BodySide.BOTH, legs, 12.0, "to the centre")
    back = drawn.piece("back")
    return settled(drawn.with_pieces(replace(back, darts=(*back.darts, dart))))


@cache
def patterns() -> dict[str, Pattern]:
    return {
        "drawn by hand": bodice(),
        "with a sleeve": sleeved(),
        "a posture, drafted": drafted(5),
        "a skirt": skirt(),
        "with a fish dart": fish(),
        "right and left apart": settled(split_sides(bodice(), ("front", "back")).pattern),
        "on paper": paper(),
    }


def assert_alike(one: Piece, other: Piece, within: float) -> None:
    for word in ("name", "side", "layer", "copies", "cut", "fold", "taken_from", "corners"):
        assert getattr(one, word) == getattr(other, word)
    for a, b in zip(one.edges, other.edges, strict=True):
        assert (a.key, a.start, a.end, a.mouths) == (b.key, b.start, b.end, b.mouths)
        if a.parts:
            assert a.length == pytest.approx(b.length, abs=2 * within)
        else:
            assert a.declared_mm == b.declared_mm
    for d, e in zip(sorted(one.darts, key=named), sorted(other.darts, key=named), strict=True):
        assert (d.key, d.pressed, d.mouth) == (e.key, e.pressed, e.mouth)
        assert d.stand_back_mm == e.stand_back_mm
        assert abs(d.pivot - e.pivot) < 0.002
        assert d.intake_mm == pytest.approx(e.intake_mm, abs=2 * within)
        for leg, same in zip(d.legs, e.legs, strict=True):
            assert max(leg.nearest(p)[1] for p in same.flattened(0.5)) <= 2 * within
    for n, m in zip(one.notches, other.notches, strict=True):
        assert (n.key, n.edge, n.corner, n.count) == (m.key, m.edge, m.corner, m.count)
        assert n.distance_mm == pytest.approx(m.distance_mm, abs=0.01)
    for v, w in zip(sorted(one.levels, key=named), sorted(other.levels, key=named), strict=True):
        assert (v.key, v.edges, len(v.strokes)) == (w.key, w.edges, len(w.strokes))
        for s, t in zip(v.strokes, w.strokes, strict=True):
            assert [abs(p - q) < 0.2 for p, q in zip(s, t, strict=True)] == [True] * len(s)
    for a, b in zip(one.marks, other.marks, strict=True):
        assert a.key == b.key
        assert abs(a.point - b.point) < 0.002
    for p, q in zip(one.grain or (), other.grain or (), strict=True):
        assert abs(p - q) < 0.002


def named(level: Level | Dart) -> tuple[str, BodySide]:
    return level.key
